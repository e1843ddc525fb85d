// What the commands share: plan after plan is analysed and its findings are said.
#pragma once
#include "analysis/analysis.hpp"
#include "commands/commands.hpp"
#include <functional>

namespace loomsheet {

struct Done {
    DiskError error;        // a file that could not be written
    std::string says;       // for `out`
    Findings findings = {}; // of what was made of the plan
};
// What is done with a plan that has no errors.
using Then = std::function<Done(const std::string& path, const Analysis& analysis)>;

struct Tongue { // where findings are said, and how
    std::ostream& stream;
    bool colour;
    Format format;
};
// Empty for JSON, which is one array at the end.
std::string rendered(const Sources& sources, const Findings& findings, const Tongue& tongue);

struct Tally {
    Exit exit = Exit::clean; // the gravest
    Findings findings;       // of all plans
    std::size_t well = 0;    // plans without errors, done to the end
    std::string json;        // the findings as an array, where that is the format; not said yet
};
// Each as far as `request` says, which names no path. A plan that cannot be read, or on which we fail ourselves, keeps none of the
// others from its turn.
Tally each_plan(const std::vector<std::string>& plans, const Surroundings& around, const Tongue& tongue, const Request& request,
                const Then& then);

} // namespace loomsheet
