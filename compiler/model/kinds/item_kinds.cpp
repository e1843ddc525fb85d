#include "model/kinds/item_kinds.hpp"
#include "grammar/rows.hpp"

namespace loomsheet {

namespace {
// Undone: handles, outputs, engine, key, what is held, leads, then what is unplugged is plugged in, and the battery
// last. Done: the battery first, plugs, what is held, leads, key, engine, outputs, and handles last.
constexpr ItemRow item_row(ItemKind kind) {
    switch (kind) {
    case ItemKind::key: return {.word = "key", .subject = Subject::key, .undone = 3, .done = 13, .is_power = true, .is_use = true};
    case ItemKind::asleep: return {.word = "asleep", .subject = Subject::asleep, .undone = 3, .done = 13, .is_use = true};
    case ItemKind::engine_running:
        return {.word = "engine running", .subject = Subject::engine, .undone = 2, .done = 14, .is_power = true, .is_use = true};
    case ItemKind::engine_speed:
        return {.word = "engine speed", .subject = Subject::engine, .undone = 2, .done = 14, .is_power = true, .is_use = true};
    case ItemKind::unplugged:
        return {.word = "unplugged", .subject = Subject::plug, .names = Names::part, .undone = 7, .done = 8, .is_connection = true};
    case ItemKind::pulled:
        return {.word = "pulled", .subject = Subject::holder, .names = Names::part, .undone = 7, .done = 8, .is_connection = true};
    case ItemKind::disconnected:
        return {.word = "disconnected", .subject = Subject::terminal, .names = Names::pin, .undone = 9, .done = 6, .is_connection = true};
    case ItemKind::position:
        return {.word = "position", .subject = Subject::handle, .names = Names::part, .undone = 0, .done = 16, .is_use = true};
    case ItemKind::pressed:
        return {
            .word = "pressed", .subject = Subject::handle, .names = Names::part, .undone = 0, .done = 16, .is_power = true, .is_use = true};
    case ItemKind::output_on:
        return {.word = "output on",
                .subject = Subject::output,
                .names = Names::pin,
                .undone = 1,
                .done = 15,
                .is_power = true,
                .is_use = true};
    case ItemKind::at_value: return {.word = "at value", .subject = Subject::handle, .names = Names::part, .undone = 4, .done = 10};
    case ItemKind::as_found: return {.word = "as found", .subject = Subject::handle, .names = Names::part, .undone = 4, .done = 10};
    case ItemKind::moved:
        return {.word = "moved", .subject = Subject::handle, .names = Names::part, .undone = 0, .done = 16, .is_use = true};
    case ItemKind::bridge: return {.word = "bridge", .subject = Subject::bridge, .undone = 5, .done = 12, .is_connection = true};
    case ItemKind::load: return {.word = "load", .subject = Subject::load, .undone = 5, .done = 11, .is_connection = true};
    case ItemKind::one_of_pulled:
        return {.word = "one of pulled", .subject = Subject::group, .names = Names::parts, .undone = 7, .done = 8, .is_connection = true};
    case ItemKind::words: return {.word = "words", .subject = Subject::words, .undone = 4, .done = 10};
    }
    return {};
}
constexpr auto item_rows = all_rows<ItemKind, item_row>();
} // namespace

const ItemRow& row_of(ItemKind kind) { return item_rows[static_cast<std::size_t>(kind)]; }

} // namespace loomsheet
