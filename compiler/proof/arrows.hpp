// The checks and verdicts of a plan as a map: what leads where.
#pragma once
#include "model/plan.hpp"
#include <string>
#include <vector>

namespace loomsheet {

// A stop is a check (0, 1, ...) or, behind the checks, a verdict.
using StopId = int;

struct Arrow {
    StopId from = none, to = none;
    Span at;             // the words that lead there
    bool proves = false; // `after`: a check that proves a repair
};

class PlanMap {
public:
    explicit PlanMap(const Plan& plan);
    int size() const { return static_cast<int>(from_.size()); }
    const std::vector<Arrow>& arrows() const { return arrows_; }
    const std::vector<int>& from(StopId stop) const { return from_[stop]; } // indices into arrows()
    const std::vector<int>& to(StopId stop) const { return to_[stop]; }
    bool is_verdict(StopId stop) const { return stop >= checks_; }
    const Verdict& verdict(StopId stop) const { return plan_.verdicts[stop - checks_]; }
    Span at(StopId stop) const;
    const std::string& label(StopId stop) const;
    std::string quoted(StopId stop) const { return "'" + label(stop) + "'"; }
    // By stop: the arrow it was first reached by, `start` or `never`; no way goes through `closed`.
    std::vector<int> reach(const std::vector<StopId>& starts, StopId closed = none) const;
    static constexpr int start = -1, never = -2;

private:
    const Plan& plan_;
    int checks_;
    std::vector<Arrow> arrows_;
    std::vector<std::vector<int>> from_, to_;
};

// Whether an outcome of this kind is written.
bool has_outcome(const Check& check, OutcomeKind kind);
// Whether a bad reading is left that no outcome names: what the implied `fail -> suspects` is for.
bool fail_is_left(const Check& check);

} // namespace loomsheet
