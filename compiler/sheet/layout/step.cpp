#include "sheet/layout/step.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/item.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

std::string with_capital(const std::string& words) {
    const std::size_t first = words.empty() ? 0 : static_cast<unsigned char>(words[0]) < 0x80 ? 1 : 2;
    return upper(words.substr(0, first)) + words.substr(std::min(first, words.size()));
}

// "rest": the first position of a switch is the one it normally stands in.
std::string normal_position(const Part& part) { return part.positions.empty() ? "" : part.positions.front().position; }

std::string with_time(const Wording& say, std::string words, const SetupItem& item) {
    if (!item.time) return words;
    const std::string time = say(Word::for_time, rating(say, *item.time));
    return words.empty() ? time : words + ", " + time;
}

std::string since(const Wording& say, Word pattern, int origin) { return origin > 0 ? say(pattern, origin) : ""; }

std::string output_how(const Wording& say, const Circuit& circuit, const SetupItem& item) {
    const Part& module = circuit.parts[circuit.pins[item.pin].part];
    return module.how.empty() ? part_words(say, module) : module.how;
}

Step apply(const Wording& say, const Circuit& circuit, const SetupItem& item) {
    switch (item.kind) {
    case ItemKind::key: return {say(Word::key_at, upper(key_words(say, item))), item.word == "crank" ? say(Word::held) : "", ""};
    case ItemKind::asleep: return {say(Word::asleep), say(Word::asleep_how), ""};
    case ItemKind::engine_running: return {say(Word::engine_running), "", ""};
    case ItemKind::engine_speed: return {say(Word::engine_at, value_words(say, item)), "", ""};
    case ItemKind::unplugged: return {say(Word::unplugged, part_id(circuit, item)), part_and_place(say, circuit, item.part), ""};
    case ItemKind::pulled: return {say(Word::pulled, part_id(circuit, item)), part_and_place(say, circuit, item.part), ""};
    case ItemKind::disconnected: return {say(Word::disconnected, pin_words(circuit, item.pin)), say(Word::disconnected_how), ""};
    case ItemKind::position:
        return {say(Word::at_position, part_id(circuit, item), upper(item.word)), part_words(say, circuit.parts[item.part]), ""};
    case ItemKind::pressed: return {say(Word::pressed, part_id(circuit, item)), part_words(say, circuit.parts[item.part]), ""};
    case ItemKind::at_value:
        return {say(Word::at_position, part_id(circuit, item), value_words(say, item)), circuit.parts[item.part].how, ""};
    case ItemKind::as_found:
        return {say(Word::as_found, part_id(circuit, item)), part_words(say, circuit.parts[item.part]), say(Word::as_found_blank)};
    case ItemKind::moved: return {say(Word::moved, part_id(circuit, item), item.word, item.word2), say(Word::moved_how), ""};
    case ItemKind::bridge:
        return {ends_words(say, circuit, item, Word::bridge),
                item.value ? say(Word::bridge_how, value_words(say, item)) : say(Word::bridge_unfused), ""};
    case ItemKind::load:
        return {say(is_lamp(item) ? Word::lamp_on : Word::load_on, value_words(say, item)), across_words(say, circuit, item), ""};
    case ItemKind::one_of_pulled: return {say(Word::one_of, join(part_ids(circuit, item))), say(Word::one_of_how), ""};
    case ItemKind::output_on:
    case ItemKind::words: break;
    }
    return {with_capital(item.word), "", ""};
}

Step undo(const Wording& say, const Circuit& circuit, const SetupItem& item, int origin) {
    switch (item.kind) {
    case ItemKind::key: return {say(Word::key_at, upper(say(Word::key_off))), since(say, Word::was_on, origin), ""};
    case ItemKind::asleep: return {say(Word::awake), "", ""};
    case ItemKind::engine_running:
    case ItemKind::engine_speed: return {say(Word::engine_off), since(say, Word::was_running, origin), ""};
    case ItemKind::unplugged: return {say(Word::plugged, part_id(circuit, item)), say(Word::lock_clicks), ""};
    case ItemKind::pulled: return {say(Word::fitted, part_id(circuit, item)), since(say, Word::was_out, origin), ""};
    case ItemKind::disconnected: return {say(Word::connected, pin_words(circuit, item.pin)), since(say, Word::was_off, origin), ""};
    case ItemKind::position: {
        const std::string normal = normal_position(circuit.parts[item.part]);
        return {normal.empty() ? say(Word::let_go, part_id(circuit, item)) : say(Word::at_position, part_id(circuit, item), upper(normal)),
                since(say, Word::was_set, origin), ""};
    }
    case ItemKind::pressed:
    case ItemKind::moved: return {say(Word::let_go, part_id(circuit, item)), "", ""};
    case ItemKind::at_value:
    case ItemKind::as_found: return {say(Word::as_it_was, part_id(circuit, item)), "", ""};
    case ItemKind::bridge: return {say(Word::bridge_off), ends_words(say, circuit, item, Word::from_points), ""};
    case ItemKind::load:
        return {say(is_lamp(item) ? Word::lamp_off : Word::load_off, value_words(say, item)),
                has_ends(item) ? ends_words(say, circuit, item, Word::from_points) : "", ""};
    case ItemKind::one_of_pulled: return {say(Word::fitted, join(part_ids(circuit, item))), "", ""};
    case ItemKind::output_on:
    case ItemKind::words: break;
    }
    return {say(Word::no_longer, item.word), "", ""};
}

} // namespace

std::vector<Step> steps_of(const Wording& say, const Circuit& circuit, std::span<const Change> changes, int origin) {
    std::vector<Step> steps;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        const SetupItem& item = changes[i].item;
        const bool ends = changes[i].kind == ChangeKind::undo;
        if (item.kind == ItemKind::output_on) {
            std::vector<PinId> pins{item.pin};
            while (i + 1 < changes.size() && changes[i + 1].kind == changes[i].kind && same_module(circuit, changes[i + 1].item, item))
                pins.push_back(changes[++i].item.pin);
            steps.push_back(ends ? Step{say(Word::released, outputs_words(say, circuit, pins)), since(say, Word::was_on, origin), ""}
                                 : Step{say(Word::called, outputs_words(say, circuit, pins)), output_how(say, circuit, item), ""});
        } else {
            steps.push_back(ends ? undo(say, circuit, item, origin) : apply(say, circuit, item));
        }
        if (!ends) steps.back().how = with_time(say, steps.back().how, item);
    }
    return steps;
}

Step panel_off(const Wording& say, const Panel& panel) {
    const std::string name = panel.name.empty() ? panel.label : panel.name;
    std::vector<std::string> how;
    if (panel.time) how.push_back(minutes(say, *panel.time));
    if (!panel.how.empty()) how.push_back(panel.how);
    return {say(Word::panel_off, name), join(how), ""};
}

} // namespace loomsheet
