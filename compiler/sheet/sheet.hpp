// A plan laid out as a worksheet: pages in millimetres, ready for any writer. Says what could not be printed as it
// stands.
#pragma once
#include "faults/diagnosis.hpp"
#include "sheet/face.hpp"
#include "sheet/page.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

enum class Paper : std::uint8_t { a4, letter };
struct SheetOptions {
    Paper paper = Paper::a4;
    const Diagnosis* diagnosis = nullptr; // who is suspect where; without it what the plan itself names
};
struct SheetResult {
    page::Document document;
    Findings findings; // LS801 a character that no face has, LS802 a text too wide for its place
};

// The same plan, faces and options give the same document. Nothing is ever shrunk or cut in silence.
SheetResult lay_out(const Plan& plan, const Faces& faces, const SheetOptions& options = {});

} // namespace loomsheet
