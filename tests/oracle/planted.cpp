#include "oracle/planted.hpp"
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <sstream>

namespace oracle {
namespace {

constexpr double added = 5; // ohm
constexpr std::size_t cars = 12;

const std::map<std::string, double>& units() {
    static const std::map<std::string, double> all = {{"V", 1},       {"mV", 1e-3},  {"A", 1},      {"mA", 1e-3}, {"ohm", 1},
                                                      {"mohm", 1e-3}, {"kohm", 1e3}, {"Mohm", 1e6}, {"kV", 1e3}};
    return all;
}

// Bytes up to so many characters.
std::size_t bytes(const std::string& line, std::size_t characters) {
    std::size_t at = 0;
    for (; at < line.size() && characters > 0; ++at)
        if (at + 1 == line.size() || (static_cast<unsigned char>(line[at + 1]) & 0xC0) != 0x80) --characters;
    return at;
}

Printed parsed(const std::string& words) {
    Printed made{words, {}, {}};
    const std::size_t open = words.find('('), dots = words.find(" .. ");
    if (open == std::string::npos || dots == std::string::npos) return made;
    std::istringstream in(words.substr(open + 1, words.find(')') - open - 1));
    double low = 0, high = 0;
    std::string between, unit;
    in >> low >> between;
    if (between != "..") unit = between, in >> between;
    in >> high >> unit;
    const auto times = units().find(unit);
    if (times != units().end()) made.low = low * times->second, made.high = high * times->second;
    return made;
}

} // namespace

std::vector<Planted> plantable(const Plan& plan) {
    std::vector<Planted> list;
    const auto add = [&](const std::string& name, const Point& at) {
        list.push_back({name + " open", {name + " open", "open", "", at, {}, {}, 0}});
        list.push_back({name + " 5 ohm", {name + " 5 ohm", "added", "", at, {}, Quantity{added, 0, "ohm"}, 0}});
    };
    for (std::size_t i = 0; i < plan.parts.size(); ++i) {
        const Part& part = plan.parts[i];
        if (part.kind == "connector" || part.kind == "part" || part.kind == "assembly" || part.elements.size() > 1 || part.kind == "module")
            continue;
        add(part.id, {"whole", static_cast<int>(i), none, none, {}});
    }
    for (std::size_t i = 0; i < plan.wires.size(); ++i)
        add(plan.wires[i].id, {"whole", none, none, static_cast<int>(i), {}});
    return list;
}

std::vector<Printed> read_predicted(const std::string& text) {
    std::vector<Printed> made;
    std::istringstream lines(text);
    std::size_t from = std::string::npos, to = 0;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("check ")) {
            from = line.find("must read"), to = line.find("limits");
            continue;
        }
        if (from == std::string::npos || line.empty()) continue;
        std::string words = line.substr(bytes(line, from), bytes(line, to) - bytes(line, from));
        words.erase(words.find_last_not_of(' ') + 1);
        made.push_back(parsed(words));
    }
    return made;
}

void hold_against(const Json& proved, const Planted& planted, const std::string& predicted, std::uint64_t seed, Opinion& opinion) {
    const std::vector<Printed> printed = read_predicted(predicted);
    if (printed.empty()) return; // refused: that is an answer
    const Plan plan = read_plan(proved);
    const Usual usual(proved.at("usual"));
    const Loom loom(plan, usual);
    Dice first(seed, Manner::uniform);
    const Damage damage = damage_of(loom, planted.fault, first);
    if (damage.changes_nothing()) return;
    Workshop shop(loom, damage);
    for (std::size_t n = 0; n < cars; ++n) {
        Dice values(seed + n, n % 2 == 0 ? Manner::uniform : Manner::corner), hand(seed + cars + n, Manner::uniform);
        Car car(loom, values, damage, hand);
        Technician technician(shop, car, hand);
        technician.use_before();
        std::size_t line = 0;
        for (const Check& check : plan.checks) {
            if (check.rows.empty()) {
                ++line;
                continue;
            }
            for (std::size_t r = 0; r < check.rows.size() && line < printed.size(); ++r, ++line) {
                const Printed& says = printed[line];
                if (!says.low || !setting_of(check.with).understood) continue;
                const Reading mine = technician.read(check, check.rows[r]);
                ++opinion.readings;
                if (mine.kind != Reading::Kind::number && mine.kind != Reading::Kind::open) continue;
                const double step = 0.0051 * std::max(1.0, std::abs(mine.value));
                if (mine.kind == Reading::Kind::open || mine.shown < *says.low - step || mine.shown > *says.high + step)
                    opinion.add("predict", planted.words,
                                fmt::format("{} row {}: {} here, {} there", check.label, r + 1,
                                            mine.kind == Reading::Kind::open ? "open" : fmt::format("{:.3f}", mine.shown), says.words));
            }
        }
    }
}

} // namespace oracle
