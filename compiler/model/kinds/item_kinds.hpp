// What a set-up may say: one row each.
#pragma once
#include <cstdint>
#include <string_view>

namespace loomsheet {

enum class ItemKind : std::uint8_t {
    key,
    asleep,
    engine_running,
    engine_speed,
    unplugged,
    pulled,
    disconnected,
    position,
    pressed,
    output_on,
    at_value,
    as_found,
    moved,
    bridge,
    load,
    one_of_pulled,
    words,
};

// What it is about. A switch is one thing, whether it stands at a position, is pressed or is moved; so is a sensor and what it is held at.
enum class Subject : std::uint8_t { key, asleep, engine, plug, holder, terminal, handle, output, bridge, load, group, words };
enum class Names : std::uint8_t { nothing, part, pin, parts }; // what of the circuit it cannot be without

struct ItemRow {
    std::string_view word = {}; // in JSON
    Subject subject = Subject::words;
    Names names = Names::nothing;
    // When it is done among the others: what was is taken back first, by `undone`; what comes is done by `done`.
    int undone = 0, done = 0;
    bool is_connection = false; // metal is joined or parted: hands go there
    bool is_power = false;      // switched off before hands go to a plug, and on again after
    bool is_use = false;        // what the driver does with the car, not what the workshop does to it
};
const ItemRow& row_of(ItemKind kind);

} // namespace loomsheet
