// The ways to a check: what changes on each, and which panels are off by then.
#pragma once
#include "sheet/layout/order.hpp"
#include "sheet/layout/step.hpp"
#include "sheet/words/words.hpp"
#include <string>
#include <vector>

namespace loomsheet {

// From where a check is reached, and what is then off.
class Routes {
public:
    explicit Routes(const Plan& plan);
    struct Way {
        int from = -1; // a check; -1 = the car at rest
        bool after_repair = false;
        std::vector<Change> changes; // `keep` left out
        std::vector<PanelId> panels; // to take off now
    };
    // Every way to this check; one from the car at rest when nothing leads there.
    std::vector<Way> ways_to(int check) const;
    Way way_from_rest(int check) const;
    const std::vector<PanelId>& panels_of(int check) const { return needs_[check]; }

private:
    const Plan& plan_;
    std::vector<std::vector<int>> origins_;
    std::vector<bool> proves_;                // named by a verdict's `after`
    std::vector<std::vector<PanelId>> needs_; // panels each check needs off
    std::vector<std::vector<PanelId>> off_;   // panels surely off before each check, sorted

    std::vector<PanelId> off_after(int check) const;
    void settle_panels();
    Way way(int from, int to, bool after_repair) const;
};

// The ticks of ways that ask for the same.
struct TickList {
    std::string heading; // "from 7, 12"; empty when there is one list only
    std::vector<Step> steps;
};
std::vector<TickList> tick_lists(const Wording& say, const Plan& plan, const Order& order, const Routes& routes, int check);

} // namespace loomsheet
