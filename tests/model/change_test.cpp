#include "model/change.hpp"
#include <doctest/doctest.h>
#include <string>

using namespace loomsheet;

// Sources of the orders: trade-data section 12 (negative lead off first, on last; no loads on when connecting: common
// practice) and section 7 (ohms only on a dead circuit); key off before unplugging: sheet.md, "what each check must
// say", 2.
namespace {

SetupItem item(ItemKind kind, PartId part = none, std::string word = {}) {
    SetupItem made;
    made.kind = kind;
    made.part = part;
    made.word = std::move(word);
    return made;
}
SetupItem key(std::string word) { return item(ItemKind::key, none, std::move(word)); }
SetupItem output(PinId pin) {
    SetupItem made = item(ItemKind::output_on);
    made.pin = pin;
    return made;
}
SetupItem minus_off(PinId pin) {
    SetupItem made = item(ItemKind::disconnected);
    made.pin = pin;
    return made;
}
PointRef at_pin(PinId pin) {
    PointRef point;
    point.pin = pin;
    return point;
}
SetupItem between(ItemKind kind, PinId a, PinId b, double value) {
    SetupItem made = item(kind);
    made.a = at_pin(a);
    made.b = at_pin(b);
    Quantity quantity;
    quantity.si = value;
    made.value = quantity;
    return made;
}

std::string tell(const std::vector<Change>& list) {
    std::string said;
    for (const Change& change : list) {
        said += change.kind == ChangeKind::undo ? " -" : change.kind == ChangeKind::apply ? " +" : " =";
        switch (change.item.kind) {
        case ItemKind::key: said += "key:" + change.item.word; break;
        case ItemKind::engine_running: said += "engine"; break;
        case ItemKind::unplugged: said += "X" + std::to_string(change.item.part); break;
        case ItemKind::pulled: said += "F" + std::to_string(change.item.part); break;
        case ItemKind::disconnected: said += "minus"; break;
        case ItemKind::pressed: said += "press"; break;
        case ItemKind::position: said += "at:" + change.item.word; break;
        case ItemKind::output_on: said += "call" + std::to_string(change.item.pin); break;
        case ItemKind::bridge: said += "bridge"; break;
        case ItemKind::load: said += "load" + std::to_string(static_cast<int>(change.item.value->si)); break;
        default: said += change.item.word; break;
        }
    }
    return said;
}
Setup with(std::vector<SetupItem> items) { return {std::move(items), {}}; }

} // namespace

TEST_CASE("from the car at rest: connections first, then load and bridge, then key, outputs, hands") {
    const Setup to = with({item(ItemKind::pressed, 2), output(47), key("on"), between(ItemKind::bridge, 1, 2, 10),
                           between(ItemKind::load, 3, 4, 21), item(ItemKind::unplugged, 21), item(ItemKind::pulled, 5), minus_off(9),
                           item(ItemKind::words, none, "gear lever in neutral")});
    CHECK(tell(changes({}, to)) == " +minus +X21 +F5 +gear lever in neutral +load21 +bridge +key:on +call47 +press");
}

TEST_CASE("back to rest: hands, outputs, engine, key, then load and bridge, then plugs, the battery's minus last") {
    const Setup from = with({minus_off(9), item(ItemKind::unplugged, 21), between(ItemKind::load, 3, 4, 21), item(ItemKind::engine_running),
                             key("on"), output(47), item(ItemKind::pressed, 2)});
    CHECK(tell(changes(from, {})) == " -press -call47 -engine -key:on -load21 -X21 -minus");
}

TEST_CASE("the key goes off before a plug comes off, and on again, though both set-ups have it on") {
    const Setup from = with({key("on"), output(47)});
    const Setup to = with({key("on"), output(47), item(ItemKind::unplugged, 21)});
    CHECK(tell(changes(from, to)) == " -call47 -key:on +X21 +key:on +call47");
}

TEST_CASE("what stays stands last and nothing is switched for it") {
    const Setup from = with({key("on"), item(ItemKind::unplugged, 21)});
    const Setup to = with({item(ItemKind::unplugged, 21), key("on"), output(47)});
    CHECK(tell(changes(from, to)) == " +call47 =X21 =key:on");
    CHECK(tell(changes(to, to)) == " =X21 =key:on =call47");
}

TEST_CASE("what goes back comes before what comes off") {
    const Setup from = with({item(ItemKind::unplugged, 21)});
    const Setup to = with({item(ItemKind::pulled, 5)});
    CHECK(tell(changes(from, to)) == " -X21 +F5");
}

TEST_CASE("a lamp of other watts, or across other points, comes off and goes on again") {
    const Setup big = with({between(ItemKind::load, 3, 4, 21)});
    CHECK(tell(changes(big, with({between(ItemKind::load, 3, 4, 5)}))) == " -load21 +load5");
    CHECK(tell(changes(big, with({between(ItemKind::load, 6, 7, 21)}))) == " -load21 +load21");
    CHECK(tell(changes(big, with({between(ItemKind::load, 4, 3, 21)}))) == " =load21"); // turned round is the same place
}

TEST_CASE("key and switches go from one position to the next without a step between") {
    CHECK(tell(changes(with({key("on")}), with({key("crank")}))) == " +key:crank");
    CHECK(tell(changes(with({item(ItemKind::position, 4, "low")}), with({item(ItemKind::position, 4, "high")}))) == " +at:high");
    CHECK(tell(changes(with({key("on")}), with({key("off")}))) == " -key:on"); // off is the car at rest
    CHECK(changes({}, with({key("off")})).empty());
}

TEST_CASE("a running engine needs the key; stopping it takes the key off and on") {
    CHECK(tell(changes(with({key("on")}), with({item(ItemKind::engine_running)}))) == " +engine");
    CHECK(tell(changes(with({key("on"), item(ItemKind::engine_running)}), with({key("on")}))) == " -engine -key:on +key:on");
}

TEST_CASE("a load across the points measured takes the points of the check") {
    Check check;
    SetupItem load = item(ItemKind::load);
    load.across_points = true;
    check.with = with({load});
    check.rows.push_back({"", at_pin(3), at_pin(4), {}});
    CHECK(setup_of(check).items.front().a.pin == 3);
    CHECK(setup_of(check).items.front().b.pin == 4);
    CHECK(check.with.items.front().a.pin == none);
}

TEST_CASE("where a check is reached from: the start, outcomes, verdicts that go on") {
    Plan plan;
    plan.checks.resize(4);
    plan.verdicts.resize(1);
    plan.verdicts[0].then = {TargetKind::check, 2, {}, false, {}};
    const auto leads = [&](int from, TargetKind kind, int to) {
        Outcome outcome;
        outcome.target.kind = kind;
        outcome.target.index = to;
        plan.checks[from].outcomes.push_back(outcome);
    };
    leads(0, TargetKind::check, 1);
    leads(1, TargetKind::check, 2);
    leads(1, TargetKind::check, 2);
    leads(0, TargetKind::verdict, 0);
    CHECK(comes_from(plan, 0) == std::vector<int>{-1});
    CHECK(comes_from(plan, 1) == std::vector<int>{0});
    CHECK(comes_from(plan, 2) == std::vector<int>{0, 1});
    CHECK(comes_from(plan, 3).empty());
}
