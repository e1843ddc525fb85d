// The rules of the paper (sheet.md, rules 1, 2, 4, 5; figures from trade data section 13), held against a laid-out
// document.
#pragma once
#include "page/axes.hpp"
#include <string>
#include <vector>

// What is broken, one sentence each; empty when all is well.
std::vector<std::string> broken_rules(const loomsheet::page::Document& document, const loomsheet::Margins& margins = {});
