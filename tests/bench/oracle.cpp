// The second opinion at length: `oracle [-n CARS] [-s SEED] PLAN…`. Prints its seed, what it compared, and every disagreement.
#include "commands/process.hpp"
#include "oracle/planted.hpp"
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <iostream>
#include <random>
#include <string>

int main(int argc, char** argv) {
    oracle::Asked asked;
    asked.seed = std::random_device{}();
    asked.cars = 100000, asked.sound_cars = 2000;
    std::size_t found = 0;
    for (int i = 1; i < argc; ++i) {
        const std::string word = argv[i];
        if ((word == "-n" || word == "-s" || word == "-k") && i + 1 < argc) {
            const auto number = std::strtoull(argv[++i], nullptr, 10);
            if (word == "-n") asked.cars = number;
            else if (word == "-k") asked.sound_cars = number;
            else asked.seed = number;
            continue;
        }
        const Ran ran = run_program({"proof", "--format", "json", word});
        const oracle::Json all = oracle::Json::parse(ran.out);
        for (const oracle::Json& plan : all.at("plans")) {
            oracle::Opinion opinion = oracle::second_opinion(plan, asked);
            for (const oracle::Planted& each : oracle::plantable(oracle::read_plan(plan)))
                oracle::hold_against(plan, each, run_program({"predict", "--fault", each.words, word}).out, asked.seed, opinion);
            std::cout << "seed " << asked.seed << ", ";
            print(std::cout, word, opinion);
            found += opinion.disagreements.size();
        }
        if (all.at("plans").empty()) std::cout << word << ": not proved\n" << all.at("findings").dump() << "\n";
    }
    return found > 0 ? 1 : 0;
}
