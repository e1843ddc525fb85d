// Form fields over what is to be ticked and filled in (ISO 32000-1, 12.7), for a tablet. Named as their regions; regions of one
// name are one field, so that what is written once stands wherever it is asked for. Tab order is the order of the regions.
#pragma once
#include "page/page.hpp"
#include "pdf/objects.hpp"
#include <vector>

namespace loomsheet {

void write_form(PdfObjects& objects, const page::Document& document, const std::vector<HPDF_Page>& pages);

} // namespace loomsheet
