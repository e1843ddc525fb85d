// Reads templates: those that ship, and a shop's own .sheet.
#pragma once
#include "sheet/layout/template.hpp"
#include "sheet/words/wording.hpp"

namespace loomsheet {

// What the command line asks for over the template's own words.
struct TemplateWishes {
    std::optional<LanguageName> language;
    std::optional<Paper> paper;
};
struct TemplateResult {
    std::optional<SheetTemplate> sheet; // none with errors in `findings`
    DiskError unreadable;
};
TemplateResult read_template(Sources& sources, Disk& disk, const std::string& path, const TemplateWishes& wishes, Findings& findings);
// `name` is one of shipped_names(".sheet").
TemplateResult shipped_template(Sources& sources, Disk& disk, const std::string& name, const TemplateWishes& wishes, Findings& findings);
// `workshop`, in English; made once.
const SheetTemplate& workshop_template();

} // namespace loomsheet
