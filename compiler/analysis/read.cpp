#include "analysis/read.hpp"
#include "model/build.hpp"
#include "syntax/parse.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

namespace {
// Reads a file and all that it uses, what is used first. Each file is read once.
class Loader {
public:
    Loader(Sources& sources, Disk& disk, Findings& findings) : sources_(sources), disk_(disk), findings_(findings) {}
    std::vector<Tree> trees;

    DiskError load(const std::string& path) {
        std::string text;
        if (auto error = disk_.read(path, text); !error.empty()) return error;
        open_.push_back(path);
        const auto file = sources_.add(path, std::move(text));
        Tree tree = parse(sources_, file, findings_);
        for (const Words& use : used_paths(sources_, tree))
            take_in(beside(path, use.text), use);
        trees.push_back(std::move(tree));
        open_.pop_back();
        done_.push_back(path);
        return {};
    }

private:
    Sources& sources_;
    Disk& disk_;
    Findings& findings_;
    std::vector<std::string> open_, done_;

    void take_in(const std::string& path, const Words& use) {
        const auto holds = [&path](const std::vector<std::string>& list) {
            return std::find(list.begin(), list.end(), path) != list.end();
        };
        if (holds(open_)) {
            std::string way;
            for (const auto& file : open_)
                way += file + " uses ";
            findings_.add(finding::file_uses_itself, use.at, fmt::format("`{}` uses itself: {}{}", use.text, way, path),
                          "take one `use` out");
        } else if (!holds(done_)) {
            if (const auto error = load(path); !error.empty())
                findings_.add(finding::used_file_unreadable, use.at, error, "the path is seen from the file that uses it");
        }
    }
};
} // namespace

Text read_text(Sources& sources, Disk& disk, const std::string& path, const std::string& fault, Findings& findings) {
    Text text;
    text.start.file = static_cast<std::uint32_t>(sources.size());
    Loader loader(sources, disk, findings);
    text.unreadable = loader.load(path);
    text.trees = std::move(loader.trees);
    if (text.unreadable.empty() && !fault.empty()) text.fault = parse_fault(sources, sources.add("--fault", fault), findings);
    return text;
}

} // namespace loomsheet
