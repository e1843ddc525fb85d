#include "faults/answers.hpp"

namespace loomsheet {
namespace {

// A: what a clamp, or the load itself, shows as nothing, and what it surely shows: the last digit of a clamp meter, and its ten digits
// of error. Common practice, no source.
constexpr double shows_nothing_to = 0.01, shows_current_from = 0.1;

OutcomeSet of_look(const Check& check, const CheckPrediction& made, const Possible& possible) {
    OutcomeSet set = made.seen;
    if (is_sure(set) || !possible) return set;
    const OutcomeSet pass = outcome_bit(pass_of(check, "")), fail = outcome_bit(fail_of(check, ""));
    if ((set & pass) && !possible(0, Answer::pass)) set &= ~pass;
    if ((set & fail & ~pass) && set != fail && !possible(0, Answer::low)) set &= ~fail;
    return set | made.rattles; // what is possible is asked of cars that come to rest
}

// One reading after another, as the technician takes them: the first that does not pass says where to go.
class Rows {
public:
    Rows(const Check& check, const Possible& possible) : check_(check), possible_(possible) {}
    OutcomeSet fails = 0, passes = 0;

    void take(std::size_t index, const RowPrediction& row) {
        if (!may_pass_) return;
        const std::vector<ReadCase> fits = fits_of(check_, row);
        if (row.reading.may_chatter || row.reading.kind == ReadingKind::chatters) fails |= stop_bit;
        const auto answers = [&](const ReadCase& each) { return !possible_ || possible_(index, each.answer); };
        const bool several =
            std::any_of(fits.begin(), fits.end(), [&](const ReadCase& each) { return each.answer != fits.front().answer; });
        const bool filter = several && std::any_of(fits.begin(), fits.end(), answers);
        may_pass_ = fits.empty() && row.reading.kind != ReadingKind::chatters; // without a limit it is anything
        if (may_pass_) fails |= outcome_bit(fail_of(check_, row.name));
        for (const ReadCase& each : fits) {
            if (filter && !answers(each)) continue;
            if (each.answer == Answer::pass)
                may_pass_ = true;
            else
                fails |= outcome_bit(each.outcome);
        }
        may_carry_ &= row.reading.carried_high > shows_nothing_to;
        surely_carries_ &= row.reading.carried_low >= shows_current_from;
    }
    // Where all may have passed.
    void end(std::size_t pass) {
        if (!may_pass_) return;
        const std::optional<std::size_t> no_current = no_current_of(check_);
        if (no_current && !surely_carries_) passes |= outcome_bit(*no_current);
        if (!no_current || may_carry_) passes |= outcome_bit(pass);
    }

private:
    const Check& check_;
    const Possible& possible_;
    bool may_pass_ = true; // all so far
    bool may_carry_ = true, surely_carries_ = true;
};

// The parts of `one of` are pulled one after the other until with one of them all rows pass.
OutcomeSet of_readings(const Check& check, const CheckPrediction& made, const Possible& possible) {
    OutcomeSet passed = 0;
    for (std::size_t t = 0; t < made.turns.size();) {
        const PartId pulled = made.turns[t].pulled;
        const std::string name = pulled == none ? std::string() : made.turns[t].rows.front().name;
        Rows rows(check, possible);
        for (; t < made.turns.size() && made.turns[t].pulled == pulled; ++t)
            for (std::size_t r = 0; r < made.turns[t].rows.size(); ++r)
                rows.take(r, made.turns[t].rows[r]);
        rows.end(pass_of(check, name));
        passed |= rows.passes | (rows.fails & stop_bit);
        if (rows.fails == 0) return passed;
        if (t == made.turns.size()) return passed | rows.fails;
    }
    return passed;
}

} // namespace

OutcomeSet outcomes_of(const Check& check, const CheckPrediction& made, const Possible& possible) {
    if (check.measure == MeasureKind::look) return of_look(check, made, possible);
    if (!row_of(check.measure).computed || check.rows.empty()) return every_outcome(check);
    return made.turns.size() == 1 ? of_readings(check, made, possible) : of_readings(check, made, {});
}

} // namespace loomsheet
