// Why a document cannot be written, in words. Thrown inside this room only; write_pdf turns it into PdfResult::error.
#pragma once
#include <stdexcept>

namespace loomsheet {

struct PdfTrouble : std::runtime_error {
    using std::runtime_error::runtime_error;
};

} // namespace loomsheet
