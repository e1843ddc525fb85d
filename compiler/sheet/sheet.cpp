#include "sheet/sheet.hpp"

namespace loomsheet {

SheetResult lay_out(const Plan& plan, const Faces&, const SheetOptions&) {
    SheetResult result;
    result.document.title = plan.title;
    result.document.pages.emplace_back();
    return result;
}

} // namespace loomsheet
