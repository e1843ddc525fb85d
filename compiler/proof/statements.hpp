// Where the statements of a plan stand, so that a place in the text can be given to the one it belongs to.
#pragma once
#include "model/plan.hpp"
#include <vector>

namespace loomsheet {

enum class StatementKind : std::uint8_t { head, part, wire, other, check, verdict };
struct StatementPlace {
    Span at; // its name or label
    StatementKind kind = StatementKind::other;
    int index = none; // of the part, wire, check or verdict
};

class StatementPlaces {
public:
    explicit StatementPlaces(const Plan& plan);
    // The statement that `at` stands in: the last one of its file whose name begins before the end of `at`; null before the
    // first.
    const StatementPlace* before(Span at) const;
    const StatementPlace* after(Span at) const;

private:
    std::vector<StatementPlace> places_; // by file and place
};

} // namespace loomsheet
