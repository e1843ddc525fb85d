// No car reads outside its range: the plans measured again and again, sound and with faults, with every parameter at
// some value of its own, drawn at random or climbed to. Only the bench is asked; the engine's own way to its corners
// (extent.cpp) takes no part in it.
//
// LOOMSHEET_SAMPLES sets how many cars are drawn in all.
#include "analysis/analysis.hpp"
#include "circuit/setting.hpp"
#include "faults/prediction.hpp"
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <functional>
#include <random>
#include <utility>

using namespace loomsheet;

namespace {

#ifdef NDEBUG
constexpr std::size_t usual_samples = 240'000, climbed = 1; // climbed: every so many readings
#else
constexpr std::size_t usual_samples = 8'000, climbed = 9; // under sanitizers
#endif

std::size_t samples_in_all() {
    const char* said = std::getenv("LOOMSHEET_SAMPLES");
    return said ? std::strtoul(said, nullptr, 10) : usual_samples;
}

using Values = std::vector<double>;
using Shown = std::optional<double>;

// A measurement that can be asked with values of one's own.
class Asked {
public:
    Asked(const Predictor& car, const Setup& setup, MeasureKind measure, const Row& row)
        : ohms_(measure == MeasureKind::ohms || measure == MeasureKind::continuity),
          setting_(set_up(car.circuit(), car.parameters(), placed(setup, row), measure, row, car.fault() ? &*car.fault() : nullptr,
                          car.blown_before(), open_volts)),
          usual_(setting_.from) {
        Values values;
        for (const Parameter& each : parameters())
            values.push_back(each.value);
        setting_.bench->settle(values, usual_);
        if (setting_.term.amps && shown(values).value_or(0) < 0) sign_ = -1;
    }
    const std::vector<Parameter>& parameters() const { return setting_.network->parameters; }

    // Nothing when it comes to no rest, when nothing joins the points, or when a fuse has blown or not otherwise than
    // with usual values: the engine says so of relays and modules only.
    Shown shown(const Values& values) {
        Bench& bench = *setting_.bench;
        Stand stand = setting_.from;
        if (bench.settle(values, stand) == Settling::chatters || stand.blown != usual_.blown) return std::nullopt;
        if (setting_.term.amps) return sign_ * bench.instrument_amps();
        if (bench.port().g == 0) return std::nullopt;
        const double volts = bench.port_volts();
        return ohms_ ? volts / (ohms_test_amps * (1 - volts / open_volts)) : volts;
    }

private:
    static constexpr double open_volts = 2; // of the ohmmeter: usual value
    bool ohms_;
    double sign_ = 1;
    Setting setting_;
    Stand usual_;
};

// Something that is read, with its range.
struct Quarry {
    std::string name;
    double low, high;
    bool alike; // all cars stand in one stand
    std::vector<Parameter> parameters;
    std::function<Shown(const Values&)> shown;
};

// The difference of two readings: what the circuit has is one thing in both, what only a set-up has is not.
Quarry difference(Quarry here, Quarry there, std::size_t shared, const Reading& range) {
    const auto first = static_cast<std::ptrdiff_t>(here.parameters.size()), common = static_cast<std::ptrdiff_t>(shared);
    std::vector<Parameter> both = here.parameters;
    both.insert(both.end(), there.parameters.begin() + common, there.parameters.end());
    const auto shown = [first, common, here, there](const Values& values) -> Shown {
        Values other(values.begin(), values.begin() + common);
        other.insert(other.end(), values.begin() + first, values.end());
        const Shown a = here.shown(Values(values.begin(), values.begin() + first)), b = there.shown(other);
        return a && b ? Shown(*a - *b) : std::nullopt;
    };
    return {here.name + " minus " + there.name, range.bare_low, range.bare_high, range.in_doubt.empty(), both, shown};
}

Quarry quarry(const std::string& name, const Predictor& car, const Check& check, const Row& row, const Reading& range) {
    const auto asked = std::make_shared<Asked>(car, check.with, check.measure, row);
    return {name, range.bare_low, range.bare_high, range.in_doubt.empty(), asked->parameters(), [asked](const Values& values) {
                return asked->shown(values);
            }};
}

bool has_range(const Reading& reading) {
    switch (reading.kind) {
    case ReadingKind::number:
    case ReadingKind::yes:
    case ReadingKind::no:
    case ReadingKind::unsure: return reading.low != 0 || reading.high != 0;
    default: return false;
    }
}

// Everything that a plan measures on this car.
std::vector<Quarry> quarries(const Plan& plan, const Predictor& car, const std::string& fault) {
    std::vector<Quarry> list;
    const Prediction prediction = predict(plan, car);
    for (std::size_t c = 0; c < plan.checks.size(); ++c) {
        const Check& check = plan.checks[c];
        const std::vector<SetupItem>& items = check.with.items;
        if (std::any_of(items.begin(), items.end(),
                        [](auto& item) { return item.kind == ItemKind::one_of_pulled || item.kind == ItemKind::moved; }))
            continue; // several set-ups
        for (std::size_t r = 0; r < check.rows.size(); ++r) {
            const RowPrediction& row = prediction[c].rows[r];
            const std::string name = fmt::format("{} {} {} {}", plan.id, fault, check.label, check.rows[r].name);
            if (!has_range(row.reading)) continue;
            list.push_back(quarry(name, car, check, check.rows[r], row.reading));
            if (!row.difference || row.difference->kind != ReadingKind::number) continue;
            const Check& before = plan.checks[row.limit->reference];
            const auto same = std::find_if(before.rows.begin(), before.rows.end(), [&](auto& it) { return it.name == check.rows[r].name; });
            const Row& row_before = same == before.rows.end() ? before.rows.front() : *same;
            list.push_back(
                difference(list.back(), quarry(before.label, car, before, row_before, {}), car.parameters().list.size(), *row.difference));
        }
    }
    return list;
}

class Hunt {
public:
    explicit Hunt(std::uint32_t seed) : random_(seed) {}

    void draw(const Quarry& quarry, std::size_t samples) {
        for (std::size_t i = 0; i < samples; ++i)
            judge(quarry, some(quarry, i % 2 == 1));
    }
    // Towards either end; one that is not reached is counted. What is climbed to may be a lesser top: then once more.
    void climb(const Quarry& quarry) {
        constexpr int starts = 6;
        for (const int way : {-1, 1}) {
            const double end = way > 0 ? quarry.high : -quarry.low;
            bool reached = !quarry.alike;
            for (int start = 0; start < (quarry.alike ? starts : 1) && !(start > 0 && reached); ++start) {
                const Values at = top(quarry, way);
                judge(quarry, at);
                const Shown shown = quarry.shown(at);
                reached |= shown && way * *shown >= end - room(quarry);
            }
            if (!reached) ++short_of_end;
        }
    }

    std::size_t judged = 0, set_aside = 0, outside = 0, short_of_end = 0;

private:
    // Each anywhere in its range; or at either end, or anywhere, one time in three each.
    Values some(const Quarry& quarry, bool corners) {
        Values values;
        for (const Parameter& each : quarry.parameters) {
            std::uniform_real_distribution<double> between(each.low, each.high);
            const int at = corners ? std::uniform_int_distribution<int>(0, 2)(random_) : 2;
            values.push_back(at == 0 ? each.low : at == 1 ? each.high : between(random_));
        }
        return values;
    }
    // From some corner: turns one parameter after the other to the end that leads further, until none does.
    Values top(const Quarry& quarry, int way) {
        Values at = some(quarry, true);
        double best = way * quarry.shown(at).value_or(-way * 1e9);
        for (bool better = true; better;) {
            better = false;
            for (std::size_t p = 0; p < at.size(); ++p)
                for (const double end : {quarry.parameters[p].low, quarry.parameters[p].high}) {
                    if (end == at[p]) continue;
                    const double before = std::exchange(at[p], end);
                    const Shown here = quarry.shown(at);
                    if (here && way * *here > best + 1e-12 * std::abs(best))
                        best = way * *here, better = true;
                    else
                        at[p] = before;
                }
        }
        return at;
    }
    // Rounding of an elimination, and of Newton's steps over lamps and motors, in V, ohm or A.
    static double room(const Quarry& quarry) {
        return 1e-7 + 1e-9 * std::max(std::abs(quarry.low), std::abs(quarry.high)); // 0.1 µV: a ten thousandth of what a meter shows
    }
    void judge(const Quarry& quarry, const Values& values) {
        const Shown shown = quarry.shown(values);
        ++(shown ? judged : set_aside);
        if (!shown || (*shown >= quarry.low - room(quarry) && *shown <= quarry.high + room(quarry))) return;
        if (outside++ < 20)
            MESSAGE(fmt::format("{}: {:.10g} is outside of {:.10g} .. {:.10g}", quarry.name, *shown, quarry.low, quarry.high));
    }
    std::mt19937 random_;
};

std::vector<Plan> plans_in(const std::string& folder) {
    RealDisk disk;
    std::vector<Plan> plans;
    for (const std::string& path : disk.list(std::string(LOOMSHEET_ROOT) + folder, ".plan")) {
        if (path.find("/common/") != std::string::npos) continue; // no plan of its own
        Sources sources;
        Analysis result = analyse(sources, disk, {path});
        REQUIRE_MESSAGE((result.unreadable.empty() && result.usable()), path);
        plans.push_back(*result.plan);
    }
    return plans;
}

// A wire that is cut, or poor, by turns.
Fault fault_of_wire(WireId wire, std::size_t turn) {
    static const Unit* const ohm = find_unit("ohm");
    Fault fault;
    fault.at_point.metal = Metal::whole, fault.at_point.wire = wire;
    fault.kind = turn % 2 ? FaultKind::open : FaultKind::added;
    fault.words = turn % 2 ? "open" : "2 ohm";
    if (fault.kind == FaultKind::added) {
        Quantity ohms;
        ohms.si = 2, ohms.unit = ohm;
        fault.value = ohms;
    }
    return fault;
}

} // namespace

TEST_CASE("no car that is drawn reads outside of what the engine says, sound or with a cut or a poor wire") {
    constexpr std::size_t apart = 6; // wires between two faults
    const std::vector<Plan> plans = plans_in("/plans");
    std::vector<std::unique_ptr<Predictor>> cars;
    std::vector<Quarry> list;
    for (const Plan& plan : plans) {
        cars.push_back(std::make_unique<Predictor>(plan.circuit, system_volts(plan)));
        const Predictor& sound = *cars.back();
        for (int more = 0; more < 9; ++more) // a sound car counts as much as nine with faults
            for (Quarry& each : quarries(plan, sound, "sound"))
                list.push_back(std::move(each));
        const std::vector<Setup> uses = normal_use(plan);
        for (std::size_t wire = 0; wire < plan.circuit.wires.size(); wire += apart) {
            const Fault fault = fault_of_wire(static_cast<WireId>(wire), wire / apart);
            cars.push_back(std::make_unique<Predictor>(sound, fault, uses));
            for (Quarry& each : quarries(plan, *cars.back(), plan.circuit.wires[wire].id + " " + fault.words))
                list.push_back(std::move(each));
        }
    }
    Hunt hunt(1);
    for (const Quarry& each : list)
        hunt.draw(each, samples_in_all() / list.size() + 1);
    CHECK(hunt.outside == 0);
    CHECK(hunt.judged >= samples_in_all() * 95 / 100);
    MESSAGE(fmt::format("{} readings of {} cars, {} samples, {} set aside", list.size(), cars.size(), hunt.judged, hunt.set_aside));
}

TEST_CASE("no car that is climbed to reads outside, and some car reads each end") {
    Hunt hunt(2);
    std::size_t count = 0;
    for (const char* folder : {"/plans", "/tests/plans"})
        for (const Plan& plan : plans_in(folder)) {
            const Predictor sound(plan.circuit, system_volts(plan));
            for (const Quarry& each : quarries(plan, sound, "sound"))
                if (count++ % climbed == 0) hunt.climb(each);
        }
    CHECK(hunt.outside == 0);
    CHECK(hunt.short_of_end == 0);
    CHECK(hunt.judged > count / climbed);
}
