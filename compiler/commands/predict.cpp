#include "circuit/fault.hpp"
#include "commands/each_plan.hpp"
#include "commands/gather.hpp"
#include "proof/reading_table.hpp"
#include "report/reading_json.hpp"
#include <fmt/format.h>
#include <ostream>

namespace loomsheet {

namespace {
std::string blown_words(const Circuit& circuit, const std::vector<PartId>& blown) {
    std::string words;
    for (const PartId part : blown)
        words += fmt::format("{} has blown before the first check.\n", circuit.part_name(part));
    return words;
}
} // namespace

Exit predict(const Arguments& arguments, const Surroundings& around) {
    const auto [plans, error] = gather(around.disk, arguments.plans);
    if (!error.empty()) return complain(around, error);
    const bool for_programs = arguments.format == Format::json;
    std::string objects; // of the plans, as JSON
    const auto told = [&](const Plan& plan, const Predictor& car, const Prediction& readings) {
        const std::string fault = car.fault() ? fault_words(plan.circuit, *car.fault()) : std::string();
        if (!for_programs)
            return fmt::format("{} {}: {}\n{}{}", plan.id, plan.title, fault.empty() ? "sound" : fault,
                               blown_words(plan.circuit, car.blown_before()), reading_table(plan, readings));
        objects += (objects.empty() ? "" : ",\n") + predict_json(plan, car, fault, readings);
        return std::string();
    };
    const Tongue tongue{around.err, around.err_colour, arguments.format};
    const Tally tally =
        each_plan(plans, around, tongue, {{}, arguments.fault, Until::predicted}, [&](const std::string&, const Analysis& made) {
            const Plan& plan = *made.plan;
            if (!plan.asked) return Done{{}, told(plan, *made.sound, *made.prediction)};
            const Predictor car(*made.sound, *plan.asked, normal_use(plan));
            return Done{{}, told(plan, car, predict(plan, car))};
        });
    if (for_programs) around.out << fmt::format("{{\"plans\": [{}],\n\"findings\": {}}}\n", objects, tally.json);
    return tally.exit;
}

} // namespace loomsheet
