// Random cars on the printed plans: what proof calls sound never blames the wrong thing.
#include "trial.hpp"
#include "proof/compile.hpp"
#include "source/disk.hpp"
#include <cstdlib>
#include <doctest/doctest.h>

using namespace loomsheet;

TEST_CASE("cars with one fault each walk the proved plans: none ends with a wrong part") {
    std::string path;
    SUBCASE("fan") { path = "/plans/cooling/fan.plan"; }
    SUBCASE("starter") { path = "/plans/starting/starter.plan"; }
    Sources sources;
    RealDisk disk;
    const CompileResult result = compile(sources, disk, LOOMSHEET_ROOT + path);
    REQUIRE(result.compiled.usable());
    const Plan& plan = result.compiled.plan;
    const Diagnosis diagnosis = diagnose(plan, Predictor(plan.circuit, system_volts(plan)), result.compiled.prediction);
    REQUIRE(diagnosis.figures.wrong == 0);
    const char* asked = std::getenv("LOOMSHEET_CARS");
    const std::size_t cars = asked ? std::strtoul(asked, nullptr, 10) : 1000;
    const lab::TrialResult trial = lab::trial(plan, diagnosis, cars, 20261125);
    std::string worst;
    for (const std::string& each : trial.worst)
        worst += "\n" + each;
    MESSAGE(trial.cars, " cars: found ", trial.found, ", stopped ", trial.stopped, ", missed ", trial.missed, ", wrong ", trial.wrong, worst);
    CHECK(trial.cars == cars);
    CHECK(trial.wrong == 0);
    CHECK(trial.missed == 0);
}
