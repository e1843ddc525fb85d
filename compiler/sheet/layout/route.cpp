#include "sheet/layout/route.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/item.hpp"
#include "sheet/words/spot.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>
#include <iterator>

namespace loomsheet {
namespace {

using Panels = std::vector<PanelId>; // sorted

Panels both(const Panels& a, const Panels& b) {
    Panels result;
    std::set_union(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(result));
    return result;
}

Panels common(const Panels& a, const Panels& b) {
    Panels result;
    std::set_intersection(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(result));
    return result;
}

Panels without(const Panels& a, const Panels& b) {
    Panels result;
    std::set_difference(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(result));
    return result;
}

// A panel comes off after everything is switched off and before anybody touches a plug.
bool before_panels(const Change& change) {
    if (change.kind != ChangeKind::undo) return false;
    const ItemKind kind = change.item.kind;
    return kind != ItemKind::unplugged && kind != ItemKind::pulled && kind != ItemKind::one_of_pulled && kind != ItemKind::disconnected;
}

std::vector<Step> steps_of(const Wording& say, const Plan& plan, const Order& order, const Routes::Way& way, bool with_origin) {
    std::vector<Step> steps;
    const int origin = with_origin && way.from >= 0 ? order.numbers[way.from] : 0;
    const auto split = std::find_if_not(way.changes.begin(), way.changes.end(), before_panels);
    const auto add = [&](std::vector<Step> more) { steps.insert(steps.end(), more.begin(), more.end()); };
    add(steps_of(say, plan.circuit, {way.changes.begin(), split}, origin));
    for (const PanelId panel : way.panels)
        steps.push_back(panel_off(say, plan.circuit.panels[panel]));
    add(steps_of(say, plan.circuit, {split, way.changes.end()}, origin));
    if (steps.empty() && way.from < 0) steps.push_back({say(Word::key_at, upper(say(Word::key_off))), say(Word::all_connected), ""});
    return steps;
}

bool same_steps(const std::vector<Step>& a, const std::vector<Step>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const Step& x, const Step& y) { return x.main == y.main && x.how == y.how; });
}

std::string origin_words(const Wording& say, const Order& order, const Routes::Way& way) {
    if (way.after_repair) return say(Word::after_repair);
    return way.from < 0 ? say(Word::the_start) : std::to_string(order.numbers[way.from]);
}

} // namespace

Routes::Routes(const Plan& plan) : plan_(plan), origins_(origins_of(plan)) {
    proves_.assign(plan.checks.size(), false);
    for (const Verdict& verdict : plan.verdicts)
        for (const int check : verdict.after)
            proves_[check] = true;
    for (const Check& check : plan.checks) {
        needs_.push_back(panels_for(plan.circuit, check));
        std::sort(needs_.back().begin(), needs_.back().end());
    }
    settle_panels();
}

std::vector<PanelId> Routes::off_after(int check) const { return check < 0 ? Panels{} : both(off_[check], needs_[check]); }

// A panel counts as off when it is off on every way here: start from all of them and strike out until nothing changes.
void Routes::settle_panels() {
    Panels all;
    for (std::size_t i = 0; i < plan_.circuit.panels.size(); ++i)
        all.push_back(static_cast<PanelId>(i));
    off_.assign(plan_.checks.size(), all);
    for (bool changed = true; changed;) {
        changed = false;
        for (std::size_t check = 0; check < plan_.checks.size(); ++check) {
            Panels now = proves_[check] || origins_[check].empty() ? Panels{} : all;
            for (const int from : origins_[check])
                now = common(now, off_after(from));
            if (now == off_[check]) continue;
            off_[check] = std::move(now);
            changed = true;
        }
    }
}

Routes::Way Routes::way(int from, int to, bool after_repair) const {
    Way way;
    way.from = from;
    way.after_repair = after_repair;
    const Setup before = from < 0 ? Setup{} : setup_of(plan_.checks[from]);
    for (Change& change : changes(before, setup_of(plan_.checks[to]))) {
        if (change.kind == ChangeKind::keep) continue;
        const int holds_in = change.kind == ChangeKind::undo ? from : to;
        forget_ends_in_rows(change.item, plan_.checks[holds_in]);
        way.changes.push_back(std::move(change));
    }
    way.panels = without(needs_[to], off_after(from));
    return way;
}

Routes::Way Routes::way_from_rest(int check) const { return way(-1, check, false); }

std::vector<Routes::Way> Routes::ways_to(int check) const {
    std::vector<Way> ways;
    for (const int from : origins_[check])
        ways.push_back(way(from, check, false));
    if (proves_[check]) ways.push_back(way(-1, check, true));
    if (ways.empty()) ways.push_back(way(-1, check, false));
    return ways;
}

namespace {

// Ways that ask for the same ticks.
struct Group {
    std::vector<Routes::Way> ways;
    std::vector<Step> steps; // without the number they come from
};

std::vector<Group> groups_of(const Wording& say, const Plan& plan, const Order& order, std::vector<Routes::Way> ways) {
    std::vector<Group> groups;
    for (Routes::Way& way : ways) {
        std::vector<Step> steps = steps_of(say, plan, order, way, false);
        const auto same = std::find_if(groups.begin(), groups.end(), [&](const Group& group) { return same_steps(group.steps, steps); });
        if (same == groups.end())
            groups.push_back({{std::move(way)}, std::move(steps)});
        else
            same->ways.push_back(std::move(way));
    }
    return groups;
}

// Too many ways that differ: everything goes back first, then one list serves them all.
TickList from_anywhere(const Wording& say, const Plan& plan, const Order& order, const Routes& routes, int check) {
    TickList list{say(Word::from_anywhere), {{say(Word::all_back), say(Word::all_back_how), ""}}};
    for (Step& step : steps_of(say, plan, order, routes.way_from_rest(check), false))
        list.steps.push_back(std::move(step));
    return list;
}

} // namespace

std::vector<TickList> tick_lists(const Wording& say, const Plan& plan, const Order& order, const Routes& routes, int check) {
    constexpr std::size_t most_lists = 3;
    std::vector<Routes::Way> ways = routes.ways_to(check);
    const auto place = [&](const Routes::Way& way) { return way.from < 0 ? 0 : order.numbers[way.from]; };
    std::stable_sort(ways.begin(), ways.end(), [&](const Routes::Way& a, const Routes::Way& b) { return place(a) < place(b); });
    std::vector<Group> groups = groups_of(say, plan, order, std::move(ways));
    if (groups.size() > most_lists) return {from_anywhere(say, plan, order, routes, check)};
    std::vector<TickList> lists;
    for (Group& group : groups) {
        TickList list;
        if (groups.size() > 1) {
            std::vector<std::string> names;
            for (const Routes::Way& way : group.ways)
                names.push_back(origin_words(say, order, way));
            list.heading = say(Word::coming_from, join(names));
        }
        list.steps = group.ways.size() == 1 ? steps_of(say, plan, order, group.ways.front(), true) : std::move(group.steps);
        lists.push_back(std::move(list));
    }
    return lists;
}

} // namespace loomsheet
