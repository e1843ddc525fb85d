// The commands, one a file.
#pragma once
#include "commands/args.hpp"
#include "commands/run.hpp"

namespace loomsheet {

Exit print(const Arguments& arguments, const Surroundings& around);
Exit proof(const Arguments& arguments, const Surroundings& around);
Exit predict(const Arguments& arguments, const Surroundings& around);
Exit explain(const Arguments& arguments, const Surroundings& around);

// Says on `err` what keeps the command from being done.
Exit complain(const Surroundings& around, const std::string& says);

} // namespace loomsheet
