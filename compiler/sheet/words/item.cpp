#include "sheet/words/item.hpp"
#include "sheet/words/figure.hpp"
#include <algorithm>
#include <iterator>

namespace loomsheet {

std::string part_id(const Circuit& circuit, const SetupItem& item) { return circuit.parts[item.part].id; }

std::vector<std::string> part_ids(const Circuit& circuit, const SetupItem& item) {
    std::vector<std::string> ids;
    for (const PartId part : item.parts)
        ids.push_back(circuit.parts[part].id);
    return ids;
}

std::string key_words(const Wording& say, const SetupItem& item) {
    constexpr std::string_view positions[] = {"off", "acc", "on", "crank"};
    const auto at = std::find(std::begin(positions), std::end(positions), item.word);
    return say(word_after(Word::key_off, static_cast<std::size_t>(at - std::begin(positions))));
}

std::string value_words(const Wording& say, const SetupItem& item) { return item.value ? amount(say, *item.value) : ""; }

bool is_lamp(const SetupItem& item) { return item.value && item.value->unit && item.value->unit->dimension == Dimension::watt; }

bool has_ends(const SetupItem& item) { return item.a.part != none || item.a.pin != none || item.a.wire != none; }

std::string ends_words(const Wording& say, const Circuit& circuit, const SetupItem& item, Word pattern) {
    return say(pattern, point_words(say, circuit, item.a), point_words(say, circuit, item.b));
}

void forget_ends_in_rows(SetupItem& item, const Check& check) {
    if (item.across_points && check.rows.size() > 1) item.a = item.b = {};
}

std::string across_words(const Wording& say, const Circuit& circuit, const SetupItem& item) {
    return has_ends(item) ? ends_words(say, circuit, item, Word::across_points) : say(Word::across_the_points);
}

bool same_module(const Circuit& circuit, const SetupItem& a, const SetupItem& b) {
    return a.kind == ItemKind::output_on && b.kind == ItemKind::output_on && circuit.pins[a.pin].part == circuit.pins[b.pin].part;
}

std::string outputs_words(const Wording& say, const Circuit& circuit, const std::vector<PinId>& pins) {
    if (pins.size() == 1) return pin_words(circuit, pins.front());
    std::vector<std::string> names;
    for (const PinId pin : pins)
        names.push_back(circuit.pins[pin].name);
    return say(Word::outputs_of, circuit.parts[circuit.pins[pins.front()].part].id, join(names, " "));
}

} // namespace loomsheet
