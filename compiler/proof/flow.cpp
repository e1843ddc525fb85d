// LS301 to LS305: where the ways through a plan lead. What a single check says is looked at in outcomes.cpp.
#include "proof/arrows.hpp"
#include "proof/families.hpp"
#include "proof/rules.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

std::vector<StopId> starts_of(const Plan& plan) {
    std::vector<StopId> starts{0};
    for (int check = 1; check < static_cast<int>(plan.checks.size()); ++check)
        if (plan.checks[check].exercise) starts.push_back(check);
    return starts;
}

bool needs_pass(const Check& check) {
    const bool answered = check.measure == MeasureKind::look && has_outcome(check, OutcomeKind::answer);
    return !answered && !has_outcome(check, OutcomeKind::pass);
}

// --- LS301, LS302 --------------------------------------------------------------------------------------------------
// Of the stops that cannot be reached: those at whose feet the fault lies, each with the others that it takes along.
struct Lost {
    StopId head = none;
    std::vector<StopId> others;
};

std::vector<Lost> lost_stops(const PlanMap& map, const std::vector<int>& reached) {
    std::vector<StopId> order; // in order of the text
    for (StopId stop = 0; stop < map.size(); ++stop)
        if (reached[stop] == PlanMap::never) order.push_back(stop);
    std::sort(order.begin(), order.end(),
              [&](StopId a, StopId b) { return std::pair(map.at(a).file, map.at(a).begin) < std::pair(map.at(b).file, map.at(b).begin); });
    std::vector<int> seen(map.size(), none); // by whom
    const auto sweep = [&](StopId head) {
        std::vector<StopId> found{head};
        seen[head] = head;
        for (std::size_t next = 0; next < found.size(); ++next)
            for (const int arrow : map.from(found[next]))
                if (const StopId to = map.arrows()[arrow].to; reached[to] == PlanMap::never && seen[to] == none)
                    seen[to] = head, found.push_back(to);
        return found;
    };
    std::vector<StopId> heads;
    for (const StopId stop : order)
        if (seen[stop] == none) sweep(stop), heads.push_back(stop);
    // A later head may lead to an earlier one, never the other way round: from the back, what is still unseen is a true
    // head.
    std::fill(seen.begin(), seen.end(), none);
    std::vector<Lost> lost;
    for (auto head = heads.rbegin(); head != heads.rend(); ++head) {
        if (seen[*head] != none) continue;
        std::vector<StopId> found = sweep(*head);
        found.erase(found.begin());
        std::sort(found.begin(), found.end());
        lost.push_back({*head, std::move(found)});
    }
    std::reverse(lost.begin(), lost.end());
    return lost;
}

// The check whose missing `pass` is why nothing leads to `head`: the one written just before it; else, when one check
// forgot its pass and one stop is lost, these two.
int check_that_forgot(const Plan& plan, const PlanMap& map, const std::vector<Lost>& lost, StopId head) {
    if (!map.is_verdict(head) && needs_pass(plan.checks[head - 1])) return head - 1;
    const auto first = std::find_if(plan.checks.begin(), plan.checks.end(), needs_pass);
    const bool the_only_ones = lost.size() == 1 && std::count_if(first, plan.checks.end(), needs_pass) == 1;
    const int check = static_cast<int>(first - plan.checks.begin());
    return the_only_ones && check < head ? check : none;
}

// A label that is none (LS211) was meant for a stop to which nothing leads now, most likely the one whose label is as
// long.
void excuse(std::vector<Lost>& lost, const PlanMap& map, const std::vector<Span>& lost_labels) {
    for (const Span label : lost_labels) {
        const auto misfit = [&](const Lost& each) {
            return std::abs(static_cast<int>(map.label(each.head).size()) - static_cast<int>(label.end - label.begin));
        };
        const auto meant = std::min_element(lost.begin(), lost.end(), [&](const Lost& a, const Lost& b) { return misfit(a) < misfit(b); });
        if (meant != lost.end()) lost.erase(meant);
    }
}

void prove_all_reached(const Plan& plan, const PlanMap& map, const Doubt& doubt, const std::vector<int>& reached, std::vector<bool>& told,
                       Findings& findings) {
    constexpr std::size_t most_related = 5;
    std::vector<Lost> lost = lost_stops(map, reached);
    excuse(lost, map, doubt.lost_labels);
    for (const Lost& each : lost) {
        const StopId head = each.head;
        const bool verdict = map.is_verdict(head);
        Diagnostic finding{verdict ? finding::verdict_not_reached : finding::check_not_reached, map.at(head), {}, {}, {}};
        finding.says = fmt::format("{} {} cannot be reached: ", verdict ? "the verdict" : "the check", map.quoted(head));
        if (map.to(head).empty()) {
            finding.says += "nothing leads to it";
        } else {
            const Arrow& arrow = map.arrows()[map.to(head).front()];
            finding.says += fmt::format("only {} leads to it, and that cannot be reached either", map.quoted(arrow.from));
            finding.related.push_back({arrow.at, fmt::format("{} leads to it here", map.quoted(arrow.from))});
        }
        if (const int check = check_that_forgot(plan, map, lost, head); check != none && !told[check]) {
            told[check] = true;
            finding.says += fmt::format("; '{}' does not say where a pass leads", plan.checks[check].label);
            finding.related.push_back({plan.checks[check].at, "no `pass` here"});
        }
        for (std::size_t i = 0; i < each.others.size() && i < most_related; ++i)
            finding.related.push_back(
                {map.at(each.others[i]), fmt::format("{} cannot be reached for the same reason", map.quoted(each.others[i]))});
        if (each.others.size() > most_related)
            finding.related.back().says += fmt::format(", and {} more", each.others.size() - most_related);
        finding.help = fmt::format("lead to it with `-> {}` in an outcome{}", map.label(head),
                                   verdict ? "" : ", or write `exercise` in it when it stands off the path on purpose");
        findings.add(std::move(finding));
    }
}

// --- LS303 ---------------------------------------------------------------------------------------------------------
// `a` leads on to `b` without anything being repaired on the way.
bool leads_on(const PlanMap& map, const Arrow& arrow) {
    return !arrow.proves && !(map.is_verdict(arrow.from) && !map.verdict(arrow.from).repairs.empty());
}

// Marks the stops of each circle that it reports.
void prove_no_circle(const PlanMap& map, std::vector<bool>& in_circle, Findings& findings) {
    enum class Mark : std::uint8_t { fresh, open, closed };
    std::vector<Mark> marks(map.size(), Mark::fresh);
    std::vector<std::pair<StopId, std::size_t>> way; // a stop, and how many of its arrows were followed
    for (StopId root = 0; root < map.size(); ++root) {
        if (marks[root] != Mark::fresh) continue;
        way = {{root, 0}};
        marks[root] = Mark::open;
        while (!way.empty()) {
            const StopId here = way.back().first;
            if (way.back().second == map.from(here).size()) {
                marks[here] = Mark::closed;
                way.pop_back();
                continue;
            }
            const Arrow& arrow = map.arrows()[map.from(here)[way.back().second++]];
            if (!leads_on(map, arrow) || marks[arrow.to] == Mark::closed) continue;
            if (marks[arrow.to] == Mark::fresh) {
                marks[arrow.to] = Mark::open;
                way.push_back({arrow.to, 0});
                continue;
            }
            const auto first = std::find_if(way.begin(), way.end(), [&](const auto& step) { return step.first == arrow.to; });
            std::vector<std::string> names;
            for (auto step = first; step != way.end(); ++step)
                in_circle[step->first] = true, names.push_back(map.quoted(step->first));
            names.push_back(map.quoted(arrow.to));
            findings.add(finding::circle_of_checks, arrow.at,
                         fmt::format("a circle: {}; who follows it never comes to an end", fmt::join(names, " -> ")),
                         "lead one of them to a verdict or to `suspects`; only a verdict with its `repair` may lead back");
        }
    }
}

// --- LS304 ---------------------------------------------------------------------------------------------------------
void prove_outcomes_lead_on(const Plan& plan, const Doubt& doubt, const std::vector<bool>& told, Findings& findings) {
    for (std::size_t i = 0; i < plan.checks.size(); ++i) {
        const Check& check = plan.checks[i];
        for (const Outcome& outcome : check.outcomes)
            if (outcome.target.kind == TargetKind::next && outcome.target.index == none)
                findings.add(finding::outcome_leads_nowhere, outcome.target.at,
                             fmt::format("`next` leads nowhere: '{}' is the last check", check.label),
                             "write the verdict that follows from it, `done` or `suspects`");
        if (needs_pass(check) && !told[i] && !doubt.checks[i])
            findings.add(finding::outcome_leads_nowhere, check.at, fmt::format("'{}' does not say where a pass leads", check.label),
                         "write `pass -> ` and the check or verdict that follows from it");
    }
}

// --- LS305 ---------------------------------------------------------------------------------------------------------
bool is_end(const Plan& plan, const PlanMap& map, StopId stop) {
    if (map.is_verdict(stop)) return map.verdict(stop).then.kind == TargetKind::nowhere;
    const Check& check = plan.checks[stop];
    return fail_is_left(check) || needs_pass(check) ||
           std::any_of(check.outcomes.begin(), check.outcomes.end(), [](const Outcome& each) { return each.target.index == none; });
}

void prove_an_end(const Plan& plan, const PlanMap& map, const std::vector<int>& reached, const std::vector<bool>& in_circle,
                  Findings& findings) {
    std::vector<bool> ends(map.size());
    std::vector<StopId> queue;
    for (StopId stop = 0; stop < map.size(); ++stop)
        if (is_end(plan, map, stop)) ends[stop] = true, queue.push_back(stop);
    for (std::size_t next = 0; next < queue.size(); ++next)
        for (const int index : map.to(queue[next])) {
            const Arrow& arrow = map.arrows()[index];
            if (!arrow.proves && !ends[arrow.from]) ends[arrow.from] = true, queue.push_back(arrow.from);
        }
    StopId first = none;
    for (StopId stop = 0; stop < map.size(); ++stop) {
        if (ends[stop] || reached[stop] == PlanMap::never) continue;
        if (in_circle[stop]) return; // said already
        if (first == none && !map.is_verdict(stop)) first = stop;
    }
    if (first == none) return;
    findings.add(finding::plan_without_end, map.at(first),
                 fmt::format("from {} on the plan never ends: every way leads back to a check", map.quoted(first)),
                 "let one outcome lead to a verdict that ends the plan, to `done` or to `suspects`");
}

} // namespace

void prove_flow(const Plan& plan, const Doubt& doubt, Findings& findings) {
    if (plan.checks.empty()) return;
    const PlanMap map(plan);
    const std::vector<int> reached = map.reach(starts_of(plan));
    std::vector<bool> pass_told(plan.checks.size()), in_circle(map.size());
    if (!doubt.steps) prove_all_reached(plan, map, doubt, reached, pass_told, findings);
    prove_no_circle(map, in_circle, findings);
    prove_outcomes_lead_on(plan, doubt, pass_told, findings);
    if (!doubt.steps) prove_an_end(plan, map, reached, in_circle, findings);
    prove_outcomes(plan, map, doubt, findings);
}

} // namespace loomsheet
