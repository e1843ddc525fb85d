// How long the matrix of faults against checks takes. bench_matrix PLAN ...: of plans; bench_matrix --cells PLAN ...: what is in it, as
// text, to hold one state of the program against another.
#include "analysis/analysis.hpp"
#include "faults/matrix.hpp"
#include "source/disk.hpp"
#include <chrono>
#include <cstdio>
#include <cstring>
#include <fmt/format.h>

using namespace loomsheet;

namespace {

void print_reading(const char* what, const Reading& r) {
    fmt::print("   {} {} {:.12g} {:.12g} {:.12g} {:.12g} {:.12g} {:.12g} {:.12g} {:.9g} {:.9g} {:.9g} {} [", what, static_cast<int>(r.kind),
               r.value, r.low, r.high, r.likely_low, r.likely_high, r.bare_low, r.bare_high, r.carried, r.residual, r.burden,
               r.may_chatter);
    for (const InDoubt& each : r.in_doubt)
        fmt::print("{} {:.12g} {:.12g} {:.12g} {:.12g};", each.part, each.low, each.high, each.on, each.off);
    fmt::print("] {}\n", r.why);
}

void print_cells(const Plan& plan, bool readings) {
    const Predictor sound(plan.circuit, system_volts(plan));
    const Prediction of_sound = predict(plan, sound);
    const Matrix matrix = fault_matrix(plan, sound, of_sound);
    const auto row = [&](const std::vector<OutcomeSet>& cells) {
        for (const OutcomeSet cell : cells)
            fmt::print(" {:x}", cell);
        fmt::print("\n");
    };
    fmt::print("{}\nsound", plan.id);
    row(matrix.sound);
    for (const Candidate& each : matrix.harmless)
        fmt::print("harmless: {}\n", fault_words(plan.circuit, each.fault));
    for (std::size_t i = 0; i < matrix.faults.size(); ++i) {
        fmt::print("{} {}:", fault_words(plan.circuit, matrix.faults[i].fault), static_cast<int>(matrix.harm[i]));
        row(matrix.cells[i]);
    }
    if (!readings) return;
    const std::vector<Setup> uses = normal_use(plan);
    for (const Candidate& each : all_faults(plan.circuit)) {
        const Predictor car(sound, each.fault, uses);
        fmt::print("{} harm {} blown", fault_words(plan.circuit, each.fault), static_cast<int>(complains(plan, sound, car)));
        for (const PartId part : car.blown_before())
            fmt::print(" {}", part);
        fmt::print("\n");
        for (const CheckPrediction& check : predict(plan, car)) {
            fmt::print("  {} {}", static_cast<int>(check.look), static_cast<int>(check.other));
            for (const Truth answer : check.answers)
                fmt::print(" {}", static_cast<int>(answer));
            fmt::print("\n");
            for (const RowPrediction& one : check.rows) {
                print_reading("r", one.reading);
                if (one.difference) print_reading("d", *one.difference);
            }
        }
    }
}

} // namespace

int main(int count, char** words) {
    const bool cells = count > 1 && std::strcmp(words[1], "--cells") == 0;
    const bool readings = count > 1 && std::strcmp(words[1], "--readings") == 0;
    for (int i = cells || readings ? 2 : 1; i < count; ++i) {
        Sources sources;
        RealDisk disk;
        const Analysis result = analyse(sources, disk, {words[i]});
        if (!result.unreadable.empty() || !result.usable()) {
            fmt::print("{} is not usable\n", words[i]);
            continue;
        }
        const Plan& plan = *result.plan;
        if (cells || readings) {
            print_cells(plan, readings);
            continue;
        }
        const auto begin = std::chrono::steady_clock::now();
        const Predictor sound(plan.circuit, system_volts(plan));
        const Matrix matrix = fault_matrix(plan, sound, predict(plan, sound));
        const double ms = std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
        fmt::print("  {:<30} {:4} faults, {:4} more are harmless, {:3} checks {:9.1f} ms\n", words[i], matrix.faults.size(),
                   matrix.harmless.size(), plan.checks.size(), ms);
    }
}
