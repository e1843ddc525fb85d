#include "sheet/words/run.hpp"
#include "faults/between.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

std::string wire_words(const Circuit& circuit, WireId id) {
    const Wire& wire = circuit.wires[id];
    return wire.colour.empty() ? wire.id : hold_together(wire.id + " " + wire.colour.code());
}

void add_once(std::vector<std::string>& list, std::string words) {
    if (std::find(list.begin(), list.end(), words) == list.end()) list.push_back(std::move(words));
}

PointRef point_at(const Suspect& suspect) {
    PointRef point;
    point.part = suspect.part, point.wire = suspect.wire, point.pin = suspect.joint;
    point.metal = point.pin != none ? Metal::joint : Metal::whole;
    return point;
}

} // namespace

std::string suspect_words(const Wording& say, const Circuit& circuit, const PointRef& point) {
    if (point.wire != none) return wire_words(circuit, point.wire);
    const std::string name = point_words(say, circuit, point);
    if (point.metal == Metal::joint) return say(Word::contact_at, name);
    if (point.metal == Metal::body) return say(Word::the_body);
    const bool whole = point.pin == none && point.pins.empty() && point.part != none;
    return whole && !circuit.parts[point.part].name.empty() ? name + " " + circuit.parts[point.part].name : name;
}

std::vector<std::string> suspect_words(const Wording& say, const Circuit& circuit, const std::vector<RankedSuspect>& ranked) {
    std::vector<std::string> words;
    for (const RankedSuspect& each : ranked)
        add_once(words, suspect_words(say, circuit, point_at(each.suspect)));
    return words;
}

std::vector<std::string> placed_words(const Wording& say, const Circuit& circuit, const std::vector<RankedSuspect>& ranked) {
    const auto place = [&](std::size_t i) {
        if (i >= ranked.size()) return std::string();
        const Suspect& one = ranked[i].suspect;
        const PartId part = one.joint != none ? circuit.pins[one.joint].part : one.part;
        return part == none ? std::string() : circuit.place_of(part);
    };
    std::vector<std::string> words = suspect_words(say, circuit, ranked);
    if (words.size() != ranked.size()) return words; // two of one name
    for (std::size_t i = 0; i < words.size(); ++i)
        if (const std::string here = place(i); !here.empty() && here != place(i + 1)) words[i] = say(Word::suspect_at, words[i], here);
    return words;
}

std::vector<std::string> run_words(const Wording& say, const Circuit& circuit, const PointRef& from, const PointRef& to) {
    std::vector<std::string> words;
    for (const Suspect& each : suspects_between(circuit, build_graph(circuit), from, to))
        add_once(words, suspect_words(say, circuit, point_at(each)));
    if (words.empty()) words = {point_words(say, circuit, from), point_words(say, circuit, to)};
    return words;
}

std::vector<std::string> suspects_of(const Wording& say, const Circuit& circuit, const Target& target) {
    if (target.run_is_span && target.run.size() == 2) return run_words(say, circuit, target.run[0], target.run[1]);
    std::vector<std::string> words;
    for (const PointRef& point : target.run)
        add_once(words, suspect_words(say, circuit, point));
    return words;
}

std::vector<std::string> blames_of(const Wording& say, const Circuit& circuit, const Verdict& verdict) {
    std::vector<std::string> words;
    for (const PointRef& point : verdict.blames)
        add_once(words, suspect_words(say, circuit, point));
    for (const auto& [from, to] : verdict.blamed_runs)
        for (std::string& step : run_words(say, circuit, from, to))
            add_once(words, std::move(step));
    for (const Words& outside : verdict.blamed_words)
        add_once(words, outside.text);
    return words;
}

std::vector<std::string> suspects_of(const Wording& say, const Plan& plan, const Check& check) {
    std::vector<std::string> words;
    for (const Outcome& outcome : check.outcomes) {
        if (outcome.kind == OutcomeKind::pass) continue;
        const Target& target = outcome.target;
        std::vector<std::string> found;
        if (target.kind == TargetKind::suspects) found = suspects_of(say, plan.circuit, target);
        if (target.kind == TargetKind::verdict && target.index != none) found = blames_of(say, plan.circuit, plan.verdicts[target.index]);
        for (std::string& one : found)
            add_once(words, std::move(one));
    }
    return words;
}

} // namespace loomsheet
