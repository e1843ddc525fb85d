// The trial of the plans that ship, whole: 100 000 cars each, or LOOMSHEET_CARS; measured figures beside those that
// proof prints. It ends with 1 where a promise of proof is broken.
#include "faults/trial.hpp"
#include "proof/compile.hpp"
#include "source/disk.hpp"
#include <chrono>
#include <cstdio>
#include <cstdlib>

using namespace loomsheet;

int main(int count, char** paths) {
    const char* asked = std::getenv("LOOMSHEET_CARS");
    const std::size_t cars = asked ? std::strtoul(asked, nullptr, 10) : 100000;
    bool kept = true;
    for (int i = 1; i < count; ++i) {
        Sources sources;
        RealDisk disk;
        const CompileResult result = compile(sources, disk, paths[i]);
        if (!result.unreadable.empty() || !result.compiled.usable()) return 1;
        const Plan& plan = result.compiled.plan;
        const Diagnosis diagnosis =
            diagnose(plan, Predictor(plan.circuit, system_volts(plan)), result.compiled.prediction);
        const auto begin = std::chrono::steady_clock::now();
        const lab::TrialResult trial = lab::trial(plan, diagnosis, cars, 20261125);
        const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
        std::printf("%s, %.0f s: %s\n", paths[i], seconds, lab::trial_words(diagnosis.figures, trial).c_str());
        const std::string broken = lab::broken_promises(diagnosis.figures, trial);
        if (!broken.empty()) std::printf("  NOT KEPT: %s\n", broken.c_str());
        kept &= broken.empty();
        for (const std::string& each : trial.worst)
            std::printf("  %s\n", each.c_str());
    }
    return kept ? 0 : 1;
}
