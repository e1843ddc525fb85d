#include "commands/run.hpp"
#include <cstdlib>
#include <iostream>
#include <string_view>
#include <unistd.h>

namespace {
// NO_COLOR counts when it is set and not empty, whatever it says.
bool set(const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr && *value != '\0';
}
bool dumb_terminal() {
    const char* term = std::getenv("TERM");
    return term == nullptr || std::string_view(term) == "dumb";
}
} // namespace

int main(int argc, char** argv) {
    std::ios::sync_with_stdio(false);
    const bool colour = !set("NO_COLOR") && !dumb_terminal();
    const bool err_terminal = isatty(STDERR_FILENO) == 1;
    loomsheet::RealDisk disk;
    const loomsheet::Exit exit = loomsheet::run(argc, argv,
                                                {.disk = disk,
                                                 .out = std::cout,
                                                 .err = std::cerr,
                                                 .out_colour = colour && isatty(STDOUT_FILENO) == 1,
                                                 .err_colour = colour && err_terminal,
                                                 .progress = err_terminal && !dumb_terminal()});
    return static_cast<int>(exit);
}
