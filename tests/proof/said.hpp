// What is said of a plan in one file: form, names and rules in one run, one line a finding, notes left out.
#pragma once
#include "analysis/analysis.hpp"
#include "source/render.hpp"
#include <sstream>
#include <string>
#include <vector>

namespace loomsheet::said {

inline Findings all(Sources& sources, const std::string& text) {
    MemoryDisk disk;
    disk.files["test.plan"] = text;
    Findings proved = analyse(sources, disk, {"test.plan"}).findings;
    std::erase_if(proved.list(), [](const Diagnostic& finding) { return severity_of(finding) == Severity::note; });
    return proved;
}

inline std::string of(const std::string& text) {
    Sources sources;
    const Findings findings = all(sources, text);
    return render_short(sources, findings, {false, 1000});
}

// "LS401 12, LS408 4": codes and lines
inline std::string codes(const std::string& text) {
    Sources sources;
    std::string list;
    const Findings findings = all(sources, text);
    for (const Diagnostic& finding : findings.list()) {
        std::string code = std::to_string(finding.code);
        code.insert(0, 3 - code.size(), '0');
        list += (list.empty() ? "LS" : ", LS") + code + " " + std::to_string(sources[finding.at.file].position(finding.at.begin).line);
    }
    return list;
}

inline std::string without_line(const std::string& text, const std::string& beginning) {
    std::istringstream lines{text};
    std::string kept;
    for (std::string line; std::getline(lines, line);)
        if (!line.starts_with(beginning)) kept += line + "\n";
    return kept;
}

} // namespace loomsheet::said
