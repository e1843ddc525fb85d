#include "sheet/card/class_way.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {

std::string sign_of(const LayoutContext& context, const Target* target) {
    if (target && target->index != none && (target->kind == TargetKind::check || target->kind == TargetKind::next))
        return std::to_string(context.order.numbers[target->index]);
    if (target && target->index != none && target->kind == TargetKind::verdict) return context.order.letters[target->index];
    return context.say(target && target->kind == TargetKind::done ? Word::done : Word::stop);
}

std::string ways_words(const LayoutContext& context, int index, OutcomeSet outcomes) {
    const Check& check = context.plan.checks[index];
    std::vector<std::string> signs;
    const auto add = [&](const Target* target) {
        std::string sign = sign_of(context, target);
        if (std::find(signs.begin(), signs.end(), sign) == signs.end()) signs.push_back(std::move(sign));
    };
    for (std::size_t o = 0; o <= check.outcomes.size(); ++o)
        if (outcomes & outcome_bit(o)) add(target_of(check, o));
    if (outcomes & stop_bit) add(nullptr);
    return join(signs, context.say(Word::or_between));
}

} // namespace loomsheet
