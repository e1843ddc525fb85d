// Trees to a plan: names resolved, quantities in SI, set-ups whole.
#pragma once
#include "model/plan.hpp"
#include "source/diagnostic.hpp"
#include "syntax/tree.hpp"
#include <vector>

namespace loomsheet {

// `trees`: what the plan uses first, the plan's own file last. Adds LS112-LS114, LS2xx, LS501, LS508 and LS901. What is wrong is
// left out of the plan; the rest is whole. `asked` is a fault from the command line, see `parse_fault`.
Plan build(const Sources& sources, const std::vector<Tree>& trees, Findings& findings, const Tree* asked = nullptr);

// The paths that the `use` statements of a tree name, with their places.
std::vector<Words> used_paths(const Sources& sources, const Tree& tree);

} // namespace loomsheet
