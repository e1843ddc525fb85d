#include "proof/statements.hpp"
#include <algorithm>
#include <tuple>

namespace loomsheet {
namespace {
bool earlier(Span a, Span b) { return std::tie(a.file, a.begin) < std::tie(b.file, b.begin); }
} // namespace

StatementPlaces::StatementPlaces(const Plan& plan) {
    const auto place = [&](const auto& list, StatementKind kind) {
        for (std::size_t i = 0; i < list.size(); ++i)
            places_.push_back({list[i].at, kind, static_cast<int>(i)});
    };
    if (!plan.id.empty()) places_.push_back({plan.at, StatementKind::head, none});
    for (std::size_t i = 0; i < plan.circuit.parts.size(); ++i) // the twin's name stands inside its half's statement
        if (const Part& part = plan.circuit.parts[i]; part.twin == none || part.first_half)
            places_.push_back({part.at, StatementKind::part, static_cast<int>(i)});
    place(plan.circuit.wires, StatementKind::wire);
    place(plan.circuit.cables, StatementKind::other);
    place(plan.circuit.panels, StatementKind::other);
    place(plan.setups, StatementKind::other);
    place(plan.checks, StatementKind::check);
    place(plan.verdicts, StatementKind::verdict);
    place(plan.plants, StatementKind::other);
    place(plan.questions, StatementKind::other);
    std::sort(places_.begin(), places_.end(), [](const StatementPlace& a, const StatementPlace& b) { return earlier(a.at, b.at); });
}

const StatementPlace* StatementPlaces::before(Span at) const {
    at.begin = std::max(at.begin, at.end == 0 ? 0 : at.end - 1); // some point at the whole head, the word before the name too
    const auto next = std::upper_bound(places_.begin(), places_.end(), at,
                                       [](Span span, const StatementPlace& place) { return earlier(span, place.at); });
    if (next == places_.begin() || std::prev(next)->at.file != at.file) return nullptr;
    return &*std::prev(next);
}

const StatementPlace* StatementPlaces::after(Span at) const {
    const auto next = std::upper_bound(places_.begin(), places_.end(), at,
                                       [](Span span, const StatementPlace& place) { return earlier(span, place.at); });
    return next == places_.end() || next->at.file != at.file ? nullptr : &*next;
}

} // namespace loomsheet
