// Circuits and plans drawn for tests.
#pragma once
#include "drawing/collisions.hpp"
#include "sheet/blocks/circuit_drawing.hpp"
#include <string>
#include <vector>

namespace drawn {

const loomsheet::drawing::Measure& measure();       // by the sheet's typefaces
loomsheet::Plan plan(const std::string& text);      // what is wrong with it is left out
loomsheet::Plan plan_file(const std::string& path); // with what it uses
std::vector<std::string> all_plans();               // shipped ones and those of the tests
std::vector<loomsheet::drawing::Picture> circuit(const loomsheet::Plan& plan, loomsheet::drawing::Area area = {});
// The numbers of its checks are 1, 2, 3 ...
loomsheet::drawing::Probes probes(const loomsheet::Plan& plan);
// All that is drawn, as text.
std::string dump(const std::vector<loomsheet::drawing::Picture>& pictures);
// Fails the running test for each collision, each wire and each wired pin that is not drawn.
void check_whole(const loomsheet::Plan& plan, const std::vector<loomsheet::drawing::Picture>& pictures, loomsheet::drawing::Area area = {});

} // namespace drawn
