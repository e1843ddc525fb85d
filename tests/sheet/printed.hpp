// Plans compiled and laid out for the tests of the sheet.
#pragma once
#include "sheet/sheet.hpp"
#include <string>
#include <vector>

namespace printed {

const loomsheet::Faces& faces();
// Compiled from text; fails the test when the plan has errors.
loomsheet::Plan plan(const std::string& text);
loomsheet::Plan plan_file(const std::string& path); // from the root of the repository
std::vector<std::string> shipped_plans();           // paths from the root

loomsheet::SheetResult sheet(const loomsheet::Plan& plan, std::optional<loomsheet::Paper> paper = {});
// As `print` does it: with the suspects that are computed.
loomsheet::SheetResult proved_sheet(const loomsheet::Plan& plan, std::optional<loomsheet::Paper> paper = {},
                                    const loomsheet::SheetTemplate* sheet = nullptr);
// A plan that ships, proved once for all sheets of it; by its path from the root.
struct Proved {
    loomsheet::Plan plan;
    loomsheet::Prediction prediction;
    loomsheet::Diagnosis diagnosis;
    std::vector<loomsheet::PlantedCar> planted;
};
const Proved& proved(const std::string& path);
loomsheet::SheetResult sheet_of(const Proved& proved, std::optional<loomsheet::Paper> paper, const loomsheet::SheetTemplate& sheet);
// A template that ships, in a language that ships; made once.
const loomsheet::SheetTemplate& shipped(const std::string& name, const std::string& language = "english");
// Blanks that hold together made plain.
std::string plain(std::string text);
// All printed texts of a page, a blank between.
std::string words(const loomsheet::page::Page& page);
std::string words(const loomsheet::page::Document& document);

// A small whole plan; `checks` and what follows them come behind its circuit, `head` behind its head's first line.
std::string lamp_plan(const std::string& checks, const std::string& head = "");

} // namespace printed
