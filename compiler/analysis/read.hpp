// From a path to the trees of a plan and of all that it uses.
#pragma once
#include "source/diagnostic.hpp"
#include "source/disk.hpp"
#include "syntax/tree.hpp"
#include <optional>
#include <string>
#include <vector>

namespace loomsheet {

struct Text {
    DiskError unreadable;      // the plan's own file; then there is nothing else
    std::vector<Tree> trees;   // what is used first, the plan's own file last
    std::optional<Tree> fault; // what the command line puts in
    Span start;                // of the plan's own file
};

// Reads `path` from `disk` (and what it uses), adds the files to `sources`. `fault` is what the command line puts in, empty for
// none: a source of its own, whose findings stand in it. Adds LS0xx and what is wrong with the form.
Text read_text(Sources& sources, Disk& disk, const std::string& path, const std::string& fault, Findings& findings);

} // namespace loomsheet
