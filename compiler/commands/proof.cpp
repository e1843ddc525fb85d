#include "commands/each_plan.hpp"
#include "commands/gather.hpp"
#include "proof/reading_table.hpp"
#include "proof/summary.hpp"
#include "proof/verdicts.hpp"
#include "source/render.hpp"
#include <fmt/format.h>
#include <ostream>

namespace loomsheet {

Exit proof(const Arguments& arguments, const Surroundings& around) {
    const auto [plans, error] = gather(around.disk, arguments.plans);
    if (!error.empty()) return complain(around, error);
    const Tally tally = each_plan(plans, around, {around.out, around.out_colour, arguments.format},
                                  [&](const std::string&, Compiled& compiled) {
                                      Plan& plan = compiled.plan;
                                      const Predictor sound(plan.circuit, system_volts(plan));
                                      const Diagnosis diagnosis = diagnose(plan, sound, compiled.prediction);
                                      prove_verdicts(plan, diagnosis, compiled.findings);
                                      if (arguments.format != Format::text) return Done{};
                                      return Done{{}, fmt::format("{} {}\n{}\n{}\n", plan.id, plan.title, diagnosis_summary(plan, diagnosis),
                                                                  reading_table(plan, compiled.prediction))};
                                  });
    if (arguments.format == Format::text) {
        const std::string what = plans.size() == 1 ? shown_name(plans.front()) : fmt::format("{} plans", plans.size());
        around.out << fmt::format("{}: {}\n", what, summary(tally.findings));
    }
    return tally.exit;
}

} // namespace loomsheet
