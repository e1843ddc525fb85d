// Plans that went wrong in every way: no crash, no endless loop, no exception, and every finding lies inside its file.
#include "model/built.hpp"
#include "source/disk.hpp"
#include "syntax/scan.hpp"
#include <algorithm>
#include <doctest/doctest.h>
#include <random>

using namespace loomsheet;

namespace {
using Piece = std::pair<std::size_t, std::size_t>; // from, length

std::vector<Piece> bytes_of(const std::string& text) {
    std::vector<Piece> pieces;
    for (std::size_t at = 0; at < text.size(); ++at)
        pieces.emplace_back(at, 1);
    return pieces;
}
std::vector<Piece> lines_of(const std::string& text) {
    std::vector<Piece> pieces;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find('\n', at), text.size() - 1) + 1;
        pieces.emplace_back(at, end - at);
        at = end;
    }
    return pieces;
}
std::vector<Piece> tokens_of(const std::string& text) {
    Tree tree;
    scan(text, tree);
    std::vector<Piece> pieces;
    for (const Token& token : tree.tokens)
        pieces.emplace_back(token.begin, token.length);
    return pieces;
}

class Spoiler {
public:
    explicit Spoiler(unsigned seed) : random_(seed) {}
    std::size_t below(std::size_t count) { return std::uniform_int_distribution<std::size_t>(0, count - 1)(random_); }

    // Cuts, doubles or swaps one to six bytes, tokens or lines.
    void spoil(std::string& text) {
        for (auto left = 1 + below(6); left > 0 && !text.empty(); --left) {
            const auto what = below(3);
            const auto pieces = what == 0 ? bytes_of(text) : what == 1 ? tokens_of(text) : lines_of(text);
            if (pieces.empty()) continue;
            const auto [at, length] = pieces[below(pieces.size())];
            const auto [other, other_length] = pieces[below(pieces.size())];
            switch (below(5)) {
            case 0: text.erase(at, length); break;
            case 1: text.insert(other, text.substr(at, length)); break;
            case 2: text.replace(at, length, text.substr(other, other_length)); break;
            case 3: text.resize(at); break; // cut off
            default: text[at] = static_cast<char>(below(256));
            }
        }
    }

private:
    std::mt19937 random_;
};

std::vector<std::string> shipped() {
    RealDisk disk;
    std::vector<std::string> texts;
    for (const char* folder : {"/plans", "/tests/plans"})
        for (const auto& path : disk.list(std::string(LOOMSHEET_ROOT) + folder, ".plan"))
            REQUIRE(disk.read(path, texts.emplace_back()).empty());
    return texts;
}

bool inside(const Sources& sources, Span at) {
    return at.file < sources.size() && at.begin <= at.end && at.end <= sources[at.file].text().size();
}
// Every id points at something, or is none.
bool whole(const Circuit& circuit) {
    const auto is_pin = [&](PinId id) { return id >= none && id < static_cast<int>(circuit.pins.size()); };
    const auto is_part = [&](PartId id) { return id >= none && id < static_cast<int>(circuit.parts.size()); };
    bool good = true;
    for (const Pin& pin : circuit.pins)
        good = good && is_part(pin.part) && pin.part != none && is_pin(pin.mate);
    for (const Wire& wire : circuit.wires)
        good = good && is_pin(wire.from) && is_pin(wire.to);
    for (const Part& part : circuit.parts) {
        good = good && is_part(part.plugs_on) && is_part(part.twin) && is_part(part.assembly) && is_part(part.bolted_to) &&
               is_pin(part.bolted_pin);
        for (const Element& e : part.elements)
            good = good && is_pin(e.a) && is_pin(e.b) && is_pin(e.c);
        for (const PinId joined : part.joined)
            good = good && is_pin(joined) && joined != none;
    }
    for (std::size_t id = 0; id < circuit.parts.size(); ++id) // no circle of panels and places
        circuit.panel_of(static_cast<PartId>(id)), circuit.place_of(static_cast<PartId>(id));
    return good;
}
} // namespace

TEST_CASE("spoiled plans") {
    const auto texts = shipped();
    Spoiler spoiler(20261124);
    int with_findings = 0;
    constexpr int times = 4000;
    for (int i = 0; i < times; ++i) {
        std::string text = texts[spoiler.below(texts.size())];
        spoiler.spoil(text);
        const Built built(texts[spoiler.below(texts.size())], text);
        const auto& found = built.findings.list();
        const bool good = std::all_of(found.begin(), found.end(), [&](const Diagnostic& finding) {
            const auto& related = finding.related;
            return inside(built.sources, finding.at) && find_in_catalogue(finding.code) != nullptr &&
                   std::all_of(related.begin(), related.end(), [&](const Related& r) { return inside(built.sources, r.at); });
        });
        CHECK_MESSAGE(good, "number ", i, "\n", text);
        CHECK_MESSAGE(whole(built.circuit()), "number ", i, "\n", text);
        with_findings += found.empty() ? 0 : 1;
    }
    CHECK(with_findings > times / 2);
}
