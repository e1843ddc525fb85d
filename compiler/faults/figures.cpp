#include "faults/figures.hpp"
#include <algorithm>
#include <map>
#include <set>
#include <tuple>

namespace loomsheet {
namespace {

using Units = std::vector<std::pair<int, double>>; // with the rates of what may end in the group, likeliest first

std::map<int, Units> units_by_group(std::span<const Grouped> faults) {
    std::map<int, Units> made;
    for (const Grouped& fault : faults)
        for (const int group : fault.groups) {
            Units& units = made[group];
            const auto is_it = [&](const std::pair<int, double>& each) { return each.first == fault.unit; };
            auto at = std::find_if(units.begin(), units.end(), is_it);
            if (at == units.end()) at = units.insert(at, {fault.unit, 0.0});
            at->second += fault.rate;
        }
    for (auto& [group, units] : made)
        std::stable_sort(units.begin(), units.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
    return made;
}

} // namespace

Isolation isolation(std::span<const Grouped> faults) {
    Isolation made;
    const std::map<int, Units> by_group = units_by_group(faults);
    double all = 0, found = 0, found_count = 0;
    std::set<int> units;
    for (const Grouped& fault : faults) {
        all += fault.rate;
        units.insert(fault.unit);
        if (fault.groups.empty()) continue;
        std::size_t size = 0, place = 0; // in the worst of its groups
        for (const int group : fault.groups) {
            const Units& own = by_group.at(group);
            const auto is_it = [&](const std::pair<int, double>& each) { return each.first == fault.unit; };
            size = std::max(size, own.size());
            place = std::max(place, static_cast<std::size_t>(std::find_if(own.begin(), own.end(), is_it) - own.begin()));
        }
        found += fault.rate, found_count += 1;
        for (const auto& [most, share, plain] : {std::tuple{1u, &made.to_one, &made.to_one_plain},
                                                 {2u, &made.to_two, &made.to_two_plain},
                                                 {3u, &made.to_three, &made.to_three_plain}})
            if (size <= most) *share += fault.rate, *plain += 1;
        made.group += fault.rate * static_cast<double>(size), made.group_plain += static_cast<double>(size);
        made.first_right += place == 0 ? fault.rate : 0;
        made.tries += fault.rate * static_cast<double>(place + 1);
    }
    made.units = units.size();
    if (faults.empty() || found_count == 0) return made;
    made.found = all > 0 ? found / all : 0, made.found_plain = found_count / static_cast<double>(faults.size());
    for (double* share : {&made.to_one, &made.to_two, &made.to_three, &made.group, &made.first_right, &made.tries})
        *share = found > 0 ? *share / found : 0;
    for (double* share : {&made.to_one_plain, &made.to_two_plain, &made.to_three_plain, &made.group_plain})
        *share /= found_count;
    for (const auto& [group, own] : by_group)
        made.group_of_groups += static_cast<double>(own.size()) / static_cast<double>(by_group.size());
    return made;
}

} // namespace loomsheet
