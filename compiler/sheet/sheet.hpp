// A plan laid out as a sheet: pages in millimetres, ready for any writer. Says what could not be printed as it
// stands.
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

// The same plan, faces and options give the same document. Threads do not disturb one another. Nothing is ever shrunk
// or cut in silence.
SheetResult lay_out(const Plan& plan, const Faces& faces, const SheetOptions& options = {});

} // namespace loomsheet
