// No car contradicts the matrix: cells picked at random are held against cars whose parameters are drawn at random, the fault
// put into a network made anew, the bench asked and nothing else of the engine. A cell that depends on the complaint is judged
// by cars that complain.
//
// LOOMSHEET_SAMPLES sets how many cars are drawn for a cell.
#include "analysis/analysis.hpp"
#include "circuit/setting.hpp"
#include "faults/matrix.hpp"
#include "faults/together.hpp"
#include <cmath>
#include <cstdlib>
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <random>

using namespace loomsheet;

namespace {

#ifdef NDEBUG
constexpr std::size_t usual_cells = 400, usual_samples = 100; // cells of each plan
#else
constexpr std::size_t usual_cells = 12, usual_samples = 20; // under sanitizers
#endif

std::size_t samples() {
    const char* said = std::getenv("LOOMSHEET_SAMPLES");
    return said ? std::strtoul(said, nullptr, 10) : usual_samples;
}

using Values = std::vector<double>;

class Drawing {
public:
    explicit Drawing(std::uint32_t seed) : random_(seed) {}
    // Of a car: a share of its range for each parameter, each anywhere; or each at an end or anywhere, one time in three each.
    void next(bool corners) {
        corners_ = corners;
        shares_.clear();
    }
    double share(std::size_t parameter) {
        while (shares_.size() <= parameter)
            shares_.push_back(any());
        return shares_[parameter];
    }
    double any() {
        const int at = corners_ ? std::uniform_int_distribution<int>(0, 2)(random_) : 2;
        return at < 2 ? at : std::uniform_real_distribution<double>(0, 1)(random_);
    }
    std::size_t below(std::size_t count) { return std::uniform_int_distribution<std::size_t>(0, count - 1)(random_); }

private:
    std::mt19937 random_;
    bool corners_ = false;
    Values shares_;
};

// One set-up with its instrument and the fault, asked at the values that were drawn.
class Asked {
public:
    Asked(const Predictor& car, Setting setting, MeasureKind measure)
        : measure_(measure), shared_(car.parameters().list.size()), volts_(car.parameters().system_volts), setting_(std::move(setting)) {
        Stand usual = setting_.from;
        const Values values = usual_values(*setting_.network);
        if (setting_.bench->settle(values, usual) == Settling::settled && setting_.term.amps && setting_.bench->instrument_amps() < 0)
            sign_ = -1;
    }
    const Network& network() const { return *setting_.network; }
    const Bench& bench() const { return *setting_.bench; }
    // False where it comes to no rest.
    bool draw(Drawing& drawing) {
        Values values;
        for (std::size_t i = 0; i < setting_.network->parameters.size(); ++i) {
            const Parameter& range = setting_.network->parameters[i];
            values.push_back(range.low + (range.high - range.low) * (i < shared_ ? drawing.share(i) : drawing.any()));
        }
        Stand stand = setting_.from;
        return setting_.bench->settle(values, stand) == Settling::settled;
    }
    // What a perfect meter shows.
    Reading reading() const {
        Reading made;
        made.kind = ReadingKind::number;
        const bool joined = setting_.bench->port().g > 0;
        double shown = setting_.term.amps ? sign_ * setting_.bench->instrument_amps() : setting_.bench->port_volts();
        switch (measure_) {
        case MeasureKind::ohms:
        case MeasureKind::continuity: {
            const double through = ohms_test_amps * (1 - shown / open_volts);
            shown = shown / through + usual(Usual::leads).value;
            if (!joined || through <= 0 || shown > 20e6) made.kind = ReadingKind::open;
            if (measure_ == MeasureKind::ohms) break;
            const UsualRow& beep = usual(Usual::beep);
            made.kind = made.kind == ReadingKind::open || shown >= beep.high ? ReadingKind::no
                        : shown <= beep.low                                  ? ReadingKind::yes
                                                                             : ReadingKind::unsure;
            break;
        }
        case MeasureKind::testlamp: {
            const UsualRow& seen = usual(Usual::lamp_seen);
            const double size = std::abs(shown) / volts_;
            made.kind = size >= seen.high ? ReadingKind::yes : size <= seen.low ? ReadingKind::no : ReadingKind::unsure;
            break;
        }
        case MeasureKind::amps:
        case MeasureKind::clamp: break;
        default:
            if (!joined) made.kind = ReadingKind::floating, made.floats = true; // 0 V, without any ghost
        }
        made.value = made.low = made.high = shown;
        return made;
    }
    static constexpr double open_volts = 2; // of the ohmmeter: usual value

private:
    MeasureKind measure_;
    std::size_t shared_;
    double volts_, sign_ = 1;
    Setting setting_;
};

Asked asked(const Predictor& car, const Check& check, const Row& row) {
    const Fault& fault = *car.fault();
    return {
        car,
        set_up(car.circuit(), car.parameters(), placed(check.with, row), check.measure, row, &fault, car.blown_before(), Asked::open_volts),
        check.measure};
}

// One cell: a car with the fault at the rows of a check.
class Cell {
public:
    Cell(const Plan& plan, const Predictor& car, const Check& check, const std::optional<ComplaintVolts>& complaint)
        : check_(check), engine_(predict_check(plan, car, check)) {
        for (std::size_t i = 0; i < check.rows.size(); ++i) {
            rows_.push_back(asked(car, check, check.rows[i]));
            if (!engine_.rows[i].difference) continue;
            const Check& before = plan.checks[engine_.rows[i].limit->reference];
            const Row* row = &before.rows.front();
            for (const Row& each : before.rows)
                if (each.name == check.rows[i].name) row = &each;
            before_.push_back(asked(car, before, *row));
        }
        if (!complaint) return;
        complaint_ = *complaint;
        complaining_.emplace(car, set_up(car.circuit(), car.parameters(), plan.complaint_with, &*car.fault(), car.blown_before()),
                             MeasureKind::look);
    }

    // The outcome of a car; none where it does not complain, where something comes to no rest, or where a beeper or a lamp may do either.
    std::optional<OutcomeSet> draw(Drawing& drawing, bool corners) {
        drawing.next(corners);
        if (complaining_ && !(complaining_->draw(drawing) && complains())) return std::nullopt;
        CheckPrediction made;
        std::size_t before = 0;
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            RowPrediction row = engine_.rows[i];
            if (!rows_[i].draw(drawing)) return std::nullopt;
            const double carried = row.reading.carried;
            row.reading = rows_[i].reading();
            row.reading.carried = carried;
            if (row.reading.kind == ReadingKind::unsure) return std::nullopt;
            if (row.difference) {
                if (!before_[before].draw(drawing)) return std::nullopt;
                const Reading there = before_[before++].reading();
                if (there.kind != ReadingKind::number && there.kind != ReadingKind::floating) return std::nullopt;
                row.difference = row.reading;
                row.difference->value -= there.value, row.difference->low -= there.value, row.difference->high -= there.value;
            }
            made.rows.push_back(std::move(row));
        }
        made.turns = {{none, made.rows}};
        return outcomes_of(check_, made);
    }

private:
    bool complains() const {
        for (std::size_t i = 0; i < complaining_->network().graph.edges.size(); ++i) {
            const Edge& edge = complaining_->network().graph.edges[i];
            if (edge.kind == EdgeKind::load && edge.part == complaint_.part)
                return complaining_->bench().volts(static_cast<int>(i)) <= complaint_.most;
        }
        return true;
    }
    const Check& check_;
    CheckPrediction engine_;
    std::vector<Asked> rows_, before_;
    ComplaintVolts complaint_;
    std::optional<Asked> complaining_;
};

bool is_drawn(const Plan& plan, const Check& check) {
    if (check.rows.empty() || check.measure == MeasureKind::look || check.measure == MeasureKind::read ||
        check.measure == MeasureKind::volts_ac)
        return false;
    const auto one = [](const Setup& with) { return one_by_one(with).size() == 1; };
    const Limit* limit = limit_of(check, check.rows.front().name);
    return one(check.with) && (!limit || limit->reference == none || one(plan.checks[limit->reference].with));
}

} // namespace

TEST_CASE("no car that is drawn comes to an outcome that its cell of the matrix rules out") {
    RealDisk disk;
    Drawing drawing(1);
    std::size_t judged = 0, sure = 0, wrong = 0;
    for (const std::string& path : disk.list(std::string(LOOMSHEET_ROOT) + "/plans", ".plan")) {
        Sources sources;
        const Analysis result = analyse(sources, disk, {path});
        REQUIRE_MESSAGE((result.unreadable.empty() && result.usable()), path);
        const Plan& plan = *result.plan;
        const Predictor sound(plan.circuit, system_volts(plan));
        const Matrix matrix = fault_matrix(plan, sound, *result.prediction);
        const std::vector<Setup> uses = normal_use(plan);
        const std::optional<ComplaintVolts> complaint = complaint_volts(plan, system_volts(plan));
        for (std::size_t turn = 0; turn < usual_cells; ++turn) {
            const std::size_t fault = drawing.below(matrix.faults.size()), check = drawing.below(plan.checks.size());
            if (!is_drawn(plan, plan.checks[check])) continue;
            const Predictor car(sound, matrix.faults[fault].fault, uses);
            const OutcomeSet allowed = matrix.cells[fault][check];
            if ((allowed & stop_bit) != 0) continue; // whether a car rattles is asked at usual values: others of its kind may not
            sure += is_sure(allowed);
            Cell cell(plan, car, plan.checks[check], matrix.harm[fault] == Truth::maybe ? complaint : std::nullopt);
            for (std::size_t i = 0; i < samples(); ++i) {
                const std::optional<OutcomeSet> set = cell.draw(drawing, i % 2 == 1);
                if (!set) continue;
                ++judged;
                if ((*set & ~allowed) != 0 && wrong++ < 20)
                    MESSAGE(fmt::format("{}: {} at {} comes to {:x}, and the cell has {:x}", plan.id,
                                        fault_words(plan.circuit, matrix.faults[fault].fault), plan.checks[check].label, *set, allowed));
            }
        }
    }
    CHECK(wrong == 0);
    CHECK(sure > usual_cells / 2);
    CHECK(judged > usual_cells * samples());
    MESSAGE(fmt::format("{} cars judged, {} sure cells", judged, sure));
}
