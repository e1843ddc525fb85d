#include "circuit/situation.hpp"
#include <algorithm>

namespace loomsheet {

Situation::Situation(const Circuit& circuit, const Setup& setup) : circuit_(circuit), setup_(setup) {
    for (const SetupItem& item : setup.items) {
        if (item.kind == ItemKind::key) key_ = item.word;
        running_ |= item.kind == ItemKind::engine_running || item.kind == ItemKind::engine_speed;
        asleep_ |= item.kind == ItemKind::asleep;
    }
    if (running_ && key_ == "off") key_ = "on";
}

template <class Says>
bool Situation::any(const Says& says) const {
    return std::any_of(setup_.items.begin(), setup_.items.end(), says);
}

bool Situation::holds(const Condition& condition) const {
    return (condition.engine_running && running_) || (condition.asleep && asleep_) ||
           std::find(condition.key.begin(), condition.key.end(), key_) != condition.key.end();
}

bool Situation::taken_off(PartId part) const {
    return any([&](const SetupItem& item) {
        if (item.kind == ItemKind::pulled) return item.part == part;
        if (item.kind != ItemKind::unplugged || item.part == none) return false;
        return item.part == part || circuit_.parts[item.part].twin == part || circuit_.parts[part].plugs_on == item.part;
    });
}

bool Situation::disconnected(PinId pin) const {
    return any([&](const SetupItem& item) { return item.kind == ItemKind::disconnected && item.pin == pin; });
}

bool Situation::output_on(const Element& output) const {
    if (output.follows != none) {
        const Part& leader = circuit_.parts[output.follows];
        if (leader.positions.empty()) return leader.closed_when && holds(*leader.closed_when);
        return !at_position(output.follows, leader.positions.front().position, true);
    }
    return any([&](const SetupItem& item) {
        const PinId pin = item.kind == ItemKind::output_on ? item.pin : PinId{none};
        return pin != none && (pin == output.a || circuit_.mate(pin) == output.a);
    });
}

bool Situation::at_position(PartId part, std::string_view position, bool normal) const {
    bool said = false, here = false;
    for (const SetupItem& item : setup_.items) {
        if (item.part != part) continue;
        if (item.kind == ItemKind::position) said = true, here |= item.word == position;
        if (item.kind == ItemKind::moved) said = true, here |= item.word == position || item.word2 == position;
        if (item.kind == ItemKind::pressed) said = true, here |= position == "pressed";
    }
    return said ? here : normal;
}

const SetupItem* Situation::held_at(PartId part) const {
    for (const SetupItem& item : setup_.items)
        if (item.part == part && (item.kind == ItemKind::at_value || item.kind == ItemKind::position || item.kind == ItemKind::pressed ||
                                  item.kind == ItemKind::moved || item.kind == ItemKind::as_found))
            return &item;
    return nullptr;
}

} // namespace loomsheet
