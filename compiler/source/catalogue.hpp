// The catalogue of findings: one row a code. Families by hundreds:
//   0 files and bytes   1 form   2 names and values   3 flow of the plan   4 wiring   5 set-up and measuring
//   8 the sheet         9 what has no meaning yet
#pragma once
#include "source/diagnostic.hpp"
#include <span>
#include <string_view>

namespace loomsheet {

struct CatalogueRow {
    int code;
    Severity severity;
    std::string_view title; // a few words, lower case
};

std::span<const CatalogueRow> catalogue(); // in order of code
const CatalogueRow* find_in_catalogue(int code);
// "LS204"
std::string code_name(int code);
// The page grammar/findings/LS204.md: prose, an example that triggers it, what is said, an example that cures it.
// Empty when there is none (a test holds that there is one for each code).
std::string_view finding_page(int code);

} // namespace loomsheet
