#include "sheet/step.hpp"
#include "sheet/figure.hpp"
#include "sheet/words.hpp"

namespace loomsheet {
namespace {

std::string upper(std::string words) {
    for (char& letter : words)
        if (letter >= 'a' && letter <= 'z') letter = static_cast<char>(letter - 'a' + 'A');
    return words;
}

std::string part_id(const Circuit& circuit, const SetupItem& item) { return circuit.parts[item.part].id; }

std::vector<std::string> part_ids(const Circuit& circuit, const SetupItem& item) {
    std::vector<std::string> ids;
    for (const PartId part : item.parts)
        ids.push_back(circuit.parts[part].id);
    return ids;
}

std::string value_of(const SetupItem& item) { return item.value ? amount(*item.value) : ""; }

// "21 W" is a lamp, "150 A" a load of its own.
bool is_lamp(const SetupItem& item) {
    return item.value && item.value->unit && item.value->unit->dimension == Dimension::watt;
}

std::string ends(const Circuit& circuit, const SetupItem& item, Word pattern) {
    return say(pattern, point_words(circuit, item.a), point_words(circuit, item.b));
}

bool has_ends(const SetupItem& item) { return item.a.part != none || item.a.pin != none || item.a.wire != none; }

std::string across(const Circuit& circuit, const SetupItem& item) {
    return has_ends(item) ? ends(circuit, item, Word::across_points) : say(Word::across_the_points);
}

// "rest": the first position of a switch, which is where it normally stands.
std::string normal_position(const Part& part) {
    for (const Element& element : part.elements)
        for (const TableValue& row : element.table)
            if (!row.position.empty()) return row.position;
    return {};
}

std::string with_time(std::string words, const SetupItem& item) {
    if (!item.time) return words;
    const std::string time = say(Word::for_time, rating(*item.time));
    return words.empty() ? time : words + ", " + time;
}

std::string since(Word pattern, int origin) { return origin > 0 ? say(pattern, origin) : ""; }

std::string output_how(const Circuit& circuit, const SetupItem& item) {
    const Part& module = circuit.parts[circuit.pins[item.pin].part];
    return module.how.empty() ? part_words(module) : module.how;
}

Step apply(const Circuit& circuit, const SetupItem& item) {
    switch (item.kind) {
    case ItemKind::key:
        return {say(Word::key_at, upper(item.word)), say(item.word == "crank" ? Word::held : Word::nothing), ""};
    case ItemKind::asleep: return {say(Word::asleep), say(Word::asleep_how), ""};
    case ItemKind::engine_running: return {say(Word::engine_running), "", ""};
    case ItemKind::engine_speed: return {say(Word::engine_at, value_of(item)), "", ""};
    case ItemKind::unplugged:
        return {say(Word::unplugged, part_id(circuit, item)), part_and_place(circuit, item.part), ""};
    case ItemKind::pulled: return {say(Word::pulled, part_id(circuit, item)), part_and_place(circuit, item.part), ""};
    case ItemKind::disconnected:
        return {say(Word::disconnected, pin_words(circuit, item.pin)), say(Word::disconnected_how), ""};
    case ItemKind::position:
        return {say(Word::at_position, part_id(circuit, item), upper(item.word)), part_words(circuit.parts[item.part]),
                ""};
    case ItemKind::pressed:
        return {say(Word::pressed, part_id(circuit, item)), part_words(circuit.parts[item.part]), ""};
    case ItemKind::output_on: return {say(Word::called, pin_words(circuit, item.pin)), output_how(circuit, item), ""};
    case ItemKind::at_value:
        return {say(Word::at_position, part_id(circuit, item), value_of(item)), circuit.parts[item.part].how, ""};
    case ItemKind::as_found:
        return {say(Word::as_found, part_id(circuit, item)), part_words(circuit.parts[item.part]),
                say(Word::as_found_blank)};
    case ItemKind::moved:
        return {say(Word::moved, part_id(circuit, item), item.word, item.word2), say(Word::moved_how), ""};
    case ItemKind::bridge:
        return {ends(circuit, item, Word::bridge),
                item.value ? say(Word::bridge_how, value_of(item)) : say(Word::bridge_unfused), ""};
    case ItemKind::load:
        return {say(is_lamp(item) ? Word::lamp_on : Word::load_on, value_of(item)), across(circuit, item), ""};
    case ItemKind::one_of_pulled: return {say(Word::one_of, join(part_ids(circuit, item))), say(Word::one_of_how), ""};
    case ItemKind::words: break;
    }
    return {item.word, "", ""};
}

Step undo(const Circuit& circuit, const SetupItem& item, int origin) {
    switch (item.kind) {
    case ItemKind::key: return {say(Word::key_at, "OFF"), since(Word::was_on, origin), ""};
    case ItemKind::asleep: return {say(Word::awake), "", ""};
    case ItemKind::engine_running:
    case ItemKind::engine_speed: return {say(Word::engine_off), since(Word::was_running, origin), ""};
    case ItemKind::unplugged: return {say(Word::plugged, part_id(circuit, item)), say(Word::lock_clicks), ""};
    case ItemKind::pulled: return {say(Word::fitted, part_id(circuit, item)), since(Word::was_out, origin), ""};
    case ItemKind::disconnected:
        return {say(Word::connected, pin_words(circuit, item.pin)), since(Word::was_off, origin), ""};
    case ItemKind::position: {
        const std::string normal = normal_position(circuit.parts[item.part]);
        return {normal.empty() ? say(Word::let_go, part_id(circuit, item))
                               : say(Word::at_position, part_id(circuit, item), upper(normal)),
                since(Word::was_set, origin), ""};
    }
    case ItemKind::pressed:
    case ItemKind::moved: return {say(Word::let_go, part_id(circuit, item)), "", ""};
    case ItemKind::output_on:
        return {say(Word::released, pin_words(circuit, item.pin)), since(Word::was_on, origin), ""};
    case ItemKind::at_value:
    case ItemKind::as_found: return {say(Word::no_longer, state_words(circuit, item)), "", ""};
    case ItemKind::bridge: return {say(Word::bridge_off), ends(circuit, item, Word::from_points), ""};
    case ItemKind::load:
        return {say(is_lamp(item) ? Word::lamp_off : Word::load_off, value_of(item)),
                has_ends(item) ? ends(circuit, item, Word::from_points) : "", ""};
    case ItemKind::one_of_pulled: return {say(Word::fitted, join(part_ids(circuit, item))), "", ""};
    case ItemKind::words: break;
    }
    return {say(Word::no_longer, item.word), "", ""};
}

} // namespace

Step step_of(const Circuit& circuit, const Change& change, int origin) {
    Step step = change.kind == ChangeKind::undo ? undo(circuit, change.item, origin) : apply(circuit, change.item);
    if (change.kind != ChangeKind::undo) step.how = with_time(step.how, change.item);
    return step;
}

Step panel_off(const Panel& panel) {
    const std::string name = panel.name.empty() ? panel.label : panel.name;
    std::vector<std::string> how;
    if (panel.time) how.push_back(minutes(*panel.time));
    if (!panel.how.empty()) how.push_back(panel.how);
    return {say(Word::panel_off, name), join(how), ""};
}

std::string state_words(const Circuit& circuit, const SetupItem& item) {
    switch (item.kind) {
    case ItemKind::key: return say(Word::state_key, item.word);
    case ItemKind::asleep: return say(Word::state_asleep);
    case ItemKind::engine_running: return say(Word::state_engine);
    case ItemKind::engine_speed: return say(Word::state_engine_at, value_of(item));
    case ItemKind::unplugged: return say(Word::state_unplugged, part_id(circuit, item));
    case ItemKind::pulled: return say(Word::state_pulled, part_id(circuit, item));
    case ItemKind::disconnected: return say(Word::state_disconnected, pin_words(circuit, item.pin));
    case ItemKind::position: return say(Word::state_at, part_id(circuit, item), item.word);
    case ItemKind::pressed: return say(Word::state_pressed, part_id(circuit, item));
    case ItemKind::output_on: return say(Word::state_called, pin_words(circuit, item.pin));
    case ItemKind::at_value: return say(Word::state_at, part_id(circuit, item), value_of(item));
    case ItemKind::as_found: return say(Word::state_as_found, part_id(circuit, item));
    case ItemKind::moved: return say(Word::state_moved, part_id(circuit, item), item.word, item.word2);
    case ItemKind::bridge: return ends(circuit, item, Word::state_bridge);
    case ItemKind::load:
        return say(is_lamp(item) ? Word::state_lamp : Word::state_load, value_of(item), across(circuit, item));
    case ItemKind::one_of_pulled: return say(Word::state_one_of, join(part_ids(circuit, item)));
    case ItemKind::words: break;
    }
    return item.word;
}

std::string setup_words(const Circuit& circuit, const Setup& setup) {
    std::vector<std::string> states;
    for (const SetupItem& item : setup.items)
        states.push_back(state_words(circuit, item));
    return states.empty() ? say(Word::at_rest) : join(states, say(Word::dot));
}

std::string put_back_words(const Circuit& circuit, const SetupItem& item) {
    const Step step = undo(circuit, item, 0);
    return step.how.empty() ? step.main : step.main + ", " + step.how;
}

} // namespace loomsheet
