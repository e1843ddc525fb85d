// Small plans, each of one thing that is easily got wrong, on which the second opinion must agree with what the program says.
#include "oracle/program.hpp"
#include <doctest/doctest.h>
#include <nlohmann/json.hpp>
#include <sstream>

using namespace oracle;

namespace {

const std::string plans = LOOMSHEET_ROOT "/tests/oracle/plans/";

Opinion opinion_on(const std::string& file, const Asked& asked, bool planted) {
    const Json all = prove(file);
    INFO(all.at("findings").dump(1));
    REQUIRE(all.at("plans").size() == 1);
    const Json& proved = all.at("plans").front();
    Opinion opinion = second_opinion(proved, asked);
    if (planted) hold_against_planted(proved, file, asked.seed, opinion);
    return opinion;
}

void agrees(const std::string& file, bool planted = false, const std::string& only = "") {
    Asked asked;
    asked.seed = 20261129, asked.cars = 1200, asked.sound_cars = 200, asked.each_harmless = 6, asked.old_batteries = 0, asked.only = only;
    const Opinion opinion = opinion_on(file, asked, planted);
    std::ostringstream words;
    print(words, file, opinion);
    CHECK(opinion.walked > 0);
    CHECK_MESSAGE(opinion.disagreements.empty(), words.str());
}

} // namespace

TEST_CASE("A battery that wears out sends cars to a wrong part, and that is seen") {
    Asked asked;
    asked.seed = 1, asked.cars = 1, asked.sound_cars = 1, asked.each_harmless = 0, asked.only = "none of them";
    CHECK(opinion_on(LOOMSHEET_ROOT "/plans/starting/starter.plan", asked, false).count("not tried") > 0);
}
TEST_CASE("A horn between loud and silent answers YES or NO") { agrees(plans + "horn-weak.plan"); }
TEST_CASE("Some cars of a band rattle, others do not") { agrees(plans + "fan-rattles.plan"); }
TEST_CASE("A dead control unit answers nobody") { agrees(plans + "unit-dead.plan"); }
TEST_CASE("A short behind a driver blows the fuse") { agrees(plans + "lamp-driver.plan"); }
TEST_CASE("A welded make contact holds the armature in") {
    agrees(plans + "relay-welded.plan");
    agrees(plans + "motor-brake.plan");
}
TEST_CASE("A ground point that is open or poor parts all that is bolted to it") {
    agrees(plans + "two-grounds.plan", true);
    agrees(plans + "ground-side.plan", true);
}
TEST_CASE("Of two equal fuses in series either may blow") { agrees(plans + "fuses-in-series.plan"); }
TEST_CASE("A drop with a minus sign is read again with the leads swapped") { agrees(plans + "engine-strap.plan"); }
TEST_CASE("An ohmmeter of few volts reads open across a diode") { agrees(plans + "diode-ohms.plan"); }
TEST_CASE("Open is more than any number of ohms") { agrees(plans + "open-line.plan"); }
TEST_CASE("A case that is bolted to a ground point loses its metal with it") { agrees(plans + "bolted-case.plan", true); }
TEST_CASE("A driver that follows a button needs the button's wires") { agrees(plans + "button-to-unit.plan", true); }
TEST_CASE("No current counts where all rows are within their limits") { agrees(plans + "rows-no-current.plan"); }
TEST_CASE("Where a current branches off on the way, one sees it and another does not") { agrees(plans + "current-at-splice.plan"); }
TEST_CASE("A motor that stands in the usual car turns in others") { agrees(plans + "motor-just-turns.plan", true); }
TEST_CASE("A test lamp of more or less watts lets a unit live or die") { agrees(plans + "lamp-feeds-unit.plan"); }
TEST_CASE("A diode that blocks in the usual car conducts at the ends of a band") { agrees(plans + "coil-past-diode.plan"); }
TEST_CASE("What rattles answers a look NO, and complains for part of the time") { agrees(plans + "unit-starves.plan"); }
TEST_CASE("A control unit of 24 V needs twice the volts of one of 12 V") { agrees(plans + "unit-of-24-volts.plan"); }
TEST_CASE("The winding of a solenoid that is shorted blows the fuse before it") {
    agrees(LOOMSHEET_ROOT "/plans/starting/starter.plan", false, "K2.50/31 shorted inside");
}
