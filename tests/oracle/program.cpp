#include "oracle/program.hpp"
#include "commands/process.hpp"
#include "oracle/planted.hpp"
#include "oracle/random_plans.hpp"
#include "scratch.hpp"
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <sstream>

namespace oracle {

Json prove(const std::string& file) { return Json::parse(run_program({"proof", "--format", "json", file}).out); }

Json prove_text(const std::string& text) {
    Surround surround;
    surround.input = text;
    return Json::parse(run_program({"proof", "--format", "json", "-"}, surround).out);
}

std::string predict(const std::string& file, const std::string& fault) { return run_program({"predict", "--fault", fault, file}).out; }

void hold_against_planted(const Json& proved, const std::string& file, std::uint64_t seed, Opinion& opinion, std::size_t first,
                          std::size_t nth) {
    const std::vector<Planted> all = plantable(read_plan(proved));
    for (std::size_t i = first; i < all.size(); i += nth)
        hold_against(proved, all[i], predict(file, all[i].words), seed, opinion);
}

namespace {

std::string first_error(const Json& all) {
    for (const Json& each : all.at("findings"))
        if (each.value("weight", each.value("severity", "")) == "error") return each.dump();
    return all.at("findings").empty() ? "no plan" : all.at("findings").front().dump();
}

} // namespace

Drawn hold_against_random(std::uint64_t first, std::size_t count, std::size_t cars, std::ostream& out) {
    constexpr std::size_t planted_of_all = 12;
    Drawn made;
    const Scratch scratch;
    for (std::uint64_t seed = first; seed < first + count; ++seed) {
        const std::string file = scratch.write("drawn.plan", random_plan(seed));
        const Json all = prove(file);
        if (all.at("plans").empty()) {
            made.refused.push_back(fmt::format("{}: {}", seed, first_error(all)));
            continue;
        }
        const Json& proved = all.at("plans").front();
        Asked asked;
        asked.seed = seed, asked.cars = cars, asked.sound_cars = 30, asked.each_harmless = 1, asked.old_batteries = 0;
        Opinion opinion = second_opinion(proved, asked);
        hold_against_planted(proved, file, seed, opinion, seed % planted_of_all, planted_of_all);
        ++made.plans, made.cars += opinion.walked;
        if (opinion.disagreements.empty()) continue;
        std::ostringstream said;
        print(said, fmt::format("plan {}", seed), opinion);
        out << said.str();
        made.disagree.push_back(said.str());
    }
    return made;
}

} // namespace oracle
