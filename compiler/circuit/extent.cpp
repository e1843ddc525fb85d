#include "circuit/extent.hpp"
#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace loomsheet {
namespace {

using Values = std::vector<double>;

class Corners {
public:
    Corners(std::span<Term> terms, std::size_t shared) : terms_(terms) {
        for (const Term& term : terms) {
            values_.push_back(term.bench->usual());
            slopes_.emplace_back(values_.back().size());
            for (const NetBranch& branch : term.bench->network().branches)
                has_diode_ |= branch.law == Law::diode;
            apart_ = apart_ && (&term == &terms.front() || term.bench != terms.front().bench);
        }
        apart_ = apart_ && terms.size() <= 2;
        lay_coordinates(terms.size() > 1 ? shared : 0);
        slope_.resize(coordinates_.size());
        mark_forked();
    }

    Extent find() {
        Extent found;
        const Values middle = middle_of_all();
        found.value = evaluate(middle);
        const Values at_middle = slope_;
        Values lowest = middle, highest = middle;
        found.low = std::min(found.value, extreme(-1, lowest));
        slope_ = at_middle;
        found.high = std::max(found.value, extreme(1, highest));
        if (pulled_apart_) { // there may be lesser tops: once more, each from the other end
            std::swap(lowest, highest);
            evaluate(lowest);
            found.low = std::min(found.low, extreme(-1, lowest));
            evaluate(highest);
            found.high = std::max(found.high, extreme(1, highest));
        }
        for (const Values& start : hidden_starts(middle, at_middle)) {
            lowest = highest = start;
            evaluate(lowest);
            found.low = std::min(found.low, extreme(-1, lowest));
            evaluate(highest);
            found.high = std::max(found.high, extreme(1, highest));
        }
        slope_ = at_middle;
        spread(found);
        found.settled = settled_;
        return found;
    }

    double highest() {
        Values middle = middle_of_all();
        const double value = evaluate(middle);
        const Values at_middle = slope_;
        Values highest = middle;
        double high = std::max(value, extreme(1, highest));
        if (pulled_apart_) { // once more from the other end
            slope_ = at_middle;
            extreme(-1, middle);
            evaluate(middle);
            high = std::max(high, extreme(1, middle));
        }
        for (Values& start : hidden_starts(middle_of_all(), at_middle)) {
            evaluate(start);
            high = std::max(high, extreme(1, start));
        }
        return settled_ ? high : std::numeric_limits<double>::infinity();
    }

private:
    // A parameter that may move: one thing on all benches, or of one term only.
    struct Coordinate {
        ParameterId id;
        int term; // none: of all
        Parameter range;
    };
    void lay_coordinates(std::size_t shared) {
        const auto add = [&](ParameterId id, int term, const Network& network) {
            const Parameter& range = network.parameters[id];
            if (range.low < range.value || range.value < range.high) coordinates_.push_back({id, term, range});
        };
        const auto is_shared = [&](ParameterId id) { return static_cast<std::size_t>(id) < shared; };
        std::vector<ParameterId> ids;
        for (const Term& term : terms_) {
            const std::span<const ParameterId> used = term.bench->in_use();
            std::copy_if(used.begin(), used.end(), std::back_inserter(ids), is_shared);
        }
        std::sort(ids.begin(), ids.end());
        ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
        for (const ParameterId id : ids)
            add(id, none, terms_.front().bench->network());
        for (int i = 0; i < static_cast<int>(terms_.size()); ++i) {
            for (const ParameterId id : terms_[i].bench->in_use())
                if (!is_shared(id)) add(id, i, terms_[i].bench->network());
        }
    }

    // What lies in several branches, as a track does: for it a slope says little.
    void mark_forked() {
        for (const Coordinate& each : coordinates_) {
            bool forks = false;
            for (std::size_t i = 0; i < terms_.size(); ++i)
                if (each.term == none || each.term == static_cast<int>(i)) forks |= terms_[i].bench->is_forked(each.id);
            forked_.push_back(forks);
            pulled_apart_ |= forks;
        }
    }

    Values middle_of_all() const {
        Values middle;
        for (const Coordinate& each : coordinates_)
            middle.push_back(each.range.value);
        return middle;
    }
    // Where a diode blocks, the ohms of a fault may seem to move nothing, and yet open it at one of their ends: from there once more.
    std::vector<Values> hidden_starts(const Values& middle, const Values& slope) const {
        std::vector<Values> starts;
        for (std::size_t c = 0; c < coordinates_.size() && has_diode_; ++c) {
            const Coordinate& each = coordinates_[c];
            if (slope[c] != 0 || each.id != terms_[std::max(each.term, 0)].bench->network().added) continue;
            for (const double end : {each.range.low, each.range.high})
                starts.push_back(middle), starts.back()[c] = end;
        }
        return starts;
    }

    void place(std::size_t c, double value) {
        const Coordinate& each = coordinates_[c];
        for (std::size_t i = 0; i < terms_.size(); ++i)
            if (each.term == none || each.term == static_cast<int>(i)) values_[i][each.id] = value;
    }
    // The sum of the terms at these values; the slopes there beside it.
    double evaluate(const Values& at) {
        for (std::size_t c = 0; c < at.size(); ++c)
            place(c, at[c]);
        return measure(true);
    }
    double measure(bool with_slopes) {
        double sum = 0;
        for (std::size_t i = 0; i < terms_.size(); ++i) {
            sum += terms_[i].sign * shown(terms_[i], values_[i]);
            if (with_slopes) find_slopes(terms_[i], values_[i], slopes_[i]);
        }
        sum_ = sum;
        if (with_slopes) gather();
        return sum;
    }
    // Where `measure` was last, without.
    void slopes_there() {
        if (!apart_) {
            measure(true);
            return;
        }
        for (std::size_t i = 0; i < terms_.size(); ++i)
            find_slopes(terms_[i], values_[i], slopes_[i]);
        gather();
    }

    double shown(Term& term, const Values& values) {
        Bench& bench = *term.bench;
        settled_ &= bench.settle(values, term.stand, true) == Settling::settled;
        if (!term.along.empty()) return bench.sum(term.along);
        return term.amps ? bench.instrument_amps() : bench.port_volts();
    }

    static void find_slopes(Term& term, const Values& values, Values& slopes) {
        Bench& bench = *term.bench;
        if (!term.along.empty())
            bench.slopes_of(term.along, values, slopes);
        else if (term.amps)
            bench.slopes_of_instrument(values, slopes);
        else
            bench.slopes_of_port(values, slopes);
    }

    // One slope for one thing, whichever benches have it.
    void gather() {
        for (std::size_t c = 0; c < coordinates_.size(); ++c) {
            const Coordinate& each = coordinates_[c];
            double all = 0;
            for (std::size_t i = 0; i < terms_.size(); ++i)
                if (each.term == none || each.term == static_cast<int>(i)) all += terms_[i].sign * slopes_[i][each.id];
            // What moves the sum by less than this is rounding, whose sign says nothing.
            const double moves = std::abs(all) * (each.range.high - each.range.low);
            slope_[c] = moves > 1e-10 * std::abs(sum_) + 1e-13 ? all : 0;
        }
    }

    // Where the slope sends a parameter from where it stands.
    double sent(std::size_t c, int way, double from) const {
        const double up = slope_[c] * way;
        return up > 0 ? coordinates_[c].range.high : up < 0 ? coordinates_[c].range.low : from;
    }

    // Walks to the corner that the slopes point at, and on while they point elsewhere there and that leads further.
    double extreme(int way, Values& at) {
        constexpr int turns = 6;
        double top = 0; // at the corner `at`
        Values corner(at.size());
        for (int turn = 0; turn < turns; ++turn) {
            for (std::size_t c = 0; c < at.size(); ++c)
                corner[c] = sent(c, way, at[c]);
            if (turn > 0 && corner == at && std::none_of(forked_.begin(), forked_.end(), [](char each) { return each != 0; })) return top;
            if (turn > 0 && corner == at) break;
            const double here = evaluate(corner);
            if (turn > 0 && here * way <= top * way) break;
            at.swap(corner), top = here;
        }
        pulled_apart_ = true;
        return climb(way, at);
    }

    // Those that point elsewhere pull against each other, as the arms of a bridge do: one at a time, the strongest
    // first. Last those that lie in several branches.
    double climb(int way, Values& at) {
        constexpr int tries = 64;
        double top = evaluate(at);
        std::vector<char> vain(at.size(), 0);
        for (int turn = 0; turn < tries; ++turn) {
            double most = -1, to = 0;
            std::size_t which = 0;
            for (std::size_t c = 0; c < at.size(); ++c) {
                const double there = sent(c, way, at[c]), gain = slope_[c] * way * (there - at[c]);
                const bool turns = gain > 0 || (forked_[c] && slope_[c] != 0);
                if (!turns || gain <= most || vain[c]) continue;
                const Parameter& range = coordinates_[c].range;
                most = gain, which = c;
                to = gain > 0 ? there : at[c] == range.low ? range.high : range.low;
            }
            if (most < 0) break;
            const double before = std::exchange(at[which], to);
            place(which, to);
            const double here = measure(false);
            if (here * way > top * way) {
                top = here;
                slopes_there();
                std::fill(vain.begin(), vain.end(), 0);
            } else {
                at[which] = before;
                place(which, before);
                vain[which] = 1;
            }
        }
        return top;
    }

    void spread(Extent& found) const {
        double down = 0, up = 0;
        const auto square = [](double x) { return x * x; };
        for (std::size_t c = 0; c < coordinates_.size(); ++c) {
            const Parameter& range = coordinates_[c].range;
            const double to_low = slope_[c] * (range.low - range.value), to_high = slope_[c] * (range.high - range.value);
            down += square(std::min({to_low, to_high, 0.0}));
            up += square(std::max({to_low, to_high, 0.0}));
        }
        found.likely_low = std::max(found.low, found.value - std::sqrt(down));
        found.likely_high = std::min(found.high, found.value + std::sqrt(up));
    }

    std::span<Term> terms_;
    bool apart_ = true; // each on a bench of its own
    bool has_diode_ = false;
    std::vector<Coordinate> coordinates_;
    std::vector<Values> values_, slopes_; // by term and parameter
    Values slope_;                        // by coordinate, of the sum
    double sum_ = 0;                      // as measured last
    std::vector<char> forked_;            // by coordinate: lies in several branches
    bool pulled_apart_ = false;           // some pull against each other
    bool settled_ = true;
};

} // namespace

Extent extent_of(std::span<Term> terms, std::size_t shared) { return Corners(terms, shared).find(); }
double highest_of(std::span<Term> terms, std::size_t shared) { return Corners(terms, shared).highest(); }

} // namespace loomsheet
