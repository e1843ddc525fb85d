// How long a whole proof takes, in process: the matrix with its ranges, the walk, the findings. bench_proof PLAN ...: of plans;
// without any: of looms that are made here, growing in nodes, faults and checks. One thread.
#include "analysis/analysis.hpp"
#include "proof/verdicts.hpp"
#include <chrono>
#include <fmt/format.h>

using namespace loomsheet;

namespace {

// So many lamps, each behind its fuse, a switch and a plug of the loom, all from one bar; the checks take the lamps in turn, each
// one of five places along its way. Any lamp that is dark may be complained of.
std::string loom(int lamps, int checks) {
    std::string text = "plan GEN-1 \"Generated\"\n  complaint \"Some lamp is dark\"\n  system 12 V\n"
                       "battery G1 12.6 V, inner 6 mohm\nground XE1\nwire WB G1.- -> XE1 16 mm2 BK 0.4 m\nsplice J0 \"Bar\", joins";
    for (int i = 1; i <= lamps; ++i)
        text += fmt::format(" F{}.1", i);
    text += "\nwire WA G1.+ -> J0 16 mm2 RD 0.5 m unfused\n";
    for (int i = 1; i <= lamps; ++i)
        text += fmt::format(
            "fuse F{0} 10 A, type C\nswitch S{0}\n  1/2 closed when key on\nlamp H{0} 1/2 21 W\nconnector X{0}0 1 pins, mates X{0}1\n"
            "wire W{0}1 F{0}.2 -> S{0}.1 1.5 mm2 RD 1 m\nwire W{0}2 S{0}.2 -> X{0}0.1 1.5 mm2 RD/WH 1 m\n"
            "wire W{0}3 X{0}1.1 -> H{0}.1 1.5 mm2 RD/BK 1 m\nwire W{0}4 H{0}.2 -> XE1 1.5 mm2 BN 1 m\n",
            i);
    const char* places[] = {"volts F{0}.2 to G1.-", "volts S{0}.2 to G1.-", "volts X{0}0.1 to G1.-", "volts H{0}.1 to G1.-",
                            "drop H{0}.2 to G1.-"};
    for (int c = 0; c < checks; ++c) {
        const bool drop = c / lamps % 5 == 4;
        text += fmt::format("check c{} \"{}\"\n  with key on\n  {}\n  expect {}\n  pass -> {}\n  fail -> suspects\n", c, c,
                            fmt::format(fmt::runtime(places[c / lamps % 5]), c % lamps + 1), drop ? "below 0.5 V" : "above 11 V",
                            c + 1 < checks ? fmt::format("c{}", c + 1) : "well");
    }
    return text + "verdict well \"Nothing is wrong\"\n  blames nothing\n";
}

double ms_since(std::chrono::steady_clock::time_point begin) {
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
}

void measure(const std::string& name, Sources& sources, Disk& disk, const std::string& path) {
    auto begin = std::chrono::steady_clock::now();
    Analysis result = analyse(sources, disk, {path});
    const double compiled = ms_since(begin);
    if (!result.unreadable.empty() || !result.usable()) {
        fmt::print("{} is not usable\n", name);
        return;
    }
    const Plan& plan = *result.plan;
    double best = 1e30;
    Findings findings;
    std::size_t faults = 0, others = 0;
    for (int turn = 0; turn < 3; ++turn) {
        begin = std::chrono::steady_clock::now();
        const Predictor sound(plan.circuit, system_volts(plan));
        const Diagnosis diagnosis = diagnose(plan, sound, *result.prediction);
        findings = {};
        prove_verdicts(plan, sound, diagnosis, findings);
        best = std::min(best, ms_since(begin));
        faults = diagnosis.matrix.faults.size(), others = diagnosis.matrix.harmless.size();
    }
    const std::size_t nodes = build_graph(plan.circuit).nodes.size();
    fmt::print("  {:<32} {:4} nodes {:5} faults ({} cause it) {:4} checks: proof {:8.1f} ms, compiled in {:.1f} ms\n", name, nodes,
               faults + others, faults, plan.checks.size(), best, compiled);
    std::fflush(stdout);
}

} // namespace

int main(int count, char** words) {
    for (int i = 1; i < count; ++i) {
        Sources sources;
        RealDisk disk;
        measure(words[i], sources, disk, words[i]);
    }
    if (count > 1) return 0;
    for (const auto& [lamps, checks] : {std::pair{8, 25}, {8, 50}, {8, 100}, {16, 100}, {24, 100}}) {
        Sources sources;
        MemoryDisk disk;
        disk.files["loom.plan"] = loom(lamps, checks);
        measure(fmt::format("{} lamps", lamps), sources, disk, "loom.plan");
    }
}
