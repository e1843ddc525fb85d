#include "commands/each_plan.hpp"
#include "commands/gather.hpp"
#include "proof/reading_table.hpp"
#include "source/render.hpp"
#include <fmt/format.h>
#include <ostream>

namespace loomsheet {

Exit proof(const Arguments& arguments, const Surroundings& around) {
    const auto [plans, error] = gather(around.disk, arguments.plans);
    if (!error.empty()) return complain(around, error);
    const Tally tally = each_plan(plans, around, {around.out, around.out_colour, arguments.format},
                                  [&](const std::string&, Compiled& compiled) {
                                      if (arguments.format != Format::text) return Done{};
                                      const Plan& plan = compiled.plan;
                                      return Done{{}, fmt::format("{} {}\n{}\n", plan.id, plan.title,
                                                                  reading_table(plan, compiled.prediction))};
                                  });
    if (arguments.format == Format::text) {
        const std::string what = plans.size() == 1 ? shown_name(plans.front()) : fmt::format("{} plans", plans.size());
        around.out << fmt::format("{}: {}\n", what, summary(tally.findings));
    }
    return tally.exit;
}

} // namespace loomsheet
