#include "circuit/fault.hpp"
#include "commands/each_plan.hpp"
#include "commands/gather.hpp"
#include "proof/reading_table.hpp"
#include <fmt/format.h>

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
    const Tongue tongue{around.err, around.err_colour, arguments.format};
    const Tally tally = each_plan(
        plans, around, tongue,
        [&](const std::string&, Compiled& compiled) {
            const Plan& plan = compiled.plan;
            const std::string name = fmt::format("{} {}", plan.id, plan.title);
            const Predictor sound(plan.circuit, system_volts(plan));
            if (!plan.asked)
                return Done{{}, fmt::format("{}: sound\n{}", name, reading_table(plan, predict(plan, sound)))};
            const Fault& fault = *plan.asked;
            const Predictor faulty(sound, fault, normal_use(plan));
            return Done{{},
                        fmt::format("{}: {}\n{}{}", name, fault_words(plan.circuit, fault),
                                    blown_words(plan.circuit, faulty.blown_before()),
                                    reading_table(plan, predict(plan, faulty)))};
        },
        arguments.fault);
    around.err << tally.json;
    return tally.exit;
}

} // namespace loomsheet
