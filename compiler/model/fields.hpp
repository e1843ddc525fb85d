// Every field of what a plan is made of, in the order of its struct: `fields(one)` gives references to all of them. A list that lacks
// a field, or has one too many, does not compile; who must not forget a field asks here.
#pragma once
#include "model/plan.hpp"
#include <tuple>
#include <type_traits>

namespace loomsheet {

#define LOOMSHEET_FIELDS(Struct, ...)                                                                                                      \
    template <class One>                                                                                                                   \
    requires std::is_same_v<std::remove_const_t<One>, Struct>                                                                              \
    auto fields(One& one) {                                                                                                                \
        auto& [__VA_ARGS__] = one;                                                                                                         \
        return std::tie(__VA_ARGS__);                                                                                                      \
    }

LOOMSHEET_FIELDS(Quantity, si, plus_minus, unit, written, at)
LOOMSHEET_FIELDS(Words, text, at)
LOOMSHEET_FIELDS(Allow, code, why, at)

// --- circuit
LOOMSHEET_FIELDS(TableValue, position, at_value, value, closed, at)
LOOMSHEET_FIELDS(Condition, key, engine_running, asleep, at)
LOOMSHEET_FIELDS(Element, kind, a, b, c, value, holds_at, more, table, pulls_down, flashes, follows, duration, when, name, at)
LOOMSHEET_FIELDS(Pin, part, name, mark, at, mate, declared)
LOOMSHEET_FIELDS(Draw, value, when)
LOOMSHEET_FIELDS(Part, id, name, kind, sensor_kind, at, place, panel, metal, bolted_to, bolted_pin, assembly, likely, notes, cautions, how,
                 pins, elements, rating, fuse_type, opens_at, resets, capacity, inner, gives, draws, pulls_in, drops_out, stalls_at, needs,
                 supply_pins, ground_pins, closed_when, positions, joined, sprung, bare, cavities, plugs_on, twin, half, map, lock,
                 face_rows, face_columns, first_half, allows)
LOOMSHEET_FIELDS(Colour, base, stripe)
LOOMSHEET_FIELDS(Wire, id, from, to, area, gauge, colour, length, rated, unfused, cable, notes, likely, allows, at)
LOOMSHEET_FIELDS(Cable, id, name, wires, twisted, at)
LOOMSHEET_FIELDS(Panel, label, name, how, time, at)
LOOMSHEET_FIELDS(MeterRow, function, within, at)
LOOMSHEET_FIELDS(Circuit, parts, pins, wires, cables, panels, meters, own_colours, lookup)

// --- checks and verdicts
LOOMSHEET_FIELDS(PointRef, metal, part, pin, wire, pins, at)
LOOMSHEET_FIELDS(State, of, verb, from, to, at)
LOOMSHEET_FIELDS(States, list, any)
LOOMSHEET_FIELDS(SetupItem, kind, word, word2, part, pin, parts, value, time, a, b, across_points, at)
LOOMSHEET_FIELDS(Setup, items, at)
LOOMSHEET_FIELDS(NamedSetup, label, setup, at, used)
LOOMSHEET_FIELDS(Row, name, red, black, at)
LOOMSHEET_FIELDS(Limit, kind, low, high, reference, row, not_computed, at)
LOOMSHEET_FIELDS(Target, kind, index, run, run_is_span, at)
LOOMSHEET_FIELDS(Outcome, kind, row, answer, states, band, target, at)
LOOMSHEET_FIELDS(Question, label, text, answers, expected, marks, space, at)
LOOMSHEET_FIELDS(Check, label, title, with, measure, measure_at, rows, look, look_states, limits, outcomes, cautions, notes, steps,
                 questions, allows, time, marks, exercise, at)
LOOMSHEET_FIELDS(Verdict, label, title, blames, blamed_runs, blamed_words, blames_nothing, repairs, cautions, notes, after, then, then_plan,
                 allows, at)
LOOMSHEET_FIELDS(Fault, at_point, kind, words, position, value, other, at)
LOOMSHEET_FIELDS(Plant, label, title, fault, how, undo, complaint, complaint_states, with, time, marks, cautions, notes, at)
LOOMSHEET_FIELDS(Plan, id, title, at, vehicle, complaint, author, revision, date, complaint_states, complaint_points, complaint_measure,
                 complaint_limit, complaint_with, codes, system, cautions, notes, allows, circuit, setups, checks, verdicts, plants, asked,
                 questions, broken)
#undef LOOMSHEET_FIELDS

template <class One>
concept HasFields = requires(One& one) {
    fields(one);
};

} // namespace loomsheet
