#include "hand.hpp"
#include "model/build.hpp"
#include "syntax/parse.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace hand {
namespace {

std::vector<std::string> wrapped(double room, const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
        const std::string word = text.substr(at, end - at);
        const bool forced = at > 0 && text[at - 1] == '\n';
        if (lines.empty() || forced || 2.0 * static_cast<double>(lines.back().size() + 1 + word.size()) > room)
            lines.push_back(word);
        else
            lines.back() += " " + word;
        at = end + 1;
    }
    return lines;
}
std::string pages(const std::string& word, const std::string& list) { return word + " " + list; }

} // namespace

const Measure& measure() {
    static const Measure made{
        [](Type, const std::string& text) { return 2.0 * static_cast<double>(text.size()); },
        [](Type, double room, const std::string& text) { return wrapped(room, text); },
    };
    return made;
}

const Phrases& phrases() {
    static const Phrases made{[](const std::string& list) { return pages("to", list); },
                              [](const std::string& list) { return pages("from", list); }, "some pins"};
    return made;
}

Circuit circuit(const std::string& lines) {
    Sources sources;
    Findings findings;
    std::vector<Tree> trees;
    trees.push_back(parse(sources, sources.add("test.plan", "plan TEST-01 \"Test\"\n" + lines), findings));
    const Plan plan = build(sources, trees, findings);
    for (const auto& finding : findings.list())
        CHECK_MESSAGE(severity_of(finding) != Severity::error, finding.says);
    return plan.circuit;
}

PinId pin(const Circuit& circuit, const std::string& name) {
    for (PinId id = 0; id < static_cast<PinId>(circuit.pins.size()); ++id)
        if (circuit.pin_name(id) == name) return id;
    FAIL("no pin " << name);
    return none;
}

drawing::Node node(drawing::NodeKind kind) {
    drawing::Node made;
    made.kind = kind;
    made.ports = {bare_port(true), bare_port(false)};
    return made;
}

drawing::Edge edge(int from, int to, WireId wire) {
    drawing::Edge made;
    made.from = from, made.from_port = 1, made.to = to, made.to_port = 0, made.wire = wire;
    return made;
}

int Chance::below(int most) {
    state_ = state_ * 1664525U + 1013904223U;
    return static_cast<int>((state_ >> 8) % static_cast<unsigned>(most));
}

} // namespace hand
