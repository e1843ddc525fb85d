#include "oracle/plan.hpp"
#include <algorithm>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace oracle {
namespace {

class Reader {
public:
    explicit Reader(Plan& plan) : plan_(plan) {
        for (std::size_t i = 0; i < plan.pins.size(); ++i)
            pins_[plan.pins[i].name] = static_cast<int>(i);
        for (std::size_t i = 0; i < plan.parts.size(); ++i)
            parts_[plan.parts[i].id] = static_cast<int>(i);
        for (std::size_t i = 0; i < plan.wires.size(); ++i)
            wires_[plan.wires[i].id] = static_cast<int>(i);
        for (std::size_t i = 0; i < plan.checks.size(); ++i)
            checks_[plan.checks[i].label] = static_cast<int>(i);
    }
    int pin(const Json& of, const char* key) const { return found(pins_, of, key); }
    int part(const Json& of, const char* key) const { return found(parts_, of, key); }
    int check(const Json& of, const char* key) const { return found(checks_, of, key); }
    std::vector<int> pins(const Json& of, const char* key) const { return all(pins_, of, key); }

    static std::string text(const Json& of, const char* key) { return of.value(key, std::string()); }
    static bool yes(const Json& of, const char* key) { return of.value(key, false); }
    static Quantity quantity(const Json& of) { return {of.at("si"), number(of, "plus_minus"), of.at("unit")}; }
    static MaybeQuantity quantity(const Json& of, const char* key) {
        return of.contains(key) ? MaybeQuantity(quantity(of.at(key))) : std::nullopt;
    }
    static std::optional<double> number(const Json& of, const char* key) {
        return of.contains(key) && !of.at(key).is_null() ? std::optional<double>(of.at(key).get<double>()) : std::nullopt;
    }
    static std::optional<When> when(const Json& of, const char* key) {
        if (!of.contains(key)) return std::nullopt;
        const Json& it = of.at(key);
        return When{it.value("key", std::vector<std::string>()), yes(it, "engine_running"), yes(it, "asleep")};
    }
    template <class Made>
    static std::vector<Made> list(const Json& of, const char* key, const auto& make) {
        std::vector<Made> made;
        if (of.contains(key))
            for (const Json& each : of.at(key))
                made.push_back(make(each));
        return made;
    }
    Point point(const Json& of, const char* key) const { return of.contains(key) ? point(of.at(key)) : Point{}; }
    Point point(const Json& of) const {
        return {text(of, "metal"), part(of, "part"), pin(of, "pin"), found(wires_, of, "wire"), pins(of, "pins")};
    }
    States states(const Json& of, const char* key) const {
        States made;
        if (!of.contains(key)) return made;
        made.any = yes(of.at(key), "any");
        made.list = list<State>(of.at(key), "list", [&](const Json& one) {
            return State{point(one, "of"), text(one, "verb"), text(one, "from"), text(one, "to")};
        });
        return made;
    }
    Setup items(const Json& of, const char* key) const {
        return list<Item>(of, key, [&](const Json& one) {
            return Item{text(one, "kind"),      text(one, "word"), part(one, "part"), pin(one, "pin"),          all(parts_, one, "parts"),
                        quantity(one, "value"), point(one, "a"),   point(one, "b"),   yes(one, "across_points")};
        });
    }
    TableRow table_row(const Json& of) const {
        TableRow made{text(of, "position"), quantity(of, "at"), quantity(of, "value"), {}};
        if (of.contains("closed"))
            for (const Json& pair : of.at("closed"))
                made.closed.emplace_back(pins_.at(pair.at(0)), pins_.at(pair.at(1)));
        return made;
    }
    Element element(const Json& of) const {
        return {of.at("kind"),         pin(of, "a"),
                pin(of, "b"),          pin(of, "c"),
                quantity(of, "value"), quantity(of, "at"),
                quantity(of, "more"),  list<TableRow>(of, "table", [&](const Json& row) { return table_row(row); }),
                yes(of, "pulls_down"), yes(of, "flashes"),
                part(of, "follows"),   when(of, "when")};
    }
    void part_of(const Json& of, Part& made) const {
        made.kind = text(of, "kind"), made.metal = text(of, "metal");
        made.bolted_to = part(of, "bolted_to"), made.bolted_pin = pin(of, "bolted_pin"), made.in = part(of, "in");
        made.on = part(of, "on"), made.twin = part(of, "twin"), made.held = yes(of, "held");
        made.pins = pins(of, "pins"), made.supply = pins(of, "supply"), made.ground = pins(of, "ground"), made.joins = pins(of, "joins");
        made.elements = list<Element>(of, "elements", [&](const Json& one) { return element(one); });
        made.rating = quantity(of, "rating"), made.inner = quantity(of, "inner"), made.pulls_in = quantity(of, "pulls_in");
        made.drops_out = quantity(of, "drops_out"), made.stalls_at = quantity(of, "stalls_at"), made.needs = quantity(of, "needs");
        const auto draw = [](const Json& one) { return Draw{quantity(one.at("value")), when(one, "when")}; };
        made.gives = list<Draw>(of, "gives", draw), made.draws = list<Draw>(of, "draws", draw);
        made.positions = list<TableRow>(of, "positions", [&](const Json& row) { return table_row(row); });
    }
    Limit limit(const Json& of) const {
        return {text(of, "kind"), number(of, "low"), number(of, "high"), check(of, "of"), text(of, "row"), yes(of, "not_computed")};
    }
    std::vector<Point> points(const Json& of, const char* key) const {
        return list<Point>(of, key, [&](const Json& one) { return point(one); });
    }
    Outcome outcome(const Json& of) const {
        const Json& to = of.at("target");
        return {of.at("kind"),
                text(of, "row"),
                text(of, "answer"),
                states(of, "states"),
                of.contains("band") ? std::optional(limit(of.at("band"))) : std::nullopt,
                {text(to, "kind"), points(to, "between"), points(to, "left")}};
    }
    void check_of(const Json& of, Check& made) const {
        made.measure = of.at("measure"), made.with = items(of, "with"), made.states = states(of, "states");
        made.rows = list<Row>(of, "rows", [&](const Json& one) { return Row{text(one, "name"), point(one, "red"), point(one, "black")}; });
        made.limits = list<Limit>(of, "limits", [&](const Json& one) { return limit(one); });
        made.outcomes = list<Outcome>(of, "outcomes", [&](const Json& one) { return outcome(one); });
    }
    Verdict verdict(const Json& of) const {
        Verdict made;
        made.label = of.at("verdict"), made.blames = points(of, "blames");
        if (of.contains("blamed_runs"))
            for (const Json& run : of.at("blamed_runs"))
                made.runs.emplace_back(point(run.at(0)), point(run.at(1)));
        made.blames_nothing = yes(of, "blames_nothing"), made.blames_words = of.contains("blamed_words");
        return made;
    }

private:
    Plan& plan_;
    std::map<std::string, int> pins_, parts_, wires_, checks_;

    static int found(const std::map<std::string, int>& names, const Json& of, const char* key) {
        return of.contains(key) ? names.at(of.at(key)) : none;
    }
    static std::vector<int> all(const std::map<std::string, int>& names, const Json& of, const char* key) {
        return list<int>(of, key, [&](const Json& one) { return names.at(one); });
    }
};

// Where an outcome or a verdict sends the technician, as the page says it.
void read_arrows(const Json& arrows, Plan& plan) {
    if (arrows.is_null()) throw std::runtime_error("no arrows: are the typefaces installed?");
    for (const Json& card : arrows.at("checks"))
        for (Check& check : plan.checks)
            if (check.label == card.at("check")) {
                check.sign = card.at("sign");
                for (const Json& way : card.at("ways"))
                    check.ways.push_back({way.at("index"), way.at("words"), way.at("sign")});
            }
    for (const Json& card : arrows.at("verdicts"))
        for (Verdict& verdict : plan.verdicts)
            if (verdict.label == card.at("verdict")) {
                verdict.sign = card.at("sign");
                for (const Json& way : card.at("ways"))
                    if (way.at("words").get<std::string>().starts_with("go on")) verdict.goes_on = way.at("sign");
            }
}

double system_volts(const Json& plan, const Plan& made) {
    if (plan.contains("system")) return plan.at("system").at("si");
    for (const Part& part : made.parts)
        for (const Draw& gives : part.gives)
            if (gives.value.si > 18) return 24;
    return 12;
}

} // namespace

int Plan::part(const std::string& name) const {
    const auto at = std::find_if(parts.begin(), parts.end(), [&](const Part& each) { return each.id == name; });
    return at == parts.end() ? none : static_cast<int>(at - parts.begin());
}

std::vector<int> Plan::wires_at(int pin) const {
    std::vector<int> found;
    for (std::size_t i = 0; i < wires.size(); ++i)
        if (wires[i].from == pin || wires[i].to == pin) found.push_back(static_cast<int>(i));
    return found;
}

Plan read_plan(const Json& of) {
    const Json& plan = of.at("plan");
    const Json& circuit = plan.at("circuit");
    Plan made;
    made.id = of.at("id");
    for (const Json& each : circuit.at("pins"))
        made.pins.push_back({each.at("pin"), none, none, each.value("inside", false)});
    for (const Json& each : circuit.at("parts"))
        made.parts.emplace_back().id = each.at("id");
    for (const Json& each : circuit.at("wires"))
        made.wires.emplace_back().id = each.at("id");
    for (const Json& each : plan.at("checks"))
        made.checks.emplace_back().label = each.at("check");
    const Reader read(made);
    for (std::size_t i = 0; i < made.pins.size(); ++i) {
        const Json& pin = circuit.at("pins").at(i);
        made.pins[i].part = read.part(pin, "part"), made.pins[i].mate = read.pin(pin, "mate");
    }
    for (std::size_t i = 0; i < made.parts.size(); ++i)
        read.part_of(circuit.at("parts").at(i), made.parts[i]);
    for (std::size_t i = 0; i < made.wires.size(); ++i) {
        const Json& wire = circuit.at("wires").at(i);
        Wire& to = made.wires[i];
        to.from = read.pin(wire, "from"), to.to = read.pin(wire, "to");
        if (const auto area = Reader::quantity(wire, "area")) to.area = area->si;
        if (const auto length = Reader::quantity(wire, "length")) to.length = length->si;
    }
    for (const Json& each : circuit.at("meters"))
        made.meters.emplace_back(each.at("function"), each.at("within"));
    const Json complaint = plan.value("complaint", Json::object());
    made.complaint = read.states(complaint, "states"), made.complaint_with = read.items(complaint, "with");
    made.complaint_is_measured = complaint.contains("measure");
    for (std::size_t i = 0; i < made.checks.size(); ++i)
        read.check_of(plan.at("checks").at(i), made.checks[i]);
    if (plan.contains("verdicts"))
        for (const Json& each : plan.at("verdicts"))
            made.verdicts.push_back(read.verdict(each));
    made.system = system_volts(plan, made);
    read_arrows(of.at("arrows"), made);
    return made;
}

Fault read_fault(const Plan& plan, const Json& put_in) {
    Plan& names = const_cast<Plan&>(plan); // the reader only asks it for names
    const Reader read(names);
    return {"",
            put_in.at("kind"),
            Reader::text(put_in, "position"),
            read.point(put_in, "at"),
            read.point(put_in, "other"),
            Reader::quantity(put_in, "value"),
            0};
}

} // namespace oracle
