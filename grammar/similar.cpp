// Which known words may have been meant: the edit distance of Damerau (swapped neighbours count once), at most a third of
// the letters wrong.
#include "grammar/vocabulary.hpp"
#include <algorithm>
#include <cctype>

namespace loomsheet {

namespace {
std::size_t slips(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before(b.size() + 1), row(b.size() + 1), next(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j)
        row[j] = j;
    const auto same = [](char x, char y) {
        return std::tolower(static_cast<unsigned char>(x)) == std::tolower(static_cast<unsigned char>(y));
    };
    for (std::size_t i = 1; i <= a.size(); ++i) {
        next[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            next[j] = std::min({row[j] + 1, next[j - 1] + 1, row[j - 1] + (same(a[i - 1], b[j - 1]) ? 0U : 1U)});
            if (i > 1 && j > 1 && same(a[i - 1], b[j - 2]) && same(a[i - 2], b[j - 1])) next[j] = std::min(next[j], before[j - 2] + 1);
        }
        before.swap(row);
        row.swap(next);
    }
    return row[b.size()];
}
} // namespace

std::vector<std::string_view> similar(std::string_view typed, std::span<const std::string_view> candidates) {
    if (typed.empty() || typed.size() > 60) return {};
    const std::size_t most = std::max<std::size_t>(1, typed.size() / 3);
    std::vector<std::pair<std::size_t, std::string_view>> near;
    for (const auto candidate : candidates) {
        if (candidate == typed || candidate.size() > typed.size() + most || typed.size() > candidate.size() + most) continue;
        const auto distance = slips(typed, candidate);
        if (distance <= most && distance < candidate.size()) near.emplace_back(distance, candidate);
    }
    std::stable_sort(near.begin(), near.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<std::string_view> best;
    for (const auto& [distance, candidate] : near)
        if (best.size() < 3 && (distance == near.front().first || near.front().first > 0) &&
            std::find(best.begin(), best.end(), candidate) == best.end())
            best.push_back(candidate);
    return best;
}

} // namespace loomsheet
