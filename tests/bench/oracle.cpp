// The second opinion at length: `bench_oracle [-n CARS] [-k SOUND] [-s SEED] [-f FAULT] PLAN…`, or plans that are drawn: `-r PLANS`, `-w
// NUMBER` writes one. Prints its seed, what it compared, and every disagreement.
#include "oracle/program.hpp"
#include "oracle/random_plans.hpp"
#include <cstdlib>
#include <iostream>
#include <nlohmann/json.hpp>
#include <random>

namespace {

std::size_t draw(std::uint64_t seed, std::size_t plans, std::size_t cars) {
    std::cout << "seed " << seed << "\n";
    const oracle::Drawn drawn = oracle::hold_against_random(seed, plans, cars, std::cout);
    for (const std::string& each : drawn.refused)
        std::cout << "refused " << each << "\n";
    std::cout << drawn.plans << " plans drawn, " << drawn.cars << " cars walked, " << drawn.refused.size() << " refused, "
              << drawn.disagree.size() << " disagree\n";
    return drawn.disagree.size();
}

std::size_t hold(const std::string& file, const oracle::Asked& asked) {
    const oracle::Json all = oracle::prove(file);
    std::size_t found = 0;
    for (const oracle::Json& plan : all.at("plans")) {
        oracle::Opinion opinion = oracle::second_opinion(plan, asked);
        oracle::hold_against_planted(plan, file, asked.seed, opinion);
        std::cout << "seed " << asked.seed << ", ";
        print(std::cout, file, opinion);
        found += opinion.disagreements.size();
    }
    if (all.at("plans").empty()) std::cout << file << ": not proved\n" << all.at("findings").dump() << "\n";
    return found;
}

} // namespace

int main(int argc, char** argv) {
    oracle::Asked asked;
    asked.seed = std::random_device{}();
    asked.cars = 100000, asked.sound_cars = 2000;
    std::size_t found = 0;
    for (int i = 1; i < argc; ++i) {
        const std::string word = argv[i];
        if (!word.starts_with('-') || i + 1 == argc) {
            found += hold(word, asked);
            continue;
        }
        const auto number = std::strtoull(argv[++i], nullptr, 10);
        if (word == "-f") asked.only = argv[i];
        if (word == "-n")
            asked.cars = number;
        else if (word == "-k")
            asked.sound_cars = number;
        else if (word == "-s")
            asked.seed = number;
        else if (word == "-w")
            std::cout << oracle::random_plan(number);
        else if (word == "-r")
            found += draw(asked.seed, number, asked.cars);
    }
    return found > 0 ? 1 : 0;
}
