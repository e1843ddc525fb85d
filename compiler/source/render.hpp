// Findings as text for people, one line each for editors, or JSON for programs.
#pragma once
#include "source/diagnostic.hpp"
#include <string>

namespace loomsheet {

struct RenderOptions {
    bool colour = false;   // ANSI colours, only asked for on a terminal
    std::size_t most = 20; // findings shown; then "and N more"
};

// file:line:column, the line as typed, an underline that fits UTF-8 and tabs, related places, a help line.
std::string render_text(const Sources& sources, const Findings& findings, const RenderOptions& options);
// file:line:column: error LS204: says (help)
std::string render_short(const Sources& sources, const Findings& findings, const RenderOptions& options);
// An array of objects; all findings, never cut.
std::string render_json(const Sources& sources, const Findings& findings);
// "2 errors, 1 warning" or "no findings"
std::string summary(const Findings& findings);

} // namespace loomsheet
