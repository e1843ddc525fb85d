// One reading has one outcome: what is predicted of a car is what the proof allows it, and the arrow on the page is the one that the
// walk takes.
#include "analysis/analysis.hpp"
#include "faults/matrix.hpp"
#include "sheet/layout/order.hpp"
#include "sheet/printed.hpp"
#include "sheet/words/printed_signs.hpp"
#include <cmath>
#include <doctest/doctest.h>
#include <fmt/format.h>

using namespace loomsheet;

namespace {

std::vector<std::string> all_plans() {
    RealDisk disk;
    std::vector<std::string> list;
    for (const char* folder : {"/plans", "/tests/plans"})
        for (const std::string& path : disk.list(std::string(LOOMSHEET_ROOT) + folder, ".plan"))
            list.push_back(path);
    return list;
}

// The sign that a technician must find at an outcome.
std::string sign_of(const Order& order, const Target* target) {
    if (!target) return "STOP";
    switch (target->kind) {
    case TargetKind::check:
    case TargetKind::next: return target->index == none ? "STOP" : std::to_string(order.numbers[target->index]);
    case TargetKind::verdict: return target->index == none ? "STOP" : order.letters[target->index];
    case TargetKind::done: return "DONE";
    case TargetKind::suspects:
    case TargetKind::nowhere: break;
    }
    return "STOP";
}

// A car with these ohms exactly, where the fault adds some.
Fault with_ohms(Fault fault, double ohms) {
    if (fault.kind == FaultKind::added) fault.value->si = ohms, fault.value->plus_minus = 0;
    return fault;
}
std::vector<double> ohms_of(const Fault& fault) {
    if (fault.kind != FaultKind::added) return {0};
    const double low = fault.value->low(), high = fault.value->high();
    return {low, std::sqrt(low * high), high};
}

} // namespace

TEST_CASE("the arrow that the page prints for an outcome is the one that the walk takes, on every plan") {
    std::size_t arrows = 0;
    for (const std::string& path : all_plans()) {
        CAPTURE(path);
        Sources sources;
        RealDisk disk;
        const Analysis result = analyse(sources, disk, {path});
        if (!result.usable() || result.plan->checks.empty()) continue;
        const Plan& plan = *result.plan;
        const Order order = order_of(plan);
        const PrintedSigns signs = printed_signs(printed::sheet(plan).document);
        for (std::size_t c = 0; c < plan.checks.size(); ++c) {
            const Check& check = plan.checks[c];
            CAPTURE(check.label);
            const auto card =
                std::find_if(signs.checks.begin(), signs.checks.end(), [&](const PrintedCard& each) { return each.label == check.label; });
            REQUIRE(card != signs.checks.end());
            CHECK(card->sign == std::to_string(order.numbers[c]));
            std::vector<char> printed(check.outcomes.size() + 1);
            for (std::size_t w = 0; w < card->ways.size(); ++w, ++arrows) {
                CHECK(card->ways[w].sign == sign_of(order, target_of(check, card->outcomes[w])));
                printed[card->outcomes[w]] = 1;
            }
            for (std::size_t o = 0; o < check.outcomes.size(); ++o)
                CHECK_MESSAGE(printed[o], "no arrow for outcome ", o + 1);
            CHECK((printed.back() != 0) == leaves_something(check));
        }
    }
    CHECK(arrows > 300);
}

TEST_CASE("what a car with a fault reads, at three ohms of each band, is among what the proof allows it, on every plan") {
    std::size_t cars = 0, cells = 0, wrong = 0, wider = 0; // wider: more is held possible of these ohms than of their band
    for (const std::string& path : all_plans()) {
        Sources sources;
        RealDisk disk;
        const Analysis result = analyse(sources, disk, {path});
        if (!result.usable() || result.plan->checks.empty()) continue;
        const Plan& plan = *result.plan;
        const Predictor sound(plan.circuit, system_volts(plan));
        const Matrix matrix = fault_matrix(plan, sound, *result.prediction);
        const std::vector<Setup> uses = normal_use(plan);
        for (std::size_t f = 0; f < matrix.faults.size(); ++f)
            for (const double ohms : ohms_of(matrix.faults[f].fault)) {
                const Fault fault = with_ohms(matrix.faults[f].fault, ohms);
                const Predictor car(sound, fault, uses);
                const Truth complaint = complains(plan, sound, car);
                if (complaint == Truth::no) continue;
                ++cars;
                for (std::size_t c = cars % 3; c < plan.checks.size(); c += 3) {
                    const OutcomeSet may = outcomes_of(plan.checks[c], predict_check(plan, car, plan.checks[c])),
                                     allowed = matrix.cells[f][c];
                    ++cells;
                    if (complaint == Truth::yes && matrix.harm[f] == Truth::yes) wider += (may & ~allowed) != 0;
                    const bool fits = complaint != Truth::yes || (may & allowed) != 0; // one that may not complain may do as it likes
                    if (!fits && wrong++ < 20)
                        MESSAGE(fmt::format("{}: {} with {} ohm at {} comes to {:x}, and the proof allows {:x}", plan.id,
                                            fault_words(plan.circuit, fault), ohms, plan.checks[c].label, may, allowed));
                }
            }
    }
    CHECK(wrong == 0);
    CHECK(wider * 500 <= cells); // where more ways of rattling are explored for one value than for all of the band
    CHECK(cells > 20000);
    MESSAGE(fmt::format("{} cars, {} cells, {} of them wider", cars, cells, wider));
}
