#include "model/kinds/fault_kinds.hpp"
#include "grammar/rows.hpp"
#include <algorithm>

namespace loomsheet {

namespace {
constexpr FaultKindRow kind_row(FaultKind kind) {
    switch (kind) {
    case FaultKind::open: return {.word = "open", .acts = Acts::cuts};
    case FaultKind::added: return {.word = "added"};
    case FaultKind::to_ground: return {.word = "to ground", .acts = Acts::lays, .can_blow = true, .is_short = true};
    case FaultKind::to_supply: return {.word = "to supply", .acts = Acts::lays, .can_blow = true};
    case FaultKind::touches: return {.word = "touches", .acts = Acts::lays, .can_blow = true, .has_other = true};
    case FaultKind::swapped: return {.word = "swapped", .acts = Acts::swaps, .can_blow = true, .has_other = true};
    case FaultKind::blown: return {.word = "blown", .acts = Acts::cuts};
    case FaultKind::stuck_open: return {.word = "stuck open", .acts = Acts::cuts};
    case FaultKind::stuck_closed: return {.word = "stuck closed", .acts = Acts::closes, .can_blow = true, .is_short = true};
    case FaultKind::at_position: return {.word = "at position", .acts = Acts::closes, .can_blow = true};
    case FaultKind::reads: return {.word = "reads", .can_blow = true, .is_short = true};
    case FaultKind::is: return {.word = "is", .can_blow = true};
    case FaultKind::draws: return {.word = "draws", .can_blow = true};
    case FaultKind::seized: return {.word = "seized", .can_blow = true, .is_short = true};
    case FaultKind::worn: return {.word = "worn"};
    case FaultKind::weak: return {.word = "weak"};
    }
    return {};
}
constexpr auto kind_rows = all_rows<FaultKind, kind_row>();

constexpr FaultPhrase phrase_rows[] = {
    {"open", FaultKind::open,
     thing::wire | thing::joint | thing::crimp | thing::ground | thing::plug | thing::fuse | thing::battery | thing::motor | thing::lamp |
         thing::sensor | thing::contact | thing::diode | thing::winding,
     "open"},
    {"", FaultKind::added,
     thing::wire | thing::joint | thing::crimp | thing::ground | thing::plug | thing::fuse | thing::battery | thing::contact | thing::ohmic,
     "2 ohm"},
    {"touches ground", FaultKind::to_ground, thing::metal, "touches ground"},
    {"touches supply", FaultKind::to_supply, thing::metal, "touches supply"},
    {"touches", FaultKind::touches, thing::metal | thing::ground, "touches W2"},
    {"swapped with", FaultKind::swapped, thing::wire, "swapped with W2"},
    {"blown", FaultKind::blown, thing::fuse | thing::lamp, "blown"},
    {"stuck open", FaultKind::stuck_open, thing::contact | thing::driver, "stuck open"},
    {"stuck closed", FaultKind::stuck_closed, thing::contact | thing::driver, "stuck closed"},
    {"never on", FaultKind::stuck_open, thing::driver, "never on"},
    {"always on", FaultKind::stuck_closed, thing::driver, "always on"},
    {"at", FaultKind::at_position, thing::nothing, "at pressed"}, // befalls what has positions: Builder::stands_at
    {"reads", FaultKind::reads, thing::winding | thing::diode, "reads 900 ohm"},
    {"is", FaultKind::is, thing::load, "is 21 W"},
    {"draws", FaultKind::draws, thing::load | thing::module, "draws 5 A"},
    {"shorted inside", FaultKind::reads, thing::winding, "shorted inside"},
    {"seized", FaultKind::seized, thing::motor, "seized"},
    {"worn", FaultKind::worn, thing::motor, "worn"},
    {"weak", FaultKind::weak, thing::battery, "weak"},
    {"dead", FaultKind::open, thing::module, "dead"},
    {"open inside", FaultKind::open, thing::input, "open inside"},
};

constexpr bool all_have_words() {
    for (std::size_t i = 0; i < kind_rows.size(); ++i)
        if (std::none_of(std::begin(phrase_rows), std::end(phrase_rows),
                         [i](const FaultPhrase& row) { return row.kind == static_cast<FaultKind>(i); }))
            return false;
    return true;
}
static_assert(all_have_words(), "a kind of fault that no plan can write");
} // namespace

std::span<const FaultKindRow> fault_kinds() { return kind_rows; }
const FaultKindRow& row_of(FaultKind kind) { return kind_rows[static_cast<std::size_t>(kind)]; }
std::span<const FaultPhrase> fault_phrases() { return phrase_rows; }

const FaultPhrase* find_fault(std::string_view words) {
    for (const FaultPhrase& row : phrase_rows)
        if (row.words == words) return &row;
    return nullptr;
}

} // namespace loomsheet
