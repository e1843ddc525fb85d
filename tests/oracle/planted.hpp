// `predict --fault` held against cars with that fault: for every thing of the plan that can be open or poor, by its own list.
#pragma once
#include "oracle/opinion.hpp"

namespace oracle {

struct Planted {
    std::string words; // as `--fault` takes them
    Fault fault;
};
// Every part, wire, joint, ground point and splice, open and with 5 ohm in it.
std::vector<Planted> plantable(const Plan& plan);

// What `predict` prints in its column "must read", a line a row of a check.
struct Printed {
    std::string words;
    std::optional<double> low, high; // V, A, ohm; none where no number is said
};
std::vector<Printed> read_predicted(const std::string& text);

// `predicted` is what the program printed for the fault; empty where it refused it.
void hold_against(const Json& proved, const Planted& planted, const std::string& predicted, std::uint64_t seed, Opinion& opinion);

} // namespace oracle
