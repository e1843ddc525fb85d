// One text parsed, for the tests of this room.
#pragma once
#include "source/catalogue.hpp"
#include "source/render.hpp"
#include "syntax/parse.hpp"
#include <fmt/format.h>
#include <string>

struct Parsed {
    loomsheet::Sources sources;
    loomsheet::Findings findings;
    loomsheet::Tree tree;

    explicit Parsed(std::string text) {
        const auto file = sources.add("test.plan", std::move(text));
        tree = loomsheet::parse(sources, file, findings);
    }
    std::string_view text(std::uint32_t token) const { return sources.text(tree.span(token, 1)); }
    std::string outline() const { return loomsheet::outline(sources, tree); }
    std::string said() const { return loomsheet::render_short(sources, findings, {}); }
    // "LS101@4:1 LS109@7:12"
    std::string places() const {
        std::string all;
        for (const auto& finding : findings.list()) {
            const auto at = sources[finding.at.file].position(finding.at.begin);
            all += fmt::format("{}{}@{}:{}", all.empty() ? "" : " ", loomsheet::code_name(finding.code), at.line, at.column);
        }
        return all;
    }
};
