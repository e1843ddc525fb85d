// Text to tree. What cannot be understood is found at its place and left out; the rest of the statement and all others
// stand. On purpose it lets through what only the model can judge: unknown names, phrases that do not suit a kind of
// part.
#pragma once
#include "source/diagnostic.hpp"
#include "syntax/tree.hpp"

namespace loomsheet {

// File number `file` of `sources`; adds LS001-LS003 and LS1xx to `findings`. Bad bytes (LS001, LS002) give an empty
// tree.
Tree parse(const Sources& sources, std::uint32_t file, Findings& findings, const Vocabulary& vocabulary = plan_vocabulary());

// One fault alone, in the words of `plant`: a tree of that phrase, of none where it is no fault, which is found.
Tree parse_fault(const Sources& sources, std::uint32_t file, Findings& findings);

// The tree of a plan as text, one statement or phrase a line with what was filled in, without commas and places: what
// tests compare.
std::string outline(const Sources& sources, const Tree& tree);

} // namespace loomsheet
