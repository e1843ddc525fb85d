// The way in one function: what is made again when a plan changes, how far it goes, and how it is given up.
#include "analysis/analysis.hpp"
#include "model/digest.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

std::string file(const std::string& path) {
    RealDisk disk;
    std::string text;
    REQUIRE(disk.read(std::string(LOOMSHEET_ROOT) + "/" + path, text).empty());
    return text;
}

std::string with(std::string text, const std::string& old, const std::string& now) {
    const auto at = text.find(old);
    REQUIRE_MESSAGE(at != std::string::npos, old);
    return text.replace(at, old.size(), now);
}

struct Desk { // where the same plan is analysed again and again
    Kept kept;
    Sources sources;
    Analysis analyse(const std::string& text, Until until = Until::proved) {
        MemoryDisk disk;
        disk.files["test.plan"] = text;
        return loomsheet::analyse(sources, disk, {"test.plan", {}, until}, kept);
    }
    std::string made() const { return std::to_string(kept.predictions.made()) + " " + std::to_string(kept.matrices.made()); }
};

const std::string horn = R"(plan HORN-01 "Horn is silent"
complaint "B1 is silent" E1 works
battery G1 12.6 V
ground XE1
fuse F1 15 A
switch S1 1/2 released/pressed
horn E1 1/2 5 A
wire W1 G1.+ -> F1.1 2.5 mm2 red
wire W2 F1.2 -> S1.1 1.5 mm2 red
wire W3 S1.2 -> E1.1 1.5 mm2 blue
wire W4 E1.2 -> XE1 1.5 mm2 black
wire W5 XE1 -> G1.- 10 mm2 black
)";

} // namespace

TEST_CASE("words alone make nothing anew, and findings stand where the words now are") {
    Desk desk;
    const std::string fan = file("plans/cooling/fan-usual.plan");
    const Analysis first = desk.analyse(fan);
    REQUIRE(first.usable());
    REQUIRE(!first.proof_findings.empty());
    CHECK(desk.made() == "1 1");

    const std::string longer = "# one line more\n" + with(fan, first.plan->title, first.plan->title + ", always");
    const Analysis second = desk.analyse(longer);
    CHECK(desk.made() == "1 1");
    CHECK(second.plan->title == first.plan->title + ", always");
    REQUIRE(second.proof_findings.list().size() == first.proof_findings.list().size());
    for (std::size_t i = 0; i < first.proof_findings.list().size(); ++i) {
        const Diagnostic &before = first.proof_findings.list()[i], &now = second.proof_findings.list()[i];
        CHECK(now.says == before.says);
        CHECK(desk.sources[now.at.file].position(now.at.begin).line == desk.sources[before.at.file].position(before.at.begin).line + 1);
    }
}

TEST_CASE("what a reading depends on makes it anew: of every word that is left out, none is read") {
    Desk desk;
    const std::string fan = file("plans/cooling/fan-usual.plan");
    const Analysis first = desk.analyse(fan, Until::walked);
    REQUIRE(first.usable());
    const Plan& plan = *first.plan;
    // A wire that is thinner, a limit that is tighter.
    Plan thinner = plan;
    thinner.circuit.wires.front().area->si /= 2;
    CHECK(told_to_the_meter(thinner) != told_to_the_meter(plan));
    Plan other = plan;
    other.checks.front().measure = MeasureKind::nothing;
    CHECK(told_to_the_meter(other) != told_to_the_meter(plan));
    // Every text for people gone: the same readings, the same outcomes.
    Plan bare = plan;
    bare.id = bare.title = bare.vehicle = bare.complaint = {};
    bare.cautions.clear(), bare.notes.clear(), bare.codes.clear(), bare.questions.clear();
    for (Part& part : bare.circuit.parts)
        part.place = {}, part.notes.clear(), part.cautions.clear(), part.how = {};
    for (Wire& wire : bare.circuit.wires)
        wire.notes.clear();
    for (Check& check : bare.checks)
        check.title = {}, check.cautions.clear(), check.notes.clear(), check.steps.clear(), check.time.reset();
    CHECK(told_to_the_meter(bare) == told_to_the_meter(plan));
    const Predictor sound(bare.circuit, system_volts(bare));
    const Matrix matrix = fault_matrix(bare, sound, predict(bare, sound));
    CHECK(matrix.cells == first.diagnosis->matrix.cells);
    CHECK(matrix.sound == first.diagnosis->matrix.sound);
}

TEST_CASE("it goes as far as it is asked to, and no farther than a plan with errors lets it") {
    Desk desk;
    const std::string fan = file("plans/cooling/fan-usual.plan");
    const Analysis predicted = desk.analyse(fan, Until::predicted);
    CHECK(predicted.prediction);
    CHECK(!predicted.diagnosis);
    CHECK(desk.made() == "1 0");
    const Analysis walked = desk.analyse(fan, Until::walked);
    CHECK(walked.diagnosis);
    CHECK(walked.proof_findings.empty());
    CHECK(desk.made() == "1 1");
    const Analysis broken = desk.analyse(with(horn, "fuse F1 15 A", "fuse F1 15 V"));
    CHECK(!broken.usable());
    CHECK(broken.plan);
    CHECK(!broken.sound);
    MemoryDisk empty;
    CHECK(!analyse(desk.sources, empty, {"none.plan"}).unreadable.empty());
}

TEST_CASE("whoever waits gives up, and what was kept is whole") {
    Desk desk;
    std::stop_source held;
    held.request_stop();
    MemoryDisk disk;
    disk.files["test.plan"] = file("plans/cooling/fan-usual.plan");
    CHECK_THROWS_AS(analyse(desk.sources, disk, {"test.plan", {}, Until::proved}, desk.kept, held.get_token()), Stopped);
    CHECK(desk.made() == "0 0");
    CHECK(desk.analyse(disk.files["test.plan"]).usable());
    CHECK(desk.made() == "1 1");
}
