// What print and proof share: plan after plan is compiled and its findings are said.
#pragma once
#include "commands/commands.hpp"
#include "proof/compile.hpp"
#include <functional>

namespace loomsheet {

struct Done {
    DiskError error;  // a file that could not be written
    std::string says; // for `out`
};
// What is done with a plan that has no errors; may add findings.
using Then = std::function<Done(const std::string& path, Compiled& compiled)>;

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
// `fault` is put into each, see `compile`. A plan that cannot be read, or on which we fail ourselves, keeps none of the
// others from its turn.
Tally each_plan(const std::vector<std::string>& plans, const Surroundings& around, const Tongue& tongue,
                const Then& then, const std::string& fault = {});

} // namespace loomsheet
