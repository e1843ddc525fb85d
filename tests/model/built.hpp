// Texts parsed and built, for the tests of this room. The last text is the plan, those before it are what it uses.
#pragma once
#include "model/build.hpp"
#include "source/catalogue.hpp"
#include "source/render.hpp"
#include "syntax/parse.hpp"
#include <fmt/format.h>
#include <string>

struct Built {
    loomsheet::Sources sources;
    loomsheet::Findings findings;
    loomsheet::Plan plan;

    explicit Built(const std::vector<std::string>& texts) {
        std::vector<loomsheet::Tree> trees;
        for (const auto& text : texts)
            trees.push_back(loomsheet::parse(sources, sources.add(fmt::format("{}.plan", texts.size() - trees.size()), text), findings));
        plan = loomsheet::build(sources, trees, findings);
        findings.sort();
    }
    explicit Built(const std::string& text) : Built(std::vector<std::string>{text}) {}
    Built(const std::string& used, const std::string& text) : Built(std::vector<std::string>{used, text}) {}

    const loomsheet::Circuit& circuit() const { return plan.circuit; }
    // These must be there.
    const loomsheet::Part& part(std::string_view id) const { return plan.circuit.parts.at(plan.circuit.find_part(id)); }
    const loomsheet::Wire& wire(std::string_view id) const { return plan.circuit.wires.at(plan.circuit.find_wire(id)); }
    std::string pin(loomsheet::PinId pin) const { return pin == loomsheet::none ? "none" : plan.circuit.pin_name(pin); }
    std::string mate(std::string_view part, std::string_view name) const {
        return pin(plan.circuit.mate(plan.circuit.find_pin(plan.circuit.find_part(part), name)));
    }
    std::string said() const { return loomsheet::render_short(sources, findings, {}); }
    // "LS201@4:1 LS204@7:12", without the notes
    std::string places() const {
        std::string all;
        for (const auto& finding : findings.list()) {
            if (loomsheet::severity_of(finding) == loomsheet::Severity::note) continue;
            const auto at = sources[finding.at.file].position(finding.at.begin);
            all += fmt::format("{}{}@{}:{}", all.empty() ? "" : " ", loomsheet::code_name(finding.code), at.line, at.column);
        }
        return all;
    }
};
