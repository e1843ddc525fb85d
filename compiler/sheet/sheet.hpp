// A plan laid out as a sheet: pages in millimetres, ready for any writer. Says what could not be printed as it
// stands.
#pragma once
#include "faults/diagnosis.hpp"
#include "sheet/face.hpp"
#include "sheet/page.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

enum class SheetKind : std::uint8_t {
    workshop, // for the technician at the car
    proof,    // for the foreman's file: what the plan finds; needs diagnosis and prediction
};
enum class Paper : std::uint8_t { a4, letter };
struct SheetOptions {
    Paper paper = Paper::a4;
    const Diagnosis* diagnosis = nullptr; // who is suspect where; without it what the plan itself names
    const Prediction* prediction = nullptr; // of sound cars
    SheetKind kind = SheetKind::workshop;
};
struct SheetResult {
    page::Document document;
    Findings findings; // LS801 a character that no face has, LS802 a text too wide for its place
};

// The same plan, faces and options give the same document. Nothing is ever shrunk or cut in silence.
SheetResult lay_out(const Plan& plan, const Faces& faces, const SheetOptions& options = {});

} // namespace loomsheet
