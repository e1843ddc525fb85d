#include "sheet/layout/order.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr std::string_view verdict_letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";

class Walk {
public:
    Walk(const Plan& plan, Order& order) : plan_(plan), order_(order) {
        order_.numbers.assign(plan.checks.size(), 0);
        order_.letters.assign(plan.verdicts.size(), "");
    }

    // Numbers this check and all that it leads to. No recursion: a plan may be thousands of checks deep.
    void from(int first) {
        std::vector<int> waiting{first};
        while (!waiting.empty()) {
            const int check = waiting.back();
            waiting.pop_back();
            if (order_.numbers[check] != 0) continue;
            order_.checks.push_back(check);
            order_.numbers[check] = static_cast<int>(order_.checks.size());
            const std::vector<int> next = leads_to(check);
            waiting.insert(waiting.end(), next.rbegin(), next.rend());
        }
    }

    void name(int verdict) {
        if (!order_.letters[verdict].empty()) return;
        order_.letters[verdict] = verdict_letter(order_.verdicts.size());
        order_.verdicts.push_back(verdict);
    }

    void prove(int verdict) {
        for (const int check : plan_.verdicts[verdict].after)
            from(check);
    }

private:
    const Plan& plan_;
    Order& order_;

    std::vector<int> leads_to(int check) {
        std::vector<const Outcome*> outcomes;
        for (const Outcome& outcome : plan_.checks[check].outcomes)
            outcomes.push_back(&outcome);
        std::stable_sort(outcomes.begin(), outcomes.end(),
                         [](const Outcome* a, const Outcome* b) { return a->kind == OutcomeKind::pass && b->kind != OutcomeKind::pass; });
        std::vector<int> next;
        for (const Outcome* outcome : outcomes)
            follow(outcome->target, next);
        return next;
    }

    void follow(const Target& target, std::vector<int>& next) {
        if (target.index == none) return;
        if (target.kind == TargetKind::check || target.kind == TargetKind::next) next.push_back(target.index);
        if (target.kind == TargetKind::verdict) {
            name(target.index);
            const Target& then = plan_.verdicts[target.index].then;
            if (then.kind == TargetKind::check) next.push_back(then.index);
        }
    }
};

} // namespace

std::string verdict_letter(std::size_t place) {
    const std::size_t count = verdict_letters.size();
    std::string letter;
    for (std::size_t left = place + 1; left > 0; left = (left - 1) / count)
        letter.insert(letter.begin(), verdict_letters[(left - 1) % count]);
    return letter;
}

Order order_of(const Plan& plan) {
    Order order;
    Walk walk(plan, order);
    if (!plan.checks.empty()) walk.from(0);
    for (std::size_t i = 0; i < order.verdicts.size(); ++i)
        walk.prove(order.verdicts[i]);
    for (std::size_t i = 0; i < plan.checks.size(); ++i)
        if (order.numbers[i] == 0) walk.from(static_cast<int>(i));
    for (std::size_t i = 0; i < plan.verdicts.size(); ++i)
        walk.name(static_cast<int>(i));
    return order;
}

} // namespace loomsheet
