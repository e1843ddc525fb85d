// What changes in the set-up between two checks: worked out, not commanded, and put in a safe order.
#pragma once
#include "model/plan.hpp"
#include <string>
#include <vector>

namespace loomsheet {

// How two items are the same thing in another state: key, one connector, one fuse, one output, one bridge ...
bool same_subject(const SetupItem& a, const SetupItem& b);
bool same_state(const SetupItem& a, const SetupItem& b);

enum class ChangeKind : std::uint8_t { undo, apply, keep };
struct Change {
    ChangeKind kind = ChangeKind::apply;
    SetupItem item; // undo: the item that ends; apply and keep: the item that holds now
};

// From one set-up to the next (an empty one is the car at rest: key off, all connected). Safe order: let go what is
// pressed, outputs off, engine off, key off; then bridges and loads off; then plug in what goes back, unplug and pull
// what comes off; then loads, bridges; then key, engine, outputs, what is pressed. `keep` items stand last.
//
// Nothing is plugged, pulled, bridged or loaded with the key on: when a connection changes, what was on is switched off
// first and on again after, though both set-ups name it. The battery's minus comes off first and goes back last.
std::vector<Change> changes(const Setup& from, const Setup& to);

// Puts the load "across the points measured" across this row's.
Setup placed(Setup setup, const Row& row);
// The set-up of a check, with a load "across the points measured" given the points of its first row.
Setup setup_of(const Check& check);

// The checks from which an outcome (or a verdict that goes on) leads to this one, in order; -1 is the start of the
// plan.
std::vector<int> comes_from(const Plan& plan, int check);
// The same for every check of the plan at once.
std::vector<std::vector<int>> origins_of(const Plan& plan);

} // namespace loomsheet
