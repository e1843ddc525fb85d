// A plan laid out as a sheet: pages in millimetres, ready for any writer. Its findings say what could not be printed
// as it stands.
#pragma once
#include "page/face.hpp"
#include "page/page.hpp"
#include "sheet/layout/options.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

struct SheetResult {
    page::Document document;
    Findings findings; // LS801 a character that no face has, LS802 a text too wide for its place
};

// The same plan, faces and options give the same document. It keeps no state: several threads may lay out at
// once. Nothing is shrunk or cut without a finding.
SheetResult lay_out(const Plan& plan, const Faces& faces, const SheetOptions& options = {});

} // namespace loomsheet
