#include "commands/commands.hpp"
#include "source/catalogue.hpp"
#include <algorithm>
#include <cctype>
#include <fmt/format.h>
#include <ostream>

namespace loomsheet {

namespace {
// LS204, ls204 and 204 are the same; -1 when it is none of them.
int read_code(std::string_view typed) {
    if (typed.size() > 2 && std::tolower(typed[0]) == 'l' && std::tolower(typed[1]) == 's') typed.remove_prefix(2);
    const bool digits = std::all_of(typed.begin(), typed.end(), [](char c) { return c >= '0' && c <= '9'; });
    if (typed.empty() || typed.size() > 3 || !digits) return -1;
    int code = 0;
    for (const char digit : typed)
        code = 10 * code + (digit - '0');
    return code;
}

// The family's codes, or all of them when there is no such family.
std::string near(int code) {
    const auto family = [&](const CatalogueRow& row) { return code >= 0 && finding::family(row.code) == finding::family(code); };
    const bool known = std::any_of(catalogue().begin(), catalogue().end(), family);
    std::string list;
    for (const CatalogueRow& row : catalogue())
        if (!known || family(row)) list += fmt::format("\n  {}  {}", code_name(row.code), row.title);
    return list;
}
} // namespace

Exit explain(const Arguments& arguments, const Surroundings& around) {
    const int code = read_code(arguments.code);
    if (!find_in_catalogue(code)) return complain(around, fmt::format("there is no finding '{}'; there are{}", arguments.code, near(code)));
    around.out << finding_page(code);
    return Exit::clean;
}

} // namespace loomsheet
