#include "sheet/words/state.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/item.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

std::string state_words(const Wording& say, const Circuit& circuit, const SetupItem& item) {
    switch (item.kind) {
    case ItemKind::key: return say(Word::state_key, key_words(say, item));
    case ItemKind::asleep: return say(Word::state_asleep);
    case ItemKind::engine_running: return say(Word::state_engine);
    case ItemKind::engine_speed: return say(Word::state_engine_at, value_words(say, item));
    case ItemKind::unplugged: return say(Word::state_unplugged, part_id(circuit, item));
    case ItemKind::pulled: return say(Word::state_pulled, part_id(circuit, item));
    case ItemKind::disconnected: return say(Word::state_disconnected, pin_words(circuit, item.pin));
    case ItemKind::position: return say(Word::state_at, part_id(circuit, item), item.word);
    case ItemKind::pressed: return say(Word::state_pressed, part_id(circuit, item));
    case ItemKind::output_on: return say(Word::state_called, pin_words(circuit, item.pin));
    case ItemKind::at_value: return say(Word::state_at, part_id(circuit, item), value_words(say, item));
    case ItemKind::as_found: return say(Word::state_as_found, part_id(circuit, item));
    case ItemKind::moved: return say(Word::state_moved, part_id(circuit, item), item.word, item.word2);
    case ItemKind::bridge: return ends_words(say, circuit, item, Word::state_bridge);
    case ItemKind::load:
        return say(is_lamp(item) ? Word::state_lamp : Word::state_load, value_words(say, item), across_words(say, circuit, item));
    case ItemKind::one_of_pulled: return say(Word::state_one_of, join(part_ids(circuit, item)));
    case ItemKind::words: break;
    }
    return item.word;
}

// The outputs of the module of this item that the set-up has on.
std::vector<PinId> outputs_on(const Circuit& circuit, const Setup& setup, const SetupItem& item) {
    std::vector<PinId> pins;
    for (const SetupItem& other : setup.items)
        if (same_module(circuit, other, item)) pins.push_back(other.pin);
    return pins;
}

} // namespace

std::string setup_words(const Wording& say, const Circuit& circuit, const Setup& setup) {
    std::vector<std::string> states;
    for (const SetupItem& item : setup.items) {
        std::string words = item.kind == ItemKind::output_on
                                ? say(Word::state_called, outputs_words(say, circuit, outputs_on(circuit, setup, item)))
                                : state_words(say, circuit, item);
        if (std::find(states.begin(), states.end(), words) == states.end()) states.push_back(std::move(words));
    }
    return states.empty() ? say(Word::at_rest) : listed(say, states);
}

std::vector<std::string> put_back_words(const Wording& say, const Circuit& circuit, const SetupItem& item) {
    const auto fitted = [&](PartId id) {
        const Part& part = circuit.parts[id];
        return part.rating ? say(Word::back_fitted_rated, part.id, rating(say, *part.rating)) : say(Word::back_fitted, part.id);
    };
    switch (item.kind) {
    case ItemKind::key: return {say(Word::back_key)};
    case ItemKind::engine_running:
    case ItemKind::engine_speed: return {say(Word::back_engine)};
    case ItemKind::unplugged: return {say(Word::back_plugged, part_id(circuit, item))};
    case ItemKind::pulled: return {fitted(item.part)};
    case ItemKind::one_of_pulled: {
        std::vector<std::string> words;
        for (const PartId part : item.parts)
            words.push_back(fitted(part));
        return words;
    }
    case ItemKind::disconnected: return {say(Word::back_connected, pin_words(circuit, item.pin))};
    case ItemKind::position: {
        const Part& part = circuit.parts[item.part];
        if (part.positions.empty()) return {};
        return {say(Word::state_at, part.id, part.positions.front().position)};
    }
    case ItemKind::output_on: return {say(Word::back_called, circuit.parts[circuit.pins[item.pin].part].id)};
    case ItemKind::at_value: return {say(Word::back_value, part_id(circuit, item))};
    case ItemKind::bridge: return {say(Word::back_bridge)};
    case ItemKind::load: return {say(is_lamp(item) ? Word::back_lamp : Word::back_load, value_words(say, item))};
    case ItemKind::words: return {say(Word::no_longer, item.word)};
    case ItemKind::asleep:
    case ItemKind::pressed:
    case ItemKind::as_found:
    case ItemKind::moved: break;
    }
    return {};
}

} // namespace loomsheet
