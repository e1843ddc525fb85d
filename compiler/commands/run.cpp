#include "commands/run.hpp"
#include "commands/options.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <ostream>

namespace loomsheet {

namespace {
Exit obey(int argc, const char* const* argv, const Surroundings& around) {
    const ArgumentsResult read = read_arguments(argc, argv);
    if (!read.arguments) {
        (read.asked ? around.out : around.err) << read.says;
        return read.asked ? Exit::clean : Exit::usage;
    }
    return read.arguments->command->run(*read.arguments, around);
}
} // namespace

Exit complain(const Surroundings& around, const std::string& says) {
    around.err << fmt::format("loomsheet: {}\n", says);
    return Exit::usage;
}

Exit run(int argc, const char* const* argv, const Surroundings& around) {
    const Exit exit = obey(argc, argv, around);
    around.out.flush();
    if (around.out) return exit;
    return std::max(exit, complain(around, "standard output cannot be written to its end"));
}

} // namespace loomsheet
