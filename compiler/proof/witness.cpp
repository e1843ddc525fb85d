#include "proof/witness.hpp"
#include "proof/reading_table.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace loomsheet {
namespace {

constexpr std::size_t most_suspects = 5, most_blamed = 4, most_steps = 4;

// What the display shows of nothing is its own noise.
constexpr double shows_nothing = 0.02; // V, A

std::string read_words(const Circuit& circuit, const Reading& reading, MeasureKind measure) {
    const bool ohms = is_ohms(measure);
    const bool dead = !ohms && reading.kind == ReadingKind::number && std::max(-reading.low, reading.high) <= shows_nothing;
    return dead ? fmt::format("0 {}", is_current(measure) ? "A" : "V") : range_words(circuit, reading, measure);
}

bool touch(double high, double low) { return low <= high * (1 + 1e-9); }

// The row that a step is about: its own, the only one, or for a fail the first that does not pass.
std::size_t row_of(const Check& check, const CheckPrediction& made, const Taken& step) {
    const std::size_t no_row = check.rows.size();
    if (check.rows.size() == 1) return 0;
    const Outcome* outcome = step.outcome < check.outcomes.size() ? &check.outcomes[step.outcome] : nullptr;
    if (outcome && outcome->kind == OutcomeKind::pass) return no_row;
    for (std::size_t r = 0; r < check.rows.size(); ++r)
        if (outcome && !outcome->row.empty() ? check.rows[r].name == outcome->row : made.rows[r].fit != Fit::passes) return r;
    return no_row;
}

} // namespace

void Told::add(const Candidate& fault, const std::vector<Taken>& way, bool sure) {
    const auto better = [&] {
        if (!witness_ || sure != sure_) return !witness_ || sure;
        if (std::abs(fault.likely / witness_->likely - 1) > 1e-9) return fault.likely > witness_->likely;
        return way.size() < way_.size();
    };
    if (better()) witness_ = &fault, sure_ = sure, way_ = way;
    auto at = std::find_if(list_.begin(), list_.end(), [&](const Of& of) { return of.suspect == fault.suspect; });
    if (at == list_.end()) at = list_.insert(at, Of{fault.suspect, 0, {}});
    at->likely += fault.likely;
    at->faults.push_back(&fault.fault);
}

std::vector<Told::Of> Told::sorted() const {
    std::vector<Of> list = list_;
    const auto first = [&](const Of& of) { return witness_->suspect == of.suspect; };
    std::stable_sort(list.begin(), list.end(),
                     [&](const Of& a, const Of& b) { return first(a) != first(b) ? first(a) : a.likely > b.likely * (1 + 1e-9); });
    return list;
}

std::string Told::words(const Circuit& circuit) const {
    std::vector<std::string> all;
    for (const Of& of : sorted()) {
        const std::string name = of.suspect.part == none ? "" : circuit.parts[of.suspect.part].name;
        all.push_back(
            fmt::format("{} ({}{}{})", suspect_point(circuit, of.suspect), name, name.empty() ? "" : ": ", faults_words(of.faults)));
    }
    return list_words(all, "and", most_suspects);
}

std::string Told::names(const Circuit& circuit) const {
    std::vector<std::string> all;
    for (const Of& of : sorted())
        all.push_back(suspect_name(circuit, of.suspect));
    return list_words(all, "and", most_suspects);
}

std::string Told::to_blame(const Circuit& circuit) const {
    if (list_.size() > most_blamed) return {};
    std::string words;
    for (const Of& of : sorted())
        words += (words.empty() ? "" : " ") + suspect_point(circuit, of.suspect);
    return words;
}

std::string faults_words(const std::vector<const Fault*>& faults) {
    std::vector<std::string> words;
    std::vector<std::pair<double, double>> ranges;
    for (const Fault* fault : faults) {
        if (fault->kind == FaultKind::added && fault->value) {
            const double low = fault->value->low(), high = fault->value->high();
            if (!ranges.empty() && touch(ranges.back().second, low))
                ranges.back().second = high;
            else
                ranges.emplace_back(low, high);
        } else if (std::find(words.begin(), words.end(), fault->words) == words.end()) {
            words.push_back(fault->words);
        }
    }
    const bool open = std::find(words.begin(), words.end(), "open") != words.end();
    for (const auto& [low, high] : ranges) {
        const bool to_the_end = high > ohm_bands().back() * (1 - 1e-9); // there it is as good as open
        words.push_back(open && to_the_end ? fmt::format("more than {:.4g} {}", low < 0.1 ? low * 1e3 : low, low < 0.1 ? "mohm" : "ohm")
                                           : ohms_words(low, high));
    }
    return list_words(words, "or", 4);
}

Witness::Witness(const Plan& plan, const Predictor& sound) : plan_(plan), sound_(sound), uses_(normal_use(plan)) {}

std::string Witness::way(const Fault& fault, const std::vector<Taken>& way) const {
    const Predictor car(sound_, fault, uses_);
    std::vector<std::string> words;
    const std::size_t first = way.size() > most_steps ? way.size() - most_steps : 0;
    for (std::size_t i = first; i < way.size(); ++i) {
        const Check& check = plan_.checks[way[i].check];
        const CheckPrediction made = predict_check(plan_, car, check);
        const bool sure = is_sure(outcomes_of(check, made));
        std::string step = fmt::format("{} {}", check.label, step_words(plan_, way[i], sure ? Mood::does : Mood::may));
        const std::size_t row = row_of(check, made, way[i]);
        if (row < made.rows.size() && made.rows[row].reading.kind != ReadingKind::unsure &&
            made.rows[row].reading.kind != ReadingKind::beyond)
            step += fmt::format(" ({})", read_words(plan_.circuit, made.rows[row].reading, check.measure));
        words.push_back(std::move(step));
    }
    return (first > 0 ? "..., " : "") + list_words(words, "and", most_steps);
}

std::string Witness::range(const std::vector<const Fault*>& faults, int index, std::size_t row) const {
    const Check& check = plan_.checks[index];
    if (row >= check.rows.size()) return {};
    std::optional<Reading> all;
    std::optional<Fit> fit;
    const auto take = [&](const Predictor& car) {
        const CheckPrediction made = predict_check(plan_, car, check);
        for (std::size_t r = 0; r < row; ++r) // a row that fails before it ends the check
            if (made.rows[r].fit == Fit::fails) return true;
        const RowPrediction& of = made.rows[row];
        if (of.reading.kind != ReadingKind::number || (of.fit != Fit::passes && of.fit != Fit::fails)) return false;
        if (fit && *fit != of.fit) return false;
        fit = of.fit;
        if (!all) all = of.reading;
        all->low = std::min(all->low, of.reading.low), all->high = std::max(all->high, of.reading.high);
        return true;
    };
    for (const Fault* fault : faults)
        if (!(fault ? take(Predictor(sound_, *fault, can_blow(fault->kind) ? uses_ : std::vector<Setup>())) : take(sound_))) return {};
    return all ? read_words(plan_.circuit, *all, check.measure) : std::string();
}

} // namespace loomsheet
