// Random cars on the printed plans: what proof calls sound never blames the wrong thing, and its figures are kept.
#include "proof/compile.hpp"
#include "source/disk.hpp"
#include "trial.hpp"
#include <cstdlib>
#include <doctest/doctest.h>

using namespace loomsheet;

TEST_CASE("cars with one fault each walk the plans that ship: none ends with a wrong part, and the figures of proof "
          "are kept") {
    const char* asked = std::getenv("LOOMSHEET_CARS");
    const std::size_t cars = asked ? std::strtoul(asked, nullptr, 10) : 500;
    for (const char* path : {"cooling/fan.plan", "starting/starter.plan", "trailer/socket-13.plan"}) {
        CAPTURE(path);
        Sources sources;
        RealDisk disk;
        const CompileResult result = compile(sources, disk, std::string(LOOMSHEET_ROOT "/plans/") + path);
        REQUIRE(result.compiled.usable());
        const Plan& plan = result.compiled.plan;
        const Diagnosis diagnosis =
            diagnose(plan, Predictor(plan.circuit, system_volts(plan)), result.compiled.prediction);
        REQUIRE(diagnosis.figures.wrong == 0);
        const lab::TrialResult trial = lab::trial(plan, diagnosis, cars, 20261125);
        std::string worst;
        for (const std::string& each : trial.worst)
            worst += "\n" + each;
        CHECK(trial.cars == cars);
        CHECK_MESSAGE(lab::broken_promises(diagnosis.figures, trial) == "", lab::trial_words(diagnosis.figures, trial),
                      worst);
    }
}
