#include "commands/each_plan.hpp"
#include "commands/gather.hpp"
#include "proof/blind.hpp"
#include "proof/gaps.hpp"
#include "proof/matrix_table.hpp"
#include "proof/proof_json.hpp"
#include "proof/reading_table.hpp"
#include "proof/splits.hpp"
#include "proof/summary.hpp"
#include "proof/verdicts.hpp"
#include "source/render.hpp"
#include <fmt/format.h>
#include <ostream>

namespace loomsheet {

namespace {
// For people: the answer first, what to write into the plan last.
std::string told(const Plan& plan, const Predictor& sound, const Prediction& prediction, const Diagnosis& diagnosis, bool with_matrix) {
    std::string text = fmt::format("{} {}\n{}\n", plan.id, plan.title, diagnosis_summary(plan, diagnosis));
    text += smallest_table(plan, sound, diagnosis) + "\n" + reading_table(plan, prediction) + "\n";
    if (with_matrix) text += matrix_table(plan, diagnosis.matrix) + "\n";
    const std::string gaps = gaps_table(plan, sound, diagnosis);
    if (!gaps.empty()) text += gaps + "\n";
    const std::string splits = splits_table(plan, sound, diagnosis);
    return splits.empty() ? text : text + splits + "\n";
}
} // namespace

Exit proof(const Arguments& arguments, const Surroundings& around) {
    const auto [plans, error] = gather(around.disk, arguments.plans);
    if (!error.empty()) return complain(around, error);
    std::string objects; // of the plans, as JSON
    const Tally tally = each_plan(plans, around, {around.out, around.out_colour, arguments.format}, [&](const std::string&, Compiled& compiled) {
        Plan& plan = compiled.plan;
        const Predictor sound(plan.circuit, system_volts(plan));
        const Diagnosis diagnosis = diagnose(plan, sound, compiled.prediction);
        prove_verdicts(plan, diagnosis, compiled.findings);
        if (arguments.format == Format::json) objects += (objects.empty() ? "" : ",\n") + proof_json(plan, sound, compiled.prediction, diagnosis);
        if (arguments.format != Format::text) return Done{};
        return Done{{}, told(plan, sound, compiled.prediction, diagnosis, arguments.matrix)};
    });
    if (arguments.format == Format::json) around.out << fmt::format("{{\"plans\": [{}],\n\"findings\": {}}}\n", objects, tally.json);
    if (arguments.format == Format::text) {
        const std::string what = plans.size() == 1 ? shown_name(plans.front()) : fmt::format("{} plans", plans.size());
        around.out << fmt::format("{}: {}\n", what, summary(tally.findings));
    }
    return tally.exit;
}

} // namespace loomsheet
