// The plans that ship are proved, need each of their checks, and each of their verdicts is held to what it blames. A
// plan that lacks a check or blames something else is walked with the matrix of the plan as it is: what a check
// measures stays the same.
#include "analysis/analysis.hpp"
#include "faults/diagnosis.hpp"
#include "proof/verdicts.hpp"
#include <algorithm>
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

struct Shipped {
    std::string name;
    Analysis made;
    const Plan& plan;
    const Predictor& sound;
    const Diagnosis& diagnosis;
    Findings findings;

    explicit Shipped(const std::string& path)
        : name(path), made(analysed(path)), plan(*made.plan), sound(*made.sound), diagnosis(*made.diagnosis), findings(made.findings) {
        findings.add(made.proof_findings);
    }

private:
    static Analysis analysed(const std::string& path) {
        Sources sources;
        RealDisk disk;
        Analysis result = analyse(sources, disk, {LOOMSHEET_ROOT "/plans/" + path, {}, Until::proved});
        REQUIRE_MESSAGE(result.unreadable.empty(), result.unreadable);
        REQUIRE(result.usable());
        return result;
    }
};

// Proved once for all tests: nothing here changes them.
const std::vector<std::unique_ptr<Shipped>>& proved_plans() {
    static const std::vector<std::unique_ptr<Shipped>> plans = [] {
        std::vector<std::unique_ptr<Shipped>> made;
        for (const char* path : {"cooling/fan.plan", "starting/starter.plan", "trailer/socket-13.plan"})
            made.push_back(std::make_unique<Shipped>(path));
        return made;
    }();
    return plans;
}

// A plan that differs in where it leads, or in what it blames.
struct Variant {
    Plan plan;
    Diagnosis diagnosis;
    Findings findings;
    Variant(const Shipped& of, Plan changed, Matrix matrix)
        : plan(std::move(changed)), diagnosis(diagnose(plan, of.sound, std::move(matrix))) {
        prove_verdicts(plan, of.sound, diagnosis, findings);
    }
};

const Target& pass_of(const Check& check) {
    for (const Outcome& outcome : check.outcomes)
        if (outcome.kind == OutcomeKind::pass) return outcome.target;
    static const Target stop{TargetKind::suspects, none, {}, false, {}};
    return stop;
}

bool leads_to(const Target& target, int check) {
    return (target.kind == TargetKind::check || target.kind == TargetKind::next) && target.index == check;
}

// What led to the check leads to where its pass did. Of the first check the next takes the place.
Variant without(const Shipped& of, int deleted) {
    Plan plan = of.plan;
    Matrix matrix = of.diagnosis.matrix;
    const Target on = pass_of(plan.checks[deleted]);
    for (Check& check : plan.checks)
        for (Outcome& outcome : check.outcomes)
            if (leads_to(outcome.target, deleted)) outcome.target = on;
    for (Verdict& verdict : plan.verdicts)
        if (leads_to(verdict.then, deleted)) verdict.then = on;
    if (deleted == 0) {
        REQUIRE((on.kind == TargetKind::check || on.kind == TargetKind::next));
        plan.checks[0] = plan.checks[on.index];
        matrix.sound[0] = matrix.sound[on.index];
        for (auto& cells : matrix.cells)
            cells[0] = cells[on.index];
    }
    return Variant(of, std::move(plan), std::move(matrix));
}

// Findings of cars that end where they should not.
std::string refuted(const Findings& findings) {
    std::string text;
    for (const Diagnostic& finding : findings.list())
        if (finding.code == 701 || finding.code == 707 || finding.code == 708) text += finding.says + "\n";
    return text;
}

// The figures of which more is better.
std::vector<double> worth(const Figures& figures) {
    const Isolation& told = figures.isolation;
    return {figures.found, told.to_one, told.to_two, told.to_three, told.first_right, -told.group, -told.tries};
}
bool falls(const Figures& from, const Figures& to) {
    const std::vector<double> before = worth(from), after = worth(to);
    for (std::size_t i = 0; i < before.size(); ++i)
        if (after[i] < before[i] - 1e-9) return true;
    return false;
}

bool is_walked(const Diagnosis& diagnosis, int check) {
    return std::any_of(diagnosis.steps.begin(), diagnosis.steps.end(), [&](const Taken& step) { return step.check == check; });
}

PointRef point_of(const Circuit& circuit, const Suspect& suspect) {
    PointRef point;
    if (suspect.wire != none) {
        point.wire = suspect.wire;
    } else if (suspect.joint != none) {
        point.part = circuit.pins[suspect.joint].part, point.pin = suspect.joint, point.metal = Metal::joint;
    } else {
        point.part = suspect.part, point.metal = Metal::whole;
    }
    return point;
}

// Those that end at a verdict; then those that do not.
std::pair<std::vector<Suspect>, std::vector<Suspect>> suspects_by_end(const Diagnosis& diagnosis, int verdict) {
    std::vector<Suspect> here, elsewhere;
    const auto add = [](std::vector<Suspect>& list, const Suspect& suspect) {
        if (std::find(list.begin(), list.end(), suspect) == list.end()) list.push_back(suspect);
    };
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i)
        for (const Ending& ending : diagnosis.ends[i].endings)
            if (ending.verdict == verdict) add(here, diagnosis.matrix.faults[i].suspect);
    for (const Candidate& fault : diagnosis.matrix.faults)
        if (std::find(here.begin(), here.end(), fault.suspect) == here.end()) add(elsewhere, fault.suspect);
    return {here, elsewhere};
}

} // namespace

TEST_CASE("the plans that ship are proved: no finding, no verdict that does not hold, no car called sound") {
    for (const auto& shipped : proved_plans()) {
        CAPTURE(shipped->name);
        CHECK_MESSAGE(shipped->findings.empty(), refuted(shipped->findings));
        CHECK(shipped->diagnosis.figures.wrong == 0);
        CHECK(shipped->diagnosis.figures.missed == 0);
        CHECK_FALSE(shipped->diagnosis.figures.false_alarm);
        CHECK(shipped->diagnosis.figures.found > 0.95); // the rest are stops where a control unit starts and stops, and a reading jumps
    }
}

TEST_CASE("each check of a plan that ships is needed: without it something is blamed wrongly, called sound, or told "
          "less far apart") {
    for (const auto& shipped : proved_plans())
        for (int check = 0; check < static_cast<int>(shipped->plan.checks.size()); ++check) {
            if (!is_walked(shipped->diagnosis, check)) continue; // it proves a repair
            CAPTURE(shipped->name);
            CAPTURE(shipped->plan.checks[check].label);
            const Variant variant = without(*shipped, check);
            CHECK((!refuted(variant.findings).empty() || falls(shipped->diagnosis.figures, variant.diagnosis.figures)));
        }
}

TEST_CASE("a check that no car comes to proves repairs") {
    for (const auto& shipped : proved_plans())
        for (int check = 0; check < static_cast<int>(shipped->plan.checks.size()); ++check) {
            if (is_walked(shipped->diagnosis, check)) continue;
            CAPTURE(shipped->name);
            CAPTURE(shipped->plan.checks[check].label);
            CHECK(std::any_of(shipped->plan.verdicts.begin(), shipped->plan.verdicts.end(), [&](const Verdict& verdict) {
                return std::find(verdict.after.begin(), verdict.after.end(), check) != verdict.after.end();
            }));
        }
}

TEST_CASE("a verdict that blames something else is refuted by a fault that it blamed, with its readings") {
    for (const auto& shipped : proved_plans())
        for (int verdict = 0; verdict < static_cast<int>(shipped->plan.verdicts.size()); ++verdict) {
            CAPTURE(shipped->name);
            CAPTURE(shipped->plan.verdicts[verdict].label);
            const auto [here, elsewhere] = suspects_by_end(shipped->diagnosis, verdict);
            for (const std::size_t pick : {std::size_t{0}, elsewhere.size() / 2, elsewhere.size() - 1}) {
                const std::string blamed = suspect_point(shipped->plan.circuit, elsewhere[pick]);
                CAPTURE(blamed);
                Plan plan = shipped->plan;
                Verdict& changed = plan.verdicts[verdict];
                changed.blames = {point_of(plan.circuit, elsewhere[pick])}, changed.blamed_runs.clear(), changed.blamed_words.clear();
                changed.blames_nothing = false;
                const Variant variant(*shipped, std::move(plan), shipped->diagnosis.matrix);
                if (here.empty()) { // only sound cars end there, or it says what a car needs before its readings count
                    CHECK((variant.diagnosis.figures.false_alarm || shipped->plan.verdicts[verdict].then.kind == TargetKind::check));
                    continue;
                }
                const std::string said = refuted(variant.findings);
                CHECK_MESSAGE(std::any_of(here.begin(), here.end(),
                                          [&](const Suspect& suspect) {
                                              const std::string point = suspect_point(shipped->plan.circuit, suspect);
                                              return said.find("With " + point + " ") != std::string::npos ||
                                                     said.find(" in " + point + ": ") != std::string::npos;
                                          }),
                              said);
            }
        }
}

TEST_CASE("the usual way to test the fan is tried on the circuit of the fan plan, word for word") {
    const auto circuit_of = [](const std::string& path) {
        RealDisk disk;
        std::string text;
        REQUIRE(disk.read(LOOMSHEET_ROOT "/plans/cooling/" + path, text).empty());
        const auto begin = text.find("\naccess shield"), end = text.find("\nsetup called:");
        REQUIRE(begin < end);
        REQUIRE(end != std::string::npos);
        return text.substr(begin, end - begin);
    };
    CHECK(circuit_of("fan-usual.plan") == circuit_of("fan.plan"));
}
