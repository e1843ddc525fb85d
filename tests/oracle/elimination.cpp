#include "oracle/elimination.hpp"
#include <algorithm>
#include <map>

namespace oracle {

Elimination::Elimination(int nodes, const std::vector<std::pair<int, int>>& branches) : slot_of_(branches.size(), -1), pivots_(nodes) {
    std::vector<std::map<int, int>> beside(nodes); // node -> slot
    int slots = 0;
    const auto slot = [&](int a, int b) {
        const auto [at, is_new] = beside[a].try_emplace(b, slots);
        if (is_new) beside[b][a] = slots++;
        return at->second;
    };
    for (std::size_t i = 0; i < branches.size(); ++i)
        if (branches[i].first != branches[i].second) slot_of_[i] = slot(branches[i].first, branches[i].second);
    std::vector<bool> gone(nodes);
    for (int count = 0; count < nodes; ++count) {
        int least = -1; // fewest neighbours first
        for (int node = 0; node < nodes; ++node)
            if (!gone[node] && (least < 0 || beside[node].size() < beside[least].size())) least = node;
        gone[least] = true;
        const std::vector<std::pair<int, int>> star(beside[least].begin(), beside[least].end());
        for (const auto& [node, way] : star) {
            neighbours_.push_back({way, node});
            beside[node].erase(least);
        }
        for (std::size_t i = 0; i < star.size(); ++i)
            for (std::size_t j = i + 1; j < star.size(); ++j)
                joins_.push_back({star[i].second, star[j].second, slot(star[i].first, star[j].first)});
        steps_.push_back({least, neighbours_.size(), joins_.size()});
    }
    slots_.resize(slots);
}

void Elimination::solve(const std::vector<double>& siemens, const std::vector<double>& amperes, std::vector<double>& volts) {
    std::fill(slots_.begin(), slots_.end(), 0.0);
    for (std::size_t i = 0; i < slot_of_.size(); ++i)
        if (slot_of_[i] >= 0) slots_[slot_of_[i]] += siemens[i];
    entering_ = amperes;
    std::size_t neighbour = 0, join = 0;
    for (const Step& step : steps_) {
        double pivot = 0;
        for (std::size_t i = neighbour; i < step.neighbours; ++i)
            pivot += slots_[neighbours_[i].slot];
        pivots_[step.node] = pivot;
        if (pivot > 0) {
            for (; join < step.joins; ++join)
                slots_[joins_[join].slot] += slots_[joins_[join].first] * slots_[joins_[join].second] / pivot;
            const double share = entering_[step.node] / pivot;
            if (share != 0)
                for (std::size_t i = neighbour; i < step.neighbours; ++i)
                    entering_[neighbours_[i].node] += share * slots_[neighbours_[i].slot];
        }
        neighbour = step.neighbours, join = step.joins;
    }
    volts.assign(pivots_.size(), 0.0);
    for (std::size_t at = steps_.size(); at-- > 0;) {
        const Step& step = steps_[at];
        if (pivots_[step.node] <= 0) continue;
        double sum = entering_[step.node];
        for (std::size_t i = at == 0 ? 0 : steps_[at - 1].neighbours; i < step.neighbours; ++i)
            sum += slots_[neighbours_[i].slot] * volts[neighbours_[i].node];
        volts[step.node] = sum / pivots_[step.node];
    }
}

} // namespace oracle
