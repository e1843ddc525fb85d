#include "faults/answers.hpp"
#include <algorithm>
#include <limits>

namespace loomsheet {
namespace {

constexpr double nothing_flows = 0.01; // A: what the meter beside the drop shows as no current

// What a row can come to, before it is looked up which outcome that is.
struct RowAnswers {
    bool pass = false, low = false, high = false, open = false, no_current = false;
    std::vector<const Limit*> bands; // whose limits it may lie in, though it does not pass
};

struct Ends {
    double low, high;
};
Ends ends_of(const Limit& limit) {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    if (limit.kind == LimitKind::within) return {-limit.high->si, limit.high->si};
    return {limit.low ? limit.low->si : -infinity, limit.high ? limit.high->si : infinity};
}

class Answering {
public:
    Answering(const Check& check, const CheckPrediction& made, const Possible& possible)
        : check_(check), made_(made), possible_(possible) {}

    OutcomeSet all() const {
        OutcomeSet set = 0;
        for (std::size_t i = 0; i <= check_.outcomes.size(); ++i)
            set |= outcome_bit(i);
        return set;
    }

    OutcomeSet of_look() const { return made_.may_chatter ? at_rest() | rattling() : at_rest(); }

    OutcomeSet at_rest() const {
        // `pass` has the look's own states; a fail is what none of the others is.
        OutcomeSet set = 0;
        bool surely_named = false;
        if (made_.look == Truth::jumps || std::find(made_.answers.begin(), made_.answers.end(), Truth::jumps) != made_.answers.end()) {
            for (std::size_t i = 0; i < made_.answers.size(); ++i) // `K5 chatters` is an answer
                if (made_.answers[i] == Truth::yes) return outcome_bit(i);
            return stop_bit;
        }
        const auto may = [&](std::size_t i, Truth truth) {
            if (truth != Truth::no) set |= outcome_bit(i);
            surely_named |= truth == Truth::yes;
        };
        std::size_t fail = check_.outcomes.size();
        for (std::size_t i = 0; i < check_.outcomes.size(); ++i) {
            const Outcome& outcome = check_.outcomes[i];
            if (outcome.kind == OutcomeKind::fail)
                fail = i;
            else
                may(i, outcome.kind == OutcomeKind::pass ? made_.look : made_.answers[i]);
            if (outcome.kind == OutcomeKind::pass && made_.look == Truth::maybe && possible_ && !possible_(0, Answer::pass))
                set &= ~outcome_bit(i);
        }
        if (made_.other == Truth::no && set != 0) return set;
        if (made_.look == Truth::maybe && possible_ && !possible_(0, Answer::low) && set != 0) return set;
        const bool all_written = fail == check_.outcomes.size() && !has(OutcomeKind::pass);
        if (!surely_named && !(all_written && set != 0)) set |= outcome_bit(fail);
        return set;
    }

    // The first row that does not pass says where to go.
    OutcomeSet of_rows() const {
        OutcomeSet set = 0;
        for (std::size_t r = 0; r < check_.rows.size(); ++r) {
            const Reading& reading = made_.rows[r].reading;
            if (reading.kind == ReadingKind::chatters) return set | stop_bit;
            if (reading.may_chatter) set |= stop_bit;
            RowAnswers row = answers_of(made_.rows[r]);
            if (possible_ && row.pass + row.low + row.high > 1) {
                const RowAnswers all = row;
                row.pass = row.pass && possible_(r, Answer::pass);
                row.low = row.low && possible_(r, Answer::low);
                row.high = row.high && possible_(r, Answer::high);
                if (!row.pass && !row.low && !row.high) row = all;
            }
            const std::string& name = check_.rows[r].name;
            if (row.open) set |= find(OutcomeKind::open, name);
            if (row.low) set |= find(OutcomeKind::low, name);
            if (row.high) set |= find(OutcomeKind::high, name);
            if (row.no_current) set |= find(OutcomeKind::no_current, name);
            for (const Limit* band : row.bands)
                set |= find_band(band);
            if (!row.pass) return set;
        }
        return set | find(OutcomeKind::pass, "");
    }

private:
    // `K5 chatters` is an answer.
    OutcomeSet rattling() const {
        for (std::size_t i = 0; i < check_.outcomes.size(); ++i)
            for (const State& state : check_.outcomes[i].states.list)
                if (state.verb == StateVerb::chatters) return outcome_bit(i);
        return stop_bit;
    }
    bool has(OutcomeKind kind) const {
        for (const Outcome& outcome : check_.outcomes)
            if (outcome.kind == kind) return true;
        return false;
    }

    // The outcome of this kind for the row, else for all rows, else the fail.
    OutcomeSet find(OutcomeKind kind, const std::string& row) const {
        const std::size_t none_such = check_.outcomes.size();
        std::size_t own = none_such, shared = none_such, own_fail = none_such, fail = none_such;
        for (std::size_t i = 0; i < check_.outcomes.size(); ++i) {
            const Outcome& outcome = check_.outcomes[i];
            const bool mine = !row.empty() && outcome.row == row;
            if (outcome.kind == kind && mine) own = i;
            if (outcome.kind == kind && outcome.row.empty()) shared = i;
            if (outcome.kind == OutcomeKind::fail && mine) own_fail = i;
        }
        for (std::size_t i = 0; i < check_.outcomes.size(); ++i)
            if (check_.outcomes[i].kind == OutcomeKind::fail && check_.outcomes[i].row.empty()) fail = i;
        if (kind == OutcomeKind::pass) { // a pass that names a row, as for `one of`, counts as any
            if (own == none_such && shared == none_such)
                for (std::size_t i = 0; i < check_.outcomes.size(); ++i)
                    if (check_.outcomes[i].kind == OutcomeKind::pass) shared = i;
            return outcome_bit(own != none_such ? own : shared);
        }
        for (const std::size_t each : {own, own_fail, shared})
            if (each != none_such) return outcome_bit(each);
        return outcome_bit(fail);
    }
    OutcomeSet find_band(const Limit* band) const {
        for (std::size_t i = 0; i < check_.outcomes.size(); ++i)
            if (check_.outcomes[i].band && &*check_.outcomes[i].band == band) return outcome_bit(i);
        return 0;
    }

    RowAnswers answers_of(const RowPrediction& row) const {
        RowAnswers may;
        const Reading& reading = row.difference ? *row.difference : row.reading;
        const auto anything = [&] {
            may = {true, true, true, has(OutcomeKind::open), false, {}};
            for (const Outcome& outcome : check_.outcomes)
                if (outcome.band) may.bands.push_back(&*outcome.band);
            return may;
        };
        if (!row.limit || row.limit->not_computed) return anything();
        const Limit& limit = *row.limit;
        switch (reading.kind) {
        case ReadingKind::number:
        case ReadingKind::floating: break;
        case ReadingKind::open:
            (limit.kind == LimitKind::open ? may.pass : may.open) = true;
            return may;
        case ReadingKind::yes:
        case ReadingKind::no: {
            const bool wanted = (limit.kind == LimitKind::yes) == (reading.kind == ReadingKind::yes);
            (wanted ? may.pass : may.low) = true;
            return may;
        }
        default: return anything();
        }
        if (limit.kind == LimitKind::open) {
            may.low = true; // joined, though it should be open
            return may;
        }
        if (limit.kind == LimitKind::yes || limit.kind == LimitKind::no) return anything();
        if (check_.measure == MeasureKind::drop && has(OutcomeKind::no_current) && reading_carries_nothing(row)) {
            may.no_current = true;
            return may;
        }
        const Ends ends = ends_of(limit);
        may.pass = reading.high >= ends.low && reading.low <= ends.high;
        bool below = reading.low < ends.low, above = reading.high > ends.high;
        for (const Outcome& outcome : check_.outcomes) {
            if (!outcome.band) continue;
            const Ends band = ends_of(*outcome.band);
            if (reading.high < band.low || reading.low > band.high) continue;
            if (reading.low >= ends.low && reading.high <= ends.high) continue; // it passes before the band counts
            may.bands.push_back(&*outcome.band);
            below &= !(reading.low >= band.low), above &= !(reading.high <= band.high);
        }
        may.low = below, may.high = above;
        return may;
    }
    static bool reading_carries_nothing(const RowPrediction& row) { return row.reading.carried < nothing_flows; }

    const Check& check_;
    const CheckPrediction& made_;
    const Possible& possible_;
};

} // namespace

OutcomeSet outcomes_of(const Check& check, const CheckPrediction& made, const Possible& possible) {
    const Answering answering(check, made, possible);
    if (check.measure == MeasureKind::look) return answering.of_look();
    if (check.measure == MeasureKind::read || check.measure == MeasureKind::volts_ac || check.rows.empty()) return answering.all();
    return answering.of_rows();
}

const Target* target_of(const Check& check, std::size_t outcome) {
    return outcome < check.outcomes.size() ? &check.outcomes[outcome].target : nullptr;
}

} // namespace loomsheet
