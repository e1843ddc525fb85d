// A plan with all names resolved: its circuit, set-ups, checks, verdicts and what a class needs.
#pragma once
#include "model/circuit.hpp"
#include "model/kinds/fault_kinds.hpp"
#include "model/kinds/item_kinds.hpp"
#include "model/kinds/measures.hpp"
#include <string>
#include <vector>

namespace loomsheet {

// --- points and states ---------------------------------------------------------------------------------------------
enum class Metal : std::uint8_t {
    wire_end, // X21.1: the crimp in its cavity, the wire side of a socket, the clamp on a post
    part,     // part M3.1: the part's own metal
    joint,    // joint X30.1: the contact between the two
    body,     // `to ground`: the body, anywhere bare
    whole,    // a wire, a splice, a ground point, a part as a whole (clamp W4, amps through F14)
};
struct PointRef {
    Metal metal = Metal::wire_end;
    PartId part = none;
    PinId pin = none;
    WireId wire = none;
    std::vector<PinId> pins; // an element named by its pins: K5.30/87
    Span at;
};

enum class StateVerb : std::uint8_t { still, runs, slow, runs_to, dark, dim, lit, works, chatters, whole, blown, fails };
std::string_view state_word(StateVerb verb);
StateVerb state_verb(std::string_view word); // of a word that the grammar has
// What a part may be found doing: a motor still, slow or running, a lamp dark, dim or lit, a relay at rest or pulled in. What
// has two of them only does nothing or does it well.
enum class Doing : std::uint8_t { nothing, poorly, well };
bool shows(StateVerb verb, Doing doing); // whether a part that does this is in that state
struct State {
    PointRef of; // a part or an element
    StateVerb verb = StateVerb::works;
    std::string from, to; // `runs 1 to 2`
    Span at;
};
struct States { // all joined by `and`, or all by `or`
    std::vector<State> list;
    bool any = false;
    bool empty() const { return list.empty(); }
};

// --- set-up ----------------------------------------------------------------------------------------------------------
struct SetupItem {
    ItemKind kind = ItemKind::words;
    std::string word;          // key position, switch position, free words
    std::string word2;         // `from … to …`
    PartId part = none;        // unplugged pulled position pressed at_value as_found moved
    PinId pin = none;          // disconnected, output_on
    std::vector<PartId> parts; // one_of_pulled
    MaybeQuantity value;       // rpm, degC, load in W or A, fuse of the bridge
    MaybeQuantity time;        // `for 5 min`
    PointRef a, b;             // bridge from a to b; load across a to b (both metal wire_end with pin none: across the points measured)
    bool across_points = false;
    Span at;
};
// A whole set-up: labels are already replaced by what they stand for.
struct Setup {
    std::vector<SetupItem> items;
    Span at;
};
struct NamedSetup {
    std::string label;
    Setup setup;
    Span at;
    bool used = false;
};

// --- measuring -------------------------------------------------------------------------------------------------------
struct Row {
    std::string name;    // "Front left", empty when there is one row
    PointRef red, black; // amps and clamp: red only
    Span at;
};
enum class LimitKind : std::uint8_t { range, below, above, open, yes, no, within };
struct Limit {
    LimitKind kind = LimitKind::range;
    MaybeQuantity low, high; // below: high; above: low; within: high = how far
    int reference = none;    // check it is measured against (within)
    std::string row;
    bool not_computed = false;
    Span at;
};
enum class TargetKind : std::uint8_t { nowhere, check, verdict, next, done, suspects };
struct Target {
    TargetKind kind = TargetKind::nowhere;
    int index = none;          // of the check or verdict; `next` is resolved to a check
    std::vector<PointRef> run; // `suspects A to B`, or a list of what is left
    bool run_is_span = false;
    Span at;
};
enum class OutcomeKind : std::uint8_t { pass, fail, low, high, open, no_current, band, answer };
struct Outcome {
    OutcomeKind kind = OutcomeKind::pass;
    std::string row;    // picks a row, or a part of `one of`
    std::string answer; // words of an answer
    States states;
    std::optional<Limit> band;
    Target target;
    Span at;
};

struct Question {
    std::string label, text;
    std::vector<std::string> answers;
    MaybeQuantity expected; // `answer 2.66 V ±3 %`
    double marks = 0;
    MaybeQuantity space;
    Span at;
};
struct Check {
    std::string label, title;
    Setup with;
    MeasureKind measure = MeasureKind::nothing;
    Span measure_at;
    std::vector<Row> rows;
    std::string look; // the question of `look`, the title of `read`
    States look_states;
    std::vector<Limit> limits; // by row; empty: to be computed
    std::vector<Outcome> outcomes;
    std::vector<Words> cautions, notes, steps;
    std::vector<Question> questions;
    std::vector<Allow> allows;
    MaybeQuantity time;
    double marks = 0;
    bool exercise = false;
    Span at; // the label
};

struct Verdict {
    std::string label, title;
    std::vector<PointRef> blames; // parts, pins, elements, wires, joints
    std::vector<std::pair<PointRef, PointRef>> blamed_runs;
    std::vector<Words> blamed_words; // what is outside the circuit
    bool blames_nothing = false;
    std::vector<Words> repairs, cautions, notes;
    std::vector<int> after; // checks that prove the repair
    Target then;            // where it goes on; kind nowhere: the end
    std::string then_plan;  // -> plan IGN-01
    std::vector<Allow> allows;
    Span at;
};

struct Fault { // one thing that is wrong
    PointRef at_point;
    FaultKind kind = FaultKind::open;
    std::string words;    // "2.2 ohm", "open", "touches W24"
    std::string position; // at "pressed"
    MaybeQuantity value;  // added, to_ground: ohms; reads, is, draws
    PointRef other;       // touches W24, swapped with W66
    Span at;
};
inline constexpr double shorted_inside_ohms = 0.05; // of a winding whose turns are joined. From memory
Quantity ohms_between(double low, double high);     // what corrosion adds: anything from low to high
struct Plant {
    std::string label, title;
    Fault fault;
    std::string how, undo, complaint;
    States complaint_states;
    Setup with;
    MaybeQuantity time;
    double marks = 0;
    std::vector<Words> cautions, notes;
    Span at;
};

struct Plan {
    std::string id, title;
    Span at;
    std::string vehicle, complaint, author, revision, date;
    States complaint_states;
    std::optional<Row> complaint_points; // a complaint that is a measurement
    MeasureKind complaint_measure = MeasureKind::nothing;
    std::optional<Limit> complaint_limit;
    Setup complaint_with;
    std::vector<std::string> codes;
    MaybeQuantity system;
    std::vector<Words> cautions, notes;
    std::vector<Allow> allows;
    Circuit circuit;
    std::vector<NamedSetup> setups;
    std::vector<Check> checks; // in the order written; the first is the start
    std::vector<Verdict> verdicts;
    std::vector<Plant> plants;
    std::optional<Fault> asked; // a fault that the command line puts in; no sheet has it
    std::vector<Question> questions;
    bool broken = false; // statements were left out because of errors of form: say nothing about what is missing
};

// 12 or 24, as the head says, else as its batteries do.
double system_volts(const Plan& plan);
// "X21.1", "joint X30.1", "K5.30/87", "W4": a point as a plan writes it.
std::string written_point(const Circuit& circuit, const PointRef& point);

// The limit that counts for a row: its own, else the one for all; nullptr when none is written.
const Limit* limit_of(const Check& check, const std::string& row);

} // namespace loomsheet
