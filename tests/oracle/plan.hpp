// A compiled plan as `proof --format json` gives it: read here anew, so that nothing of the program is linked. Values in SI.
#pragma once
#include <map>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

namespace oracle {

using Json = nlohmann::json;
inline constexpr int none = -1;

struct Quantity {
    double si = 0;
    std::optional<double> plus_minus; // none written: the usual range; 0 is exact
    std::string unit;                 // V A W ohm m m2 degC 1 ...
    double low() const { return si - plus_minus.value_or(0); }
    double high() const { return si + plus_minus.value_or(0); }
};
using MaybeQuantity = std::optional<Quantity>;

struct When { // a condition: all that is named holds
    std::vector<std::string> key;
    bool engine_running = false, asleep = false;
};
struct TableRow {
    std::string position;
    MaybeQuantity at, value;
    std::vector<std::pair<int, int>> closed; // pins
};
struct Element {
    std::string kind;
    int a = none, b = none, c = none; // pins
    MaybeQuantity value, at, more;
    std::vector<TableRow> table;
    bool pulls_down = false, flashes = false;
    int follows = none; // part
    std::optional<When> when;
};
struct Draw {
    Quantity value;
    std::optional<When> when;
};
struct Part {
    std::string id, kind, metal;
    int bolted_to = none, bolted_pin = none, in = none, on = none, twin = none;
    bool held = false; // in a socket or holder
    std::vector<int> pins, supply, ground, joins;
    std::vector<Element> elements;
    MaybeQuantity rating, inner, pulls_in, drops_out, stalls_at, needs;
    std::vector<Draw> gives, draws;
    std::vector<TableRow> positions;
};
struct Pin {
    std::string name;
    int part = none, mate = none;
    bool inside = false;
};
struct Wire {
    std::string id;
    int from = none, to = none;
    std::optional<double> area, length; // m2, m
};
struct Point {
    std::string metal; // "wire end" part joint body whole
    int part = none, pin = none, wire = none;
    std::vector<int> pins;
    bool nowhere() const { return part == none && pin == none && wire == none && metal != "body"; }
};
struct State {
    Point of;
    std::string verb, from, to;
};
struct States {
    bool any = false;
    std::vector<State> list;
};
struct Item {
    std::string kind, word;
    int part = none, pin = none;
    std::vector<int> parts;
    MaybeQuantity value;
    Point a, b;
    bool across_points = false;
};
using Setup = std::vector<Item>;
struct Limit {
    std::string kind; // range below above open yes no within
    std::optional<double> low, high;
    int of = none; // check
    std::string row;
    bool not_computed = false;
};
struct Target {
    std::string kind; // check verdict next done suspects
    std::vector<Point> between, left;
};
struct Outcome {
    std::string kind; // pass fail low high open "no current" band answer
    std::string row, answer;
    States states;
    std::optional<Limit> band;
    Target target; // of what a stop names only: where it leads is read off the arrow
};
struct Row {
    std::string name;
    Point red, black;
};
struct Way {               // printed
    std::size_t index = 0; // of the outcome in the plan; one behind them: the fail that is not written
    std::string words, sign;
};
struct Check {
    std::string label, measure, sign;
    Setup with;
    std::vector<Row> rows;
    States states;
    std::vector<Limit> limits;
    std::vector<Outcome> outcomes;
    std::vector<Way> ways; // in the order of the page
};
struct Verdict {
    std::string label, sign;
    std::vector<Point> blames;
    std::vector<std::pair<Point, Point>> runs;
    bool blames_nothing = false, blames_words = false;
    std::string goes_on; // the number of the check, as printed; empty: the end
};
struct Fault {
    std::string words, kind, position;
    Point at, other;
    MaybeQuantity value;
    double likely = 0;
};
struct Plan {
    std::string id;
    double system = 12; // V
    std::vector<Pin> pins;
    std::vector<Part> parts;
    std::vector<Wire> wires;
    std::vector<std::pair<std::string, double>> meters; // function, ±
    States complaint;
    Setup complaint_with;
    bool complaint_is_measured = false;
    std::vector<Check> checks;
    std::vector<Verdict> verdicts;

    int part(const std::string& id) const;
    std::vector<int> wires_at(int pin) const;
};

// One of `plans`. Throws where it does not understand.
Plan read_plan(const Json& of);
Fault read_fault(const Plan& plan, const Json& put_in);

} // namespace oracle
