#include "model/change.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr int kept = 17; // after all that is done

int rank(const Change& change) {
    if (change.kind == ChangeKind::keep) return kept;
    return change.kind == ChangeKind::undo ? row_of(change.item.kind).undone : row_of(change.item.kind).done;
}

bool same_point(const PointRef& a, const PointRef& b) {
    return a.metal == b.metal && a.part == b.part && a.pin == b.pin && a.wire == b.wire && a.pins == b.pins;
}

bool same_points(const SetupItem& a, const SetupItem& b) {
    return (same_point(a.a, b.a) && same_point(a.b, b.b)) || (same_point(a.a, b.b) && same_point(a.b, b.a));
}

bool same_value(const MaybeQuantity& a, const MaybeQuantity& b) {
    if (!a || !b) return !a && !b;
    return a->si == b->si && (!a->unit || !b->unit || a->unit->dimension == b->unit->dimension);
}

bool is_rest(const SetupItem& item) { return item.kind == ItemKind::key && item.word == "off"; }

std::vector<SetupItem> without_rest(const Setup& setup) {
    std::vector<SetupItem> items;
    for (const SetupItem& item : setup.items)
        if (!is_rest(item)) items.push_back(item);
    return items;
}

const SetupItem* find_same_subject(const std::vector<SetupItem>& items, const SetupItem& wanted) {
    for (const SetupItem& item : items)
        if (same_subject(item, wanted)) return &item;
    return nullptr;
}

bool holds_in(const std::vector<SetupItem>& items, const SetupItem& wanted) {
    const SetupItem* found = find_same_subject(items, wanted);
    return found && same_state(*found, wanted);
}

bool has_engine(const std::vector<SetupItem>& items) {
    return std::any_of(items.begin(), items.end(), [](const SetupItem& item) { return row_of(item.kind).subject == Subject::engine; });
}

// Whether everything that is on has to go off in between.
bool must_switch_off(const std::vector<SetupItem>& before, const std::vector<SetupItem>& after) {
    const auto changes_connection = [](const std::vector<SetupItem>& here, const std::vector<SetupItem>& there) {
        return std::any_of(here.begin(), here.end(),
                           [&](const SetupItem& item) { return row_of(item.kind).is_connection && !holds_in(there, item); });
    };
    return changes_connection(before, after) || changes_connection(after, before) || (has_engine(before) && !has_engine(after));
}

} // namespace

bool same_subject(const SetupItem& a, const SetupItem& b) {
    const Subject what = row_of(a.kind).subject;
    if (what != row_of(b.kind).subject) return false;
    switch (what) {
    case Subject::plug:
    case Subject::holder:
    case Subject::handle: return a.part == b.part;
    case Subject::terminal:
    case Subject::output: return a.pin == b.pin;
    case Subject::bridge:
    case Subject::load: return same_points(a, b);
    case Subject::group: return a.parts == b.parts;
    case Subject::words: return a.word == b.word;
    case Subject::key:
    case Subject::asleep:
    case Subject::engine: break;
    }
    return true;
}

bool same_state(const SetupItem& a, const SetupItem& b) {
    return a.kind == b.kind && a.word == b.word && a.word2 == b.word2 && same_value(a.value, b.value);
}

std::vector<Change> changes(const Setup& from, const Setup& to) {
    const std::vector<SetupItem> before = without_rest(from);
    const std::vector<SetupItem> after = without_rest(to);
    const bool off_between = must_switch_off(before, after);
    const bool engine_after = has_engine(after);
    const auto cycles = [&](const SetupItem& item) { return off_between && row_of(item.kind).is_power; };

    std::vector<Change> list;
    for (const SetupItem& item : before) {
        const SetupItem* now = find_same_subject(after, item);
        const bool another_way = now && row_of(item.kind).is_connection && !same_state(*now, item);
        const bool key_of_engine = !now && item.kind == ItemKind::key && engine_after;
        if ((!now && !key_of_engine) || another_way || cycles(item)) list.push_back({ChangeKind::undo, item});
    }
    for (const SetupItem& item : after) {
        const bool stays = holds_in(before, item) && !cycles(item);
        list.push_back({stays ? ChangeKind::keep : ChangeKind::apply, item});
    }
    std::stable_sort(list.begin(), list.end(), [](const Change& a, const Change& b) { return rank(a) < rank(b); });
    return list;
}

Setup placed(Setup setup, const Row& row) {
    for (SetupItem& item : setup.items)
        if (item.kind == ItemKind::load && item.across_points) item.a = row.red, item.b = row.black, item.across_points = false;
    return setup;
}

Setup setup_of(const Check& check) { return check.rows.empty() ? check.with : placed(check.with, check.rows.front()); }

std::vector<std::vector<int>> origins_of(const Plan& plan) {
    std::vector<std::vector<int>> origins(plan.checks.size());
    if (!origins.empty()) origins.front().push_back(-1);
    for (std::size_t from = 0; from < plan.checks.size(); ++from)
        for (const Outcome& outcome : plan.checks[from].outcomes) {
            const Target* target = &outcome.target;
            if (target->kind == TargetKind::verdict && target->index != none) target = &plan.verdicts[target->index].then;
            const bool leads_on = target->kind == TargetKind::check || target->kind == TargetKind::next;
            if (!leads_on || target->index == none) continue;
            std::vector<int>& here = origins[target->index];
            if (here.empty() || here.back() != static_cast<int>(from)) here.push_back(static_cast<int>(from));
        }
    return origins;
}

std::vector<int> comes_from(const Plan& plan, int check) { return origins_of(plan)[check]; }

} // namespace loomsheet
