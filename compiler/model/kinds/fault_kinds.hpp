// The kinds of fault: one row each, and the words that a plan has for them, with what each can befall.
#pragma once
#include "model/kinds/things.hpp"
#include <span>
#include <string_view>

namespace loomsheet {

enum class FaultKind : std::uint8_t {
    open,
    added,
    to_ground,
    to_supply,
    touches,
    swapped,
    blown,
    stuck_open,
    stuck_closed,
    at_position,
    reads,
    is,
    draws,
    seized,
    worn,
    weak,
};

// What it does to the branches it befalls.
enum class Acts : std::uint8_t {
    cuts,   // they conduct no more
    closes, // they conduct, whatever else is
    lays,   // they stay, and a branch is laid beside them
    swaps,  // they go to each other's ends
    alters, // their law or their value becomes another
};
struct FaultKindRow {
    std::string_view word = {}; // in JSON
    Acts acts = Acts::alters;
    bool can_blow = false;  // more may flow than in a sound car, so that a fuse may blow
    bool is_short = false;  // lets more flow than a fuse carries
    bool has_other = false; // names a second point
};
std::span<const FaultKindRow> fault_kinds(); // in the order of FaultKind
const FaultKindRow& row_of(FaultKind kind);
inline bool can_blow(FaultKind kind) { return row_of(kind).can_blow; }

struct FaultPhrase {
    std::string_view words; // without what is filled in
    FaultKind kind;
    Things befalls;
    std::string_view such; // as an example has it
};
std::span<const FaultPhrase> fault_phrases();
// The row of these words; null for words that the grammar does not have.
const FaultPhrase* find_fault(std::string_view words);

} // namespace loomsheet
