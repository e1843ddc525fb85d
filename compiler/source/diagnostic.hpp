// One type for everything the compiler has to say about a plan. Stages return findings; only the renderers print.
#pragma once
#include "source/codes.hpp"
#include "source/text.hpp"
#include <cstdint>
#include <string>
#include <vector>

namespace loomsheet {

enum class Severity : std::uint8_t { note, warning, error };

// A second place that belongs to the finding, such as "first declared here".
struct Related {
    Span at;
    std::string says;
};

struct Diagnostic {
    int code = 0;     // a number of the catalogue; its severity and title stand there
    Span at;          // what is underlined
    std::string says; // one sentence, words of the trade, no full stop needed
    std::string help; // what to write instead; may be empty
    std::vector<Related> related;
};

// As the catalogue says; a code that is not in it counts as an error.
Severity severity_of(const Diagnostic& finding);

class Findings {
public:
    void add(Diagnostic finding) { list_.push_back(std::move(finding)); }
    void add(int code, Span at, std::string says, std::string help = {}) {
        list_.push_back({code, at, std::move(says), std::move(help), {}});
    }
    void add(Findings other);
    // By file, place, code and words; the same finding at the same place stands once.
    void sort();
    bool empty() const { return list_.empty(); }
    std::size_t count(Severity severity) const;
    bool has_errors() const { return count(Severity::error) > 0; }
    const std::vector<Diagnostic>& list() const { return list_; }
    std::vector<Diagnostic>& list() { return list_; }

private:
    std::vector<Diagnostic> list_;
};

} // namespace loomsheet
