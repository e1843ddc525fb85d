#include "report/plan_json.hpp"
#include "circuit/usual_values.hpp"
#include <nlohmann/json.hpp>

namespace loomsheet {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view word(Metal metal) {
    switch (metal) {
    case Metal::wire_end: return "wire end";
    case Metal::part: return "part";
    case Metal::joint: return "joint";
    case Metal::body: return "body";
    case Metal::whole: return "whole";
    }
    return {};
}
constexpr std::string_view word(LimitKind kind) {
    switch (kind) {
    case LimitKind::range: return "range";
    case LimitKind::below: return "below";
    case LimitKind::above: return "above";
    case LimitKind::open: return "open";
    case LimitKind::yes: return "yes";
    case LimitKind::no: return "no";
    case LimitKind::within: return "within";
    }
    return {};
}
constexpr std::string_view word(TargetKind kind) {
    switch (kind) {
    case TargetKind::nowhere: return "nowhere";
    case TargetKind::check: return "check";
    case TargetKind::verdict: return "verdict";
    case TargetKind::next: return "next";
    case TargetKind::done: return "done";
    case TargetKind::suspects: return "suspects";
    }
    return {};
}
constexpr std::string_view word(OutcomeKind kind) {
    switch (kind) {
    case OutcomeKind::pass: return "pass";
    case OutcomeKind::fail: return "fail";
    case OutcomeKind::low: return "low";
    case OutcomeKind::high: return "high";
    case OutcomeKind::open: return "open";
    case OutcomeKind::no_current: return "no current";
    case OutcomeKind::band: return "band";
    case OutcomeKind::answer: return "answer";
    }
    return {};
}

// Leaves out what says nothing.
class Object {
public:
    Object& add(const char* key, Json value) {
        const bool nothing = value.is_null() || (value.is_structured() && value.empty()) || value == "" || value == false;
        if (!nothing) json_[key] = std::move(value);
        return *this;
    }
    operator Json() const { return json_; } // NOLINT(google-explicit-constructor)

private:
    Json json_ = Json::object();
};

template <class List, class Make>
Json each(const List& list, const Make& make) {
    Json made = Json::array();
    for (const auto& one : list)
        made.push_back(make(one));
    return made;
}

Json quantity(const Quantity& value) {
    return {{"si", value.si},
            {"plus_minus", value.plus_minus ? Json(*value.plus_minus) : Json()},
            {"unit", value.unit ? row_of(value.unit->dimension).base_unit : ""}};
}
Json quantity(const MaybeQuantity& value) { return value ? quantity(*value) : Json(); }

Json condition(const std::optional<Condition>& when) {
    if (!when) return {};
    return Object().add("key", when->key).add("engine_running", when->engine_running).add("asleep", when->asleep);
}

class Writer {
public:
    explicit Writer(const Circuit& circuit) : circuit_(circuit) {}

    Json pin(PinId id) const { return id == none ? Json() : Json(circuit_.pin_name(id)); }
    Json part(PartId id) const { return id == none ? Json() : Json(circuit_.parts[id].id); }
    Json pins(const std::vector<PinId>& list) const {
        return each(list, [&](PinId one) { return pin(one); });
    }
    Json point(const PointRef& at) const {
        return Object()
            .add("metal", word(at.metal))
            .add("part", part(at.part))
            .add("pin", pin(at.pin))
            .add("wire", at.wire == none ? Json() : Json(circuit_.wires[at.wire].id))
            .add("pins", pins(at.pins));
    }
    Json points(const std::vector<PointRef>& list) const {
        return each(list, [&](const PointRef& one) { return point(one); });
    }
    Json states(const States& asked) const {
        if (asked.empty()) return {};
        const auto state = [&](const State& one) -> Json {
            return Object().add("of", point(one.of)).add("verb", state_word(one.verb)).add("from", one.from).add("to", one.to);
        };
        return {{"any", asked.any}, {"list", each(asked.list, state)}};
    }
    Json items(const Setup& setup) const {
        return each(setup.items, [&](const SetupItem& one) { return item(one); });
    }
    Json circuit() const {
        return {{"pins", each(circuit_.pins, [&](const Pin& one) { return a_pin(one); })},
                {"parts", each(circuit_.parts, [&](const Part& one) { return a_part(one); })},
                {"wires", each(circuit_.wires, [&](const Wire& one) { return wire(one); })},
                {"meters", each(circuit_.meters, [](const MeterRow& one) {
                     return Json{{"function", one.function}, {"within", one.within.si}};
                 })}};
    }

private:
    const Circuit& circuit_;

    Json item(const SetupItem& one) const {
        return Object()
            .add("kind", row_of(one.kind).word)
            .add("word", one.word)
            .add("word2", one.word2)
            .add("part", part(one.part))
            .add("pin", pin(one.pin))
            .add("parts", each(one.parts, [&](PartId id) { return part(id); }))
            .add("value", quantity(one.value))
            .add("a", one.kind == ItemKind::bridge || (one.kind == ItemKind::load && !one.across_points) ? point(one.a) : Json())
            .add("b", one.kind == ItemKind::bridge || (one.kind == ItemKind::load && !one.across_points) ? point(one.b) : Json())
            .add("across_points", one.across_points);
    }
    Json a_pin(const Pin& one) const {
        const PinId id = static_cast<PinId>(&one - circuit_.pins.data());
        return Object().add("pin", pin(id)).add("part", part(one.part)).add("mate", pin(circuit_.mate(id))).add("inside", !one.declared);
    }
    Json row(const TableValue& one) const {
        const auto pair = [&](const auto& ends) -> Json { return {pin(ends.first), pin(ends.second)}; };
        return Object()
            .add("position", one.position)
            .add("at", quantity(one.at_value))
            .add("value", quantity(one.value))
            .add("closed", each(one.closed, pair));
    }
    Json element(const Element& one) const {
        return Object()
            .add("kind", row_of(one.kind).word)
            .add("a", pin(one.a))
            .add("b", pin(one.b))
            .add("c", pin(one.c))
            .add("value", quantity(one.value))
            .add("at", quantity(one.holds_at))
            .add("more", quantity(one.more))
            .add("table", each(one.table, [&](const TableValue& each_row) { return row(each_row); }))
            .add("pulls_down", one.pulls_down)
            .add("flashes", one.flashes)
            .add("follows", part(one.follows))
            .add("when", condition(one.when));
    }
    static Json draw(const Draw& one) { return Object().add("value", quantity(one.value)).add("when", condition(one.when)); }
    Json a_part(const Part& one) const {
        const PartId id = static_cast<PartId>(&one - circuit_.parts.data());
        Object made;
        made.add("id", one.id)
            .add("kind", kind_word(one.kind))
            .add("sensor", one.sensor_kind)
            .add("metal", one.metal)
            .add("bolted_to", part(one.bolted_to))
            .add("bolted_pin", pin(one.bolted_pin))
            .add("in", part(one.assembly))
            .add("held", circuit_.sits_in_holder(id))
            .add("pins", pins(one.pins))
            .add("elements", each(one.elements, [&](const Element& inside) { return element(inside); }));
        made.add("rating", quantity(one.rating))
            .add("inner", quantity(one.inner))
            .add("pulls_in", quantity(one.pulls_in))
            .add("drops_out", quantity(one.drops_out))
            .add("stalls_at", quantity(one.stalls_at))
            .add("needs", quantity(one.needs))
            .add("gives", each(one.gives, draw))
            .add("draws", each(one.draws, draw))
            .add("supply", pins(one.supply_pins))
            .add("ground", pins(one.ground_pins));
        made.add("closed_when", condition(one.closed_when))
            .add("positions", each(one.positions, [&](const TableValue& position) { return row(position); }))
            .add("joins", pins(one.joined))
            .add("on", part(one.plugs_on))
            .add("twin", part(one.twin))
            .add("likely", one.likely);
        return made;
    }
    Json wire(const Wire& one) const {
        return Object()
            .add("id", one.id)
            .add("from", pin(one.from))
            .add("to", pin(one.to))
            .add("area", quantity(one.area))
            .add("gauge", one.gauge)
            .add("length", quantity(one.length))
            .add("likely", one.likely);
    }
};

Json limit(const Plan& plan, const Limit& one) {
    return Object()
        .add("kind", word(one.kind))
        .add("low", one.low ? Json(one.low->si) : Json())
        .add("high", one.high ? Json(one.high->si) : Json())
        .add("of", one.reference == none ? Json() : Json(plan.checks[one.reference].label))
        .add("row", one.row)
        .add("not_computed", one.not_computed);
}

Json target(const Plan& plan, const Writer& write, const Target& to) {
    const bool verdict = to.kind == TargetKind::verdict;
    return Object()
        .add("kind", word(to.kind))
        .add("to", to.index == none ? Json() : Json(verdict ? plan.verdicts[to.index].label : plan.checks[to.index].label))
        .add(to.run_is_span ? "between" : "left", write.points(to.run));
}

Json row(const Writer& write, const Row& one) {
    return Object().add("name", one.name).add("red", write.point(one.red)).add("black", write.point(one.black));
}

Json check(const Plan& plan, const Writer& write, const Check& one) {
    const auto outcome = [&](const Outcome& each_outcome) -> Json {
        return Object()
            .add("kind", word(each_outcome.kind))
            .add("row", each_outcome.row)
            .add("answer", each_outcome.answer)
            .add("states", write.states(each_outcome.states))
            .add("band", each_outcome.band ? limit(plan, *each_outcome.band) : Json())
            .add("target", target(plan, write, each_outcome.target));
    };
    return Object()
        .add("check", one.label)
        .add("with", write.items(one.with))
        .add("measure", measure_word(one.measure))
        .add("rows", each(one.rows, [&](const Row& each_row) { return row(write, each_row); }))
        .add("states", write.states(one.look_states))
        .add("limits", each(one.limits, [&](const Limit& each_limit) { return limit(plan, each_limit); }))
        .add("outcomes", each(one.outcomes, outcome))
        .add("exercise", one.exercise);
}

Json verdict(const Plan& plan, const Writer& write, const Verdict& one) {
    const auto run = [&](const std::pair<PointRef, PointRef>& ends) -> Json { return {write.point(ends.first), write.point(ends.second)}; };
    return Object()
        .add("verdict", one.label)
        .add("blames", write.points(one.blames))
        .add("blamed_runs", each(one.blamed_runs, run))
        .add("blamed_words", each(one.blamed_words, [](const Words& words) { return words.text; }))
        .add("blames_nothing", one.blames_nothing)
        .add("after", each(one.after, [&](int check) { return plan.checks[check].label; }))
        .add("then", one.then.kind == TargetKind::nowhere ? Json() : target(plan, write, one.then))
        .add("then_plan", one.then_plan);
}

} // namespace

Json fault_json(const Circuit& circuit, const Fault& fault) {
    const Writer write(circuit);
    return Object()
        .add("kind", row_of(fault.kind).word)
        .add("at", write.point(fault.at_point))
        .add("position", fault.position)
        .add("value", quantity(fault.value))
        .add("other", row_of(fault.kind).has_other ? write.point(fault.other) : Json());
}

Json plan_json(const Plan& plan) {
    const Writer write(plan.circuit);
    const auto plant = [&](const Plant& one) -> Json { return {{"plant", one.label}, {"fault", fault_json(plan.circuit, one.fault)}}; };
    Object complaint;
    complaint.add("states", write.states(plan.complaint_states)).add("with", write.items(plan.complaint_with));
    if (plan.complaint_points)
        complaint.add("measure", measure_word(plan.complaint_measure)).add("row", row(write, *plan.complaint_points));
    if (plan.complaint_limit) complaint.add("limit", limit(plan, *plan.complaint_limit));
    return Object()
        .add("system", quantity(plan.system))
        .add("complaint", complaint)
        .add("circuit", write.circuit())
        .add("checks", each(plan.checks, [&](const Check& one) { return check(plan, write, one); }))
        .add("verdicts", each(plan.verdicts, [&](const Verdict& one) { return verdict(plan, write, one); }))
        .add("plants", each(plan.plants, plant));
}

Json usual_json() {
    Json made = Json::object();
    for (const UsualRow& one : usual_values())
        made[std::string(one.what)] = {{"unit", one.unit}, {"low", one.low}, {"value", one.value}, {"high", one.high}};
    return made;
}

} // namespace loomsheet
