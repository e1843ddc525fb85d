#include "sheet/run.hpp"
#include "sheet/figure.hpp"
#include "sheet/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

std::string wire_words(const Circuit& circuit, WireId id) {
    const Wire& wire = circuit.wires[id];
    return wire.colour.empty() ? wire.id : hold_together(wire.id + " " + wire.colour.code());
}

// A step of a run: over which wire or part one comes to a pin.
struct Hop {
    PinId from = none, to = none;
    WireId wire = none;
    PartId part = none; // fuse, contact or splice gone through; none with no wire: a contact between two halves
};

class Net {
public:
    explicit Net(const Circuit& circuit) : circuit_(circuit), hops_(circuit.pins.size()) {
        for (std::size_t i = 0; i < circuit.wires.size(); ++i) {
            const Wire& wire = circuit.wires[i];
            join({wire.from, wire.to, static_cast<WireId>(i), none});
        }
        for (std::size_t i = 0; i < circuit.parts.size(); ++i)
            join_part(static_cast<PartId>(i));
        for (std::size_t i = 0; i < circuit.pins.size(); ++i) {
            const PinId mate = circuit.mate(static_cast<PinId>(i));
            if (mate != none && mate > static_cast<PinId>(i)) join({static_cast<PinId>(i), mate, none, none});
        }
    }

    // The fewest hops from one pin to the other; empty when nothing joins them.
    std::vector<Hop> shortest(PinId from, PinId to) const {
        std::vector<Hop> came(hops_.size());
        std::vector<bool> seen(hops_.size(), false);
        std::vector<PinId> line{from};
        seen[from] = true;
        for (std::size_t i = 0; i < line.size() && !seen[to]; ++i)
            for (const Hop& hop : hops_[line[i]])
                if (!seen[hop.to]) {
                    seen[hop.to] = true;
                    came[hop.to] = hop;
                    line.push_back(hop.to);
                }
        std::vector<Hop> run;
        if (!seen[to]) return run;
        for (PinId at = to; at != from; at = came[at].from)
            run.push_back(came[at]);
        std::reverse(run.begin(), run.end());
        return run;
    }

private:
    const Circuit& circuit_;
    std::vector<std::vector<Hop>> hops_;

    void join(const Hop& hop) {
        if (hop.from == none || hop.to == none) return;
        hops_[hop.from].push_back(hop);
        hops_[hop.to].push_back({hop.to, hop.from, hop.wire, hop.part});
    }

    void join_part(PartId id) {
        const Part& part = circuit_.parts[id];
        if (part.kind == PartKind::splice || part.kind == PartKind::fuse || part.kind == PartKind::breaker)
            join_all(part, id);
        for (const Element& element : part.elements) {
            if (element.kind != ElementKind::contact) continue;
            join({element.a, element.b, none, id});
            join({element.a, element.c, none, id});
        }
    }

    // A fuse, a bar or a joint in the loom: its own pins and those it joins.
    void join_all(const Part& part, PartId id) {
        std::vector<PinId> pins = part.pins;
        pins.insert(pins.end(), part.joined.begin(), part.joined.end());
        for (std::size_t i = 1; i < pins.size(); ++i)
            join({pins[0], pins[i], none, id});
    }
};

PinId pin_of(const Circuit& circuit, const PointRef& point) {
    if (point.pin != none) return point.pin;
    if (point.part == none) return none;
    const auto& pins = circuit.parts[point.part].pins;
    return pins.empty() ? none : pins.front();
}

std::string hop_words(const Circuit& circuit, const Hop& hop) {
    if (hop.wire != none) return wire_words(circuit, hop.wire);
    if (hop.part != none) return circuit.parts[hop.part].id;
    return say(Word::from_to, pin_words(circuit, hop.from), pin_words(circuit, hop.to));
}

void add_once(std::vector<std::string>& list, std::string words) {
    if (std::find(list.begin(), list.end(), words) == list.end()) list.push_back(std::move(words));
}

} // namespace

std::string suspect_words(const Circuit& circuit, const PointRef& point) {
    if (point.wire != none) return wire_words(circuit, point.wire);
    const std::string name = point_words(circuit, point);
    if (point.metal == Metal::joint) return say(Word::contact_at, name);
    if (point.metal == Metal::body) return say(Word::the_body);
    const bool whole = point.pin == none && point.pins.empty() && point.part != none;
    return whole && !circuit.parts[point.part].name.empty() ? name + " " + circuit.parts[point.part].name : name;
}

std::vector<std::string> suspect_words(const Circuit& circuit, const std::vector<RankedSuspect>& ranked) {
    std::vector<std::string> words;
    for (const RankedSuspect& each : ranked) {
        PointRef point;
        point.part = each.suspect.part, point.wire = each.suspect.wire, point.pin = each.suspect.joint;
        point.metal = point.pin != none ? Metal::joint : Metal::whole;
        add_once(words, suspect_words(circuit, point));
    }
    return words;
}

std::vector<std::string> placed_words(const Circuit& circuit, const std::vector<RankedSuspect>& ranked) {
    const auto place = [&](std::size_t i) {
        if (i >= ranked.size()) return std::string();
        const Suspect& one = ranked[i].suspect;
        const PartId part = one.joint != none ? circuit.pins[one.joint].part : one.part;
        return part == none ? std::string() : circuit.place_of(part);
    };
    std::vector<std::string> words = suspect_words(circuit, ranked);
    if (words.size() != ranked.size()) return words; // two of one name
    for (std::size_t i = 0; i < words.size(); ++i)
        if (const std::string here = place(i); !here.empty() && here != place(i + 1)) words[i] = say(Word::suspect_at, words[i], here);
    return words;
}

std::vector<std::string> run_words(const Circuit& circuit, const PointRef& from, const PointRef& to) {
    std::vector<std::string> words;
    const PinId a = pin_of(circuit, from), b = pin_of(circuit, to);
    if (a != none && b != none)
        for (const Hop& hop : Net(circuit).shortest(a, b))
            add_once(words, hop_words(circuit, hop));
    if (words.empty()) words = {point_words(circuit, from), point_words(circuit, to)};
    return words;
}

std::vector<std::string> suspects_of(const Circuit& circuit, const Target& target) {
    if (target.run_is_span && target.run.size() == 2) return run_words(circuit, target.run[0], target.run[1]);
    std::vector<std::string> words;
    for (const PointRef& point : target.run)
        add_once(words, suspect_words(circuit, point));
    return words;
}

std::vector<std::string> blames_of(const Circuit& circuit, const Verdict& verdict) {
    std::vector<std::string> words;
    for (const PointRef& point : verdict.blames)
        add_once(words, suspect_words(circuit, point));
    for (const auto& [from, to] : verdict.blamed_runs)
        for (std::string& step : run_words(circuit, from, to))
            add_once(words, std::move(step));
    for (const Words& outside : verdict.blamed_words)
        add_once(words, outside.text);
    return words;
}

std::vector<std::string> suspects_of(const Plan& plan, const Check& check) {
    std::vector<std::string> words;
    for (const Outcome& outcome : check.outcomes) {
        if (outcome.kind == OutcomeKind::pass) continue;
        const Target& target = outcome.target;
        std::vector<std::string> found;
        if (target.kind == TargetKind::suspects) found = suspects_of(plan.circuit, target);
        if (target.kind == TargetKind::verdict && target.index != none)
            found = blames_of(plan.circuit, plan.verdicts[target.index]);
        for (std::string& one : found)
            add_once(words, std::move(one));
    }
    return words;
}

} // namespace loomsheet
