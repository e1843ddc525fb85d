#include "drawing/paging.hpp"
#include <algorithm>
#include <numeric>
#include <set>

namespace loomsheet::drawing {
namespace {

constexpr std::size_t many_wires = 4, many_pins = 8; // from then on a splice, a module, may stand on several pages

} // namespace

Paging::Paging(const Circuit& circuit, const std::vector<double>& volts)
    : circuit_(circuit), volts_(volts), at_(circuit.pins.size()) {
    for (WireId wire = 0; wire < static_cast<WireId>(circuit.wires.size()); ++wire) {
        if (circuit.wires[wire].from == none || circuit.wires[wire].to == none) continue;
        at_[joint_of(wire, true)].push_back(wire);
        at_[joint_of(wire, false)].push_back(wire);
    }
}

PinId Paging::joint_of(WireId wire, bool from) const {
    const PinId pin = from ? circuit_.wires[wire].from : circuit_.wires[wire].to;
    const Part& part = circuit_.parts[circuit_.pins[pin].part];
    const PinId mate = circuit_.pins[pin].mate;
    return part.kind == PartKind::connector && part.plugs_on != none && mate != none ? mate : pin;
}

bool Paging::is_divisible(PartId id) const {
    const Part& part = circuit_.parts[id];
    if (part.kind == PartKind::battery || part.kind == PartKind::splice || part.kind == PartKind::ground) return false;
    const auto wired = std::count_if(part.pins.begin(), part.pins.end(), [&](PinId pin) { return !at_[pin].empty(); });
    return wired >= static_cast<long>(many_pins);
}

// The elements of a part, and of those inside it, by their pins that lead out; the key is the one that the fewest
// share.
std::vector<Paging::Strand> Paging::strands_of(PartId id) const {
    std::vector<Strand> strands;
    for (PartId inner = 0; inner < static_cast<PartId>(circuit_.parts.size()); ++inner) {
        if (inner != id && circuit_.parts[inner].assembly != id) continue;
        for (const Element& element : circuit_.parts[inner].elements) {
            if (element.b == none) continue;
            Strand strand;
            for (const PinId pin : {element.a, element.b, element.c})
                if (pin != none && circuit_.pins[pin].part == id && circuit_.pins[pin].declared)
                    strand.pins.push_back(pin);
            if (!strand.pins.empty()) strands.push_back(std::move(strand));
        }
    }
    std::vector<int> users(circuit_.pins.size(), 0);
    for (const Strand& strand : strands)
        for (const PinId pin : strand.pins)
            ++users[pin];
    for (Strand& strand : strands) {
        strand.key = strand.pins.front();
        for (const PinId pin : strand.pins)
            if (users[pin] < users[strand.key]) strand.key = pin;
        strand.shared = users;
    }
    return strands;
}

std::vector<Group> Paging::glue(const std::vector<WireId>& wires, bool by_parts) const {
    std::vector<int> one(circuit_.wires.size());
    std::iota(one.begin(), one.end(), 0);
    const auto find = [&](int w) {
        while (one[w] != w)
            w = one[w] = one[one[w]];
        return w;
    };
    std::vector<char> here(circuit_.wires.size(), 0);
    for (const WireId wire : wires)
        here[wire] = 1;
    std::vector<WireId> run;
    const auto join = [&] {
        for (std::size_t i = 1; i < run.size(); ++i)
            one[std::max(find(run[i]), find(run[0]))] = std::min(find(run[i]), find(run[0]));
        run.clear();
    };
    const auto take = [&](PinId pin) {
        for (const WireId wire : at_[pin])
            if (here[wire]) run.push_back(wire);
    };
    for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id) {
        const Part& part = circuit_.parts[id];
        if (part.kind == PartKind::ground || part.kind == PartKind::battery) continue;
        if (part.kind == PartKind::splice) {
            std::size_t ends = part.joined.size();
            for (const PinId pin : part.pins)
                ends += at_[pin].size();
            if (ends >= many_wires || !by_parts) continue;
            for (const PinId pin : part.pins)
                take(pin);
            for (const PinId pin : part.joined)
                take(pin);
        } else if (part.kind == PartKind::connector) {
            for (const PinId pin : part.pins) {
                take(pin);
                if (part.twin != none && circuit_.pins[pin].mate != none) take(circuit_.pins[pin].mate);
                join();
            }
        } else if (by_parts || part.pins.size() <= 2) {
            const bool divisible = is_divisible(id);
            for (const PinId pin : part.pins) {
                take(pin);
                if (divisible) join();
            }
            if (divisible)
                for (const Strand& strand : strands_of(id)) {
                    for (const PinId pin : strand.pins)
                        if (pin == strand.key || strand.shared[pin] <= 1) take(pin);
                    join();
                }
        }
        join();
    }
    std::vector<Group> groups;
    std::vector<int> place(circuit_.wires.size(), none);
    for (const WireId wire : wires) {
        int& at = place[find(wire)];
        if (at == none) at = static_cast<int>(groups.size()), groups.emplace_back();
        groups[at].wires.push_back(wire);
    }
    return groups;
}

std::vector<Group> Paging::groups() const {
    std::vector<WireId> wires;
    for (WireId wire = 0; wire < static_cast<WireId>(circuit_.wires.size()); ++wire)
        if (circuit_.wires[wire].from != none && circuit_.wires[wire].to != none) wires.push_back(wire);
    std::vector<Group> made = glue(wires, true);
    for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id) { // those without a wire
        const Part& part = circuit_.parts[id];
        if (part.kind == PartKind::connector || part.kind == PartKind::ground || part.assembly != none) continue;
        const bool wired =
            std::any_of(part.pins.begin(), part.pins.end(), [&](PinId pin) { return !at_[pin].empty(); });
        if (!wired) made.push_back({{}, {id}});
    }
    return made;
}

std::vector<Group> Paging::pieces_of(const Group& group) const {
    std::vector<Group> pieces = glue(group.wires, false);
    if (pieces.size() > 1) return pieces;
    pieces.clear();
    for (const WireId wire : group.wires)
        pieces.push_back({{wire}, {}});
    return pieces;
}

std::vector<Extract> Paging::extracts(const std::vector<Group>& pages, const Phrases& phrases) const {
    const int count = static_cast<int>(pages.size());
    std::vector<Extract> made(count);
    std::vector<std::set<int>> pages_of(circuit_.pins.size()); // by joint
    std::vector<std::vector<int>> wires_on(circuit_.parts.size(), std::vector<int>(count, 0));
    std::vector<int> page_of(circuit_.wires.size(), none);
    for (int page = 0; page < count; ++page) {
        made[page].parts.assign(circuit_.parts.size(), 0);
        made[page].wires.assign(circuit_.wires.size(), 0);
        for (const PartId part : pages[page].parts)
            made[page].parts[part] = 1;
        for (const WireId wire : pages[page].wires) {
            made[page].wires[wire] = 1;
            page_of[wire] = page;
            for (const bool from : {true, false}) {
                const PinId joint = joint_of(wire, from);
                pages_of[joint].insert(page);
                ++wires_on[circuit_.pins[joint].part][page];
            }
        }
    }
    // Each part is on the first page that has a wire of it, so that later pages change nothing on earlier ones;
    // splices, grounds, in-line pairs and what is divisible stand on all where they have a wire.
    std::vector<int> home(circuit_.parts.size(), none);
    for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id) {
        const std::vector<int>& wires = wires_on[id];
        const PartKind kind = circuit_.parts[id].kind;
        const bool everywhere =
            kind == PartKind::splice || kind == PartKind::ground || kind == PartKind::connector || is_divisible(id);
        for (int page = count - 1; page >= 0; --page)
            if (wires[page] > 0) home[id] = page;
        for (int page = 0; page < count; ++page)
            if (wires[page] > 0 && (everywhere || page == home[id])) made[page].parts[id] = 1;
    }
    for (const Part& part : circuit_.parts) // a splice is there where a part is that it joins
        if (part.kind == PartKind::splice && !part.pins.empty())
            for (const PinId pin : part.joined)
                for (int page = 0; page < count; ++page)
                    if (made[page].parts[circuit_.pins[pin].part] &&
                        (pages_of[pin].contains(page) || home[circuit_.pins[pin].part] == page)) {
                        made[page].parts[circuit_.pins[part.pins.front()].part] = 1;
                        pages_of[part.pins.front()].insert(page);
                    }
    for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id) // an element brings its other pins along
        if (is_divisible(id))
            for (const Strand& strand : strands_of(id))
                for (const int page : std::set<int>(pages_of[strand.key]))
                    for (const PinId pin : strand.pins)
                        if (!pages_of[pin].empty()) pages_of[pin].insert(page);
    const auto list = [&](const std::set<int>& others) {
        std::string words;
        for (const int page : others)
            words += (words.empty() ? "" : ", ") + std::to_string(page + 1);
        return words;
    };
    for (PinId joint = 0; joint < static_cast<PinId>(circuit_.pins.size()); ++joint) {
        const PartId id = circuit_.pins[joint].part;
        const Part& part = circuit_.parts[id];
        std::set<int> on = pages_of[joint];
        const bool owned =
            part.kind != PartKind::splice && home[id] != none && !is_divisible(id) && part.kind != PartKind::connector;
        if (owned && !on.empty()) on.insert(home[id]);
        if (on.size() < 2 || part.kind == PartKind::ground) continue;
        const std::string name = circuit_.pin_name(joint);
        if (is_divisible(id)) { // the elements are on all these pages, the wires on some
            std::set<int> wired, bare = on;
            for (const WireId wire : at_[joint])
                if (page_of[wire] != none) wired.insert(page_of[wire]), bare.erase(page_of[wire]);
            if (bare.empty()) bare = wired;
            bool drains = false;
            for (const Strand& strand : strands_of(id))
                if (std::find(strand.pins.begin(), strand.pins.end(), joint) != strand.pins.end())
                    for (const PinId pin : strand.pins)
                        drains = drains || volts_[pin] > volts_[joint];
            for (const int page : on) {
                const bool has_wire = wired.contains(page);
                std::set<int> others = has_wire ? bare : wired;
                others.erase(page);
                if (others.empty()) continue;
                if (has_wire == drains)
                    made[page].from[joint] = name + "\n" + phrases.from(list(others));
                else
                    made[page].to[joint] = name + "\n" + phrases.to(list(others));
            }
            continue;
        }
        // It comes from where its volts are highest.
        int source = *on.begin();
        double most = -1;
        const auto feeds = [&](PinId from, int page) {
            if (volts_[from] > most + 1e-9) most = volts_[from], source = page;
        };
        if (owned)
            for (const PinId pin : part.pins)
                if (pin != joint) feeds(pin, home[id]);
        for (const PinId pin : part.joined)
            if (home[circuit_.pins[pin].part] != none) feeds(pin, home[circuit_.pins[pin].part]);
        for (const WireId wire : at_[joint])
            if (page_of[wire] != none)
                feeds(joint_of(wire, true) == joint ? joint_of(wire, false) : joint_of(wire, true), page_of[wire]);
        for (const int page : on) {
            if (page == source) {
                std::set<int> others = on;
                others.erase(page);
                made[page].to[joint] = name + "\n" + phrases.to(list(others));
            } else {
                made[page].from[joint] = name + "\n" + phrases.from(list({source}));
            }
        }
    }
    return made;
}

} // namespace loomsheet::drawing
