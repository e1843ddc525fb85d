// A plan laid out as a sheet: pages in millimetres, ready for any writer. Says what could not be printed as it
// stands.
#pragma once
#include "faults/diagnosis.hpp"
#include "faults/planted.hpp"
#include "sheet/face.hpp"
#include "sheet/page.hpp"
#include "sheet/template.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

struct SheetOptions {
    std::optional<Paper> paper = std::nullopt; // else the template's
    const Diagnosis* diagnosis = nullptr;      // who is suspect where; without it what the plan itself names
    const Prediction* prediction = nullptr;    // of sound cars
    const SheetTemplate* sheet =
        nullptr; // else `workshop` in English; blocks of the proof need diagnosis and prediction
    const std::vector<PlantedCar>* planted = nullptr; // by plant: what the teacher's sheets print
};
struct SheetResult {
    page::Document document;
    Findings findings; // LS801 a character that no face has, LS802 a text too wide for its place
};

// The same plan, faces and options give the same document. Threads do not disturb one another. Nothing is ever shrunk
// or cut in silence.
SheetResult lay_out(const Plan& plan, const Faces& faces, const SheetOptions& options = {});

} // namespace loomsheet
