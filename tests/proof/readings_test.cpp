// LS6xx: where each rule begins and where it ends. What each says, and the cure, is on its page in grammar/findings/.
#include "said.hpp"
#include <doctest/doctest.h>
#include <sstream>

using namespace loomsheet;

namespace {

// "LS601 LS601": without lines
std::string codes(const std::string& text) {
    std::istringstream words{said::codes(text)};
    std::string all;
    for (std::string word; words >> word;)
        if (word.starts_with("LS")) all += (all.empty() ? "" : " ") + word;
    return all;
}

std::string with_check(const std::string& circuit, const std::string& check) {
    return circuit + check + "  pass -> good\nverdict good \"All is well\"\n  blames nothing\n";
}

// A text with every `from` replaced; there must be one.
std::string with(std::string text, const std::string& from, const std::string& to) {
    auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    for (; at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

const std::string horn_circuit = R"(plan HORN-01 "Horn is silent"
battery G1 "Battery", 12.6 V
ground  XE1 "Left wing"
fuse    F1 "Horn", 15 A
switch  S1 "Horn button", at rest, at pressed 1/2
horn    H1 "Horn", 1/2 5 A
connector X1 "Horn plug", 2 pins, on H1
wire W1 G1.+ -> F1.1  2.5 mm2 0.4 m
wire W2 F1.2 -> S1.1  1.5 mm2 1.2 m
wire W3 S1.2 -> X1.1  1.5 mm2 1.5 m
wire W4 X1.2 -> XE1   1.5 mm2 0.3 m
wire W5 G1.- -> XE1   16 mm2  0.4 m
)";
std::string horn(const std::string& set_up, const std::string& measured) {
    return with_check(horn_circuit, "check horn \"Horn\"\n" + (set_up.empty() ? "" : "  with " + set_up + "\n") + measured);
}

const std::string relay_circuit = R"(plan LAMP-01 "Work lamp is dark"
battery G1 "Battery", 12.6 V
ground  XE1 "Left wing"
fuse    F1 "Work lamp", 10 A
relay   K1 "Lamp relay", coil 86/85 85 ohm ±10 %, contact 30/87
switch  S1 "Lamp switch", at off, at lit 1/2
lamp    E1 "Work lamp", 1/2 55 W at 12 V
wire W1 G1.+  -> F1.1  2.5 mm2 0.4 m
wire W2 F1.2  -> K1.30 1.5 mm2 0.5 m
wire W3 F1.2  -> S1.1  1 mm2   1.2 m
wire W4 S1.2  -> K1.86 1 mm2   1.2 m
wire W5 K1.85 -> XE1   1 mm2   0.5 m
wire W6 K1.87 -> E1.1  1.5 mm2 1.5 m
wire W7 E1.2  -> XE1   1.5 mm2 0.3 m
wire W8 G1.-  -> XE1   16 mm2  0.4 m
)";
std::string measured_with(const std::string& circuit, const std::string& set_up, const std::string& measured) {
    return with_check(circuit, "check lamp \"Lamp\"\n" + (set_up.empty() ? "" : "  with " + set_up + "\n") + measured);
}

const std::string fan_circuit = R"(plan FAN-01 "Fan stays still"
battery G1 "Battery", 12.6 V
ground  XE1 "Left wing"
fuse    F1 "Fan", 15 A
switch  S1 "Fan switch", at off, at fast 1/2
motor   M1 "Fan motor", 1/2 10 A
lamp    E1 "Tell-tale", 1/2 5 W at 12 V
wire W1 G1.+ -> F1.1 6 mm2  0.4 m
wire W2 F1.2 -> S1.1 6 mm2  0.6 m
wire W3 S1.2 -> M1.1 6 mm2  0.9 m
wire W4 M1.2 -> XE1  6 mm2  0.4 m
wire W5 G1.- -> XE1  16 mm2 0.4 m
wire W6 S1.2 -> E1.1 1 mm2  1.5 m
wire W7 E1.2 -> XE1  1 mm2  0.6 m
)";

const std::string sensor_circuit = R"(plan SPEED-01 "No speed signal"
battery G1 "Battery", 12.6 V
ground  XE1 "Left wing"
fuse    F1 "Sensor", 5 A
module  U1 "Control unit", supply 30, ground 31, draws 0.3 A, gives 72 5 V, pull-up 9 5 V 2.2 kohm
sensor  B1 "Speed sensor", hall 1/2/3, supply 1, ground 3
connector X1 "Sensor plug", 3 pins, on B1
wire W1 G1.+  -> F1.1  2.5 mm2 0.4 m
wire W2 F1.2  -> U1.30 1 mm2   1.2 m
wire W3 U1.31 -> XE1   1 mm2   0.8 m
wire W4 G1.-  -> XE1   16 mm2  0.4 m
wire W5 U1.72 -> X1.1  0.5 mm2 1.5 m
wire W6 X1.2  -> U1.9  0.5 mm2 1.5 m
wire W7 X1.3  -> XE1   0.5 mm2 0.6 m
)";

} // namespace

TEST_CASE("LS601 and LS602: a limit at the edge of the range passes, a digit inside it does not") {
    const auto expect = [](const std::string& limit) {
        return codes(horn("S1 pressed", "  volts X1.1 to X1.2\n  expect " + limit + "\n"));
    };
    INFO(said::of(horn("S1 pressed", "  volts X1.1 to X1.2\n  expect 12.2 .. 12.8 V\n")));
    CHECK(expect("11.58 .. 12.76 V") == "");
    CHECK(expect("11.59 .. 12.75 V") == "LS601");
    CHECK(expect("11.6 .. 12.76 V") == "LS601");
    CHECK(expect("above 11.5 V") == "");
    CHECK(expect("12.9 .. 13.2 V") == "LS602");
    CHECK(expect("12.2 .. 12.4 V not computed") == "");
    CHECK(expect("12.2 .. 12.4 V\n  allow LS601 \"The maker says so\"") == "");
}

TEST_CASE("LS601 tells a few from some, and names the row") {
    const std::string few = said::of(horn("S1 pressed", "  volts X1.1 to X1.2\n  expect 11.7 .. 13 V\n"));
    CHECK(few.find("a few of them fail") != std::string::npos);
    const std::string some = said::of(horn("S1 pressed", "  volts X1.1 to X1.2\n  expect 12.2 .. 13 V\n"));
    CHECK(some.find("some of them fail") != std::string::npos);
    const std::string rows =
        said::of(horn("S1 pressed", "  volts \"At the horn\" X1.1 to X1.2\n  volts \"At the fuse\" F1.2 to G1.-\n  expect 12 .. 13 V\n"));
    CHECK(rows.find("\"At the horn\": sound cars read") != std::string::npos);
    CHECK(rows.find("expect \"At the horn\" 11.5 .. 13 V") != std::string::npos);
    CHECK(rows.find("\"At the fuse\"") == std::string::npos);
}

TEST_CASE("LS601 against an earlier reading, and a beeper and a test lamp that may do either") {
    const std::string rest = "check rest \"At rest\"\n  volts part G1.+ to part G1.-\n  pass -> horn\n";
    const auto within = [&](const std::string& limit) {
        return with_check(horn_circuit,
                          rest + "check horn \"Horn\"\n  with S1 pressed\n  volts X1.1 to X1.2\n  expect within " + limit + " of rest\n");
    };
    CHECK(codes(within("1.2 V")) == "");
    CHECK(codes(within("0.3 V")) == "LS601");
    CHECK(codes(with(within("0.3 V"), "S1 pressed", "X1 unplugged")) == "LS605"); // and no word about the limit
    const std::string near_the_beep =
        with_check(relay_circuit, "check coil \"Coil\"\n  with K1 pulled\n  continuity part K1.86 to part K1.85\n  expect yes\n");
    CHECK(codes(near_the_beep) == "LS601");
    CHECK(codes(with(near_the_beep, "85 ohm ±10 %", "12 ohm")) == "");
    CHECK(codes(with(near_the_beep, "85 ohm ±10 %", "300 ohm")) == "LS602");
    CHECK(said::of(with(near_the_beep, "85 ohm ±10 %", "300 ohm")).find("on sound cars the meter is silent, and the limit is yes") !=
          std::string::npos);
    CHECK(codes(horn("", "  testlamp X1.1 to G1.-\n  expect yes\n")) == "LS602");
    CHECK(codes(horn("S1 pressed", "  testlamp X1.1 to G1.-\n  expect yes\n")) == "");
}

TEST_CASE("LS602: a look that no sound car passes") {
    CHECK(codes(horn("", "  look \"The horn sounds\": H1 works\n")) == "LS602");
    CHECK(codes(horn("S1 pressed", "  look \"The horn sounds\": H1 works\n")) == "");
    CHECK(codes(horn("", "  look \"The horn is silent\": H1 fails\n")) == "");
}

TEST_CASE("LS603: what the best battery gives is missed by nothing; a running engine may give more") {
    const auto expect = [](const std::string& limit) {
        return codes(with(horn("S1 pressed", "  volts X1.1 to X1.2\n  expect " + limit + "\n"), "12.6 V", "12.6 V ±0.2 V"));
    };
    CHECK(expect("below 12.8 V") == "LS603");
    CHECK(expect("below 12.79 V") == "");
    CHECK(expect("0 .. 12.8 V") == "LS603");
    CHECK(expect("above 0 V") == "LS603");
    CHECK(expect("0.1 .. 20 V") == "");
    const std::string charging = "  volts G1.+ to G1.-\n  expect below 15 V\n";
    CHECK(codes(with(horn("engine running", charging), "12.6 V", "12.6 V, 14.2 V when engine running")) == "");
    CHECK(codes(horn("", charging)) == "LS603");
}

TEST_CASE("LS604: the meter's own error, or the one that the plan says") {
    const std::string ohms = horn("", "  ohms X1.2 to XE1\n  expect below 0.7 ohm\n");
    CHECK(codes(ohms) == "LS604"); // 0.2 ohm and 0.5 ohm of leads, and 0.8 %
    CHECK(codes(with(ohms, "below 0.7", "below 0.8")) == "");
    const std::string drain = horn("", "  clamp G1.-\n  expect below 50 mA\n");
    CHECK(codes(drain) == "LS604");
    CHECK(codes(with(drain, "battery", "meter clamp ±10 mA\nbattery")) == "");
    CHECK(codes(horn("S1 pressed", "  drop X1.2 to XE1\n  expect below 2 mV\n")) == "LS604");
}

TEST_CASE("LS605: volts need something that joins the tips; a test lamp is simply dark") {
    CHECK(codes(horn("X1 unplugged", "  volts X1.1 to G1.-\n")) == "LS605");
    CHECK(codes(horn("X1 unplugged, load 21 W", "  volts X1.1 to G1.-\n  expect below 0.5 V\n")) == "");
    CHECK(codes(horn("X1 unplugged", "  testlamp X1.1 to G1.-\n  expect no\n")) == "");
    CHECK(codes(horn("", "  volts X1.1 to G1.-\n  expect below 0.5 V\n")) == ""); // the horn joins them
}

TEST_CASE("LS606: ohms along a wire that carries current") {
    const auto ground = [](const std::string& set_up) {
        return codes(measured_with(sensor_circuit, set_up, "  ohms U1.31 to XE1\n  expect below 2 ohm\n"));
    };
    CHECK(ground("") == "LS606");
    CHECK(ground("G1.- disconnected") == "");
    CHECK(ground("F1 pulled") == "");
    CHECK(codes(horn("", "  ohms X1.2 to XE1\n  expect below 2 ohm\n")) == ""); // nothing flows there
    CHECK(codes(measured_with(sensor_circuit, "", "  continuity U1.31 to XE1\n  expect yes\n")) == "LS606");
}

TEST_CASE("LS607: which lead lies on the plus side of the diode") {
    const std::string right =
        with_check(with(relay_circuit, "contact 30/87", "contact 30/87, diode 86/85"),
                   "check coil \"Coil\"\n  with K1 pulled\n  ohms part K1.86 to part K1.85\n  expect 60 .. 120 ohm\n");
    const std::string wrong = with(right, "part K1.86 to part K1.85", "part K1.85 to part K1.86");
    CHECK(codes(right) == "");
    CHECK(codes(wrong) == "LS607");
    CHECK(codes(with(wrong, ", diode 86/85", "")) == "");
    CHECK(codes(with(wrong, "diode 86/85", "diode 85/86")) == "");
    const std::string along = with(with(wrong, "part K1.85 to part K1.86", "K1.85 to S1.2"), "K1 pulled", "F1 pulled"); // through W4
    CHECK(codes(along) == "LS607");
}

TEST_CASE("LS608: only where the limit holds for the lit lamp") {
    const auto bulb = [](const std::string& limit) {
        return codes(measured_with(relay_circuit, "E1 pulled", "  ohms part E1.1 to part E1.2\n" + limit));
    };
    CHECK(bulb("  expect 2 .. 3.5 ohm\n") == "LS608");
    CHECK(bulb("  expect below 3.5 ohm\n") == "");
    CHECK(bulb("  expect 20 .. 30 ohm\n") == "LS602");
    CHECK(bulb("") == "");
}

TEST_CASE("LS609 and LS610: ten amperes, and two per cent") {
    const auto amps = [](const std::string& load) {
        return codes(with(horn("S1 pressed, F1 pulled", "  amps through F1\n"), "1/2 5 A", "1/2 " + load));
    };
    CHECK(amps("4 A") == "");
    CHECK(amps("6 A") == "LS610");
    CHECK(amps("10 A") == "LS609");
    CHECK(codes(with(horn("S1 pressed", "  clamp W2\n"), "1/2 5 A", "1/2 10 A")) == "");
    CHECK(said::of(with(horn("S1 pressed, F1 pulled", "  amps through F1\n"), "1/2 5 A", "1/2 10 A")).find("write `clamp W2`") !=
          std::string::npos);
}

TEST_CASE("LS611: a way round, with a written limit and with a computed one") {
    const auto winding = [](const std::string& set_up, const std::string& limit) {
        return codes(measured_with(fan_circuit, set_up, "  ohms M1.1 to M1.2\n" + limit));
    };
    CHECK(winding("F1 pulled", "  expect below 5 ohm\n") == "LS611");
    CHECK(winding("F1 pulled", "  expect below 1.5 ohm\n") == ""); // the lamp alone has more
    CHECK(winding("F1 pulled", "") == "");
    CHECK(winding("F1 pulled, E1 pulled", "  expect below 5 ohm\n") == "");
    CHECK(winding("F1 pulled", "  expect below 5 ohm not computed\n") == "");
    const std::string beep = measured_with(fan_circuit, "F1 pulled", "  continuity S1.2 to XE1\n");
    CHECK(codes(beep) == "LS611");
    CHECK(said::of(beep).find("with M1 open this still beeps") != std::string::npos);
    // either of two grounds hides the other
    const std::string two = with(sensor_circuit, "ground 31,", "ground 31 32,") + "wire W8 U1.32 -> XE1 1 mm2 0.8 m\n";
    CHECK(codes(measured_with(two, "F1 pulled", "  ohms U1.31 to XE1\n  expect below 2 ohm\n")) == "LS611");
}

TEST_CASE("LS612: a drop needs its current, and milliamperes are some") {
    CHECK(codes(horn("", "  drop X1.2 to G1.-\n")) == "LS612");
    CHECK(codes(horn("S1 pressed", "  drop X1.2 to G1.-\n")) == "");
    CHECK(codes(measured_with(sensor_circuit, "", "  drop X1.3 to G1.-\n  expect below 50 mV\n")) == ""); // what the sensor draws
    CHECK(codes(measured_with(sensor_circuit, "F1 pulled", "  drop X1.3 to G1.-\n  expect below 50 mV\n")) == "LS612");
}

TEST_CASE("LS613: nobody looks at the ground of what draws amperes") {
    const std::string to_body = measured_with(fan_circuit, "S1 at fast", "  volts M1.1 to ground\n  expect 11 .. 13 V\n");
    CHECK(codes(to_body) == "LS613");
    CHECK(codes(with(to_body, "to ground", "to M1.2")) == "");
    CHECK(codes(with(to_body, "1/2 10 A", "1/2 0.7 A")) == "");
    CHECK(codes(with(to_body, "S1 at fast", "S1 at fast, G1.- disconnected")).find("LS613") == std::string::npos);
    const std::string looked_at = with(to_body, "  pass -> good\n",
                                       "  pass -> ground-drop\ncheck ground-drop \"Ground side\"\n  with S1 at fast\n  "
                                       "drop M1.2 to G1.-\n  pass -> good\n");
    CHECK(codes(looked_at) == "");
    CHECK(codes(measured_with(fan_circuit, "S1 at fast", "  volts part G1.+ to ground\n  expect 11 .. 13 V\n")) ==
          ""); // the battery is meant
}

TEST_CASE("LS614: where it surely pulls in lies inside what it gets") {
    const std::string fed = measured_with(relay_circuit, "S1 at lit", "  volts E1.1 to E1.2\n");
    CHECK(codes(fed) == "");
    const std::string in_series =
        with(with(fed, "K1.85 -> XE1 ", "K1.85 -> E2.1"), "lamp    E1", "lamp    E2 \"Tell-tale\", 1/2 2.5 W at 12 V\nlamp    E1");
    const std::string grounded = with(in_series, "wire W6", "wire W9 E2.2 -> XE1 1 mm2 0.5 m\nwire W6");
    CHECK(codes(grounded) == "LS614");
    CHECK(codes(with(grounded, "contact 30/87", "contact 30/87, pulls in at 7 V")) == "");
    CHECK(codes(with(grounded, "2.5 W", "21 W")) == "");
    CHECK(codes(with(grounded, "2.5 W", "1.2 W")) == "LS616"); // gets too little to pull in, and enough to hold
    const std::string unit = measured_with(sensor_circuit, "", "  volts U1.30 to U1.31\n");
    CHECK(codes(unit) == "");
    CHECK(codes(with(unit, "draws 0.3 A", "draws 0.3 A, needs 12.5 V")) == "LS614");
}

TEST_CASE("LS615: a buzzer, unless it is fed by nothing or its limit is not computed") {
    const std::string buzzer = with(with(relay_circuit, "contact 30/87", "contact 30/87/87a"), "F1.2  -> S1.1", "K1.87a -> S1.1");
    const std::string volts = "  volts K1.86 to K1.85\n";
    CHECK(codes(measured_with(buzzer, "S1 at lit", volts)) == "LS615");
    CHECK(said::of(measured_with(buzzer, "S1 at lit", volts)).find("K1 (Lamp relay) pulls in and lets go") != std::string::npos);
    CHECK(codes(measured_with(buzzer, "", volts + "  expect below 0.5 V\n")) == "");
    CHECK(codes(measured_with(buzzer, "S1 at lit", volts + "  expect 4 .. 8 V not computed\n")) == "");
    CHECK(codes(measured_with(buzzer, "S1 at lit, K1 pulled", volts + "  expect below 0.5 V\n")) == "LS605");
}

TEST_CASE("LS616: a relay that holds itself is certain while it is fed, or pulled") {
    const std::string holds = relay_circuit + "wire W9 K1.87 -> K1.86 1 mm2 0.1 m\n";
    const std::string volts = "  volts E1.1 to E1.2\n";
    CHECK(codes(measured_with(holds, "", volts)) == "LS616");
    CHECK(said::of(measured_with(holds, "", volts)).find("once on, K1 (Lamp relay) holds itself") != std::string::npos);
    CHECK(codes(measured_with(holds, "S1 at lit", volts)) == "");
    CHECK(codes(measured_with(holds, "K1 pulled", volts + "  expect below 0.5 V\n")) == "");
}

TEST_CASE("LS601 and LS602: a look that a sound car may answer with NO, or always does") {
    const std::string look = horn("S1 pressed", "  look \"The horn sounds\": H1 works\n");
    CHECK(codes(look) == "");
    CHECK(codes(with(look, "1/2 5 A", "1/2 5 A, needs 12.4 V")) == "LS601");
    CHECK(said::of(with(look, "1/2 5 A", "1/2 5 A, needs 12.4 V")).find("needs 12.4 V and gets 1") != std::string::npos);
    CHECK(codes(horn("", "  look \"The horn sounds\": H1 works\n")) == "LS602");
}

TEST_CASE("LS617: two tenths of a volt in a wire, five in a starter cable") {
    const std::string look = horn("S1 pressed", "  look \"The horn sounds\": H1 works\n");
    const std::string thin = with(with(look, "X1.1  1.5 mm2 1.5 m", "X1.1  0.75 mm2 LENGTH"), "15 A", "10 A");
    CHECK(codes(with(thin, "LENGTH", "1.4 m")) == "");
    CHECK(codes(with(thin, "LENGTH", "1.8 m")) == "LS617");
    CHECK(codes(with(thin, "LENGTH", "")) == "");
    CHECK(codes(with(with(thin, "LENGTH", "1.8 m"), "  with S1 pressed\n  look \"The horn sounds\": H1 works",
                     "  with F1 pulled\n  look \"F1 is whole\": F1 whole")) == "");
    const std::string starter = "plan ST-01 \"Will not crank\"\nbattery G1 \"Battery\", 12.6 V\nground XE1 "
                                "\"Block\"\nswitch S1 \"Key\", 30/50 closed when key crank\n"
                                "motor M1 \"Starter\", 1/2 150 A, needs 8 V\nwire W1 G1.+ -> S1.30 35 mm2 LENGTH unfused\nwire W2 "
                                "S1.50 -> M1.1 50 mm2 0.2 m unfused\nwire W3 M1.2 -> XE1 50 mm2 0.2 m\n"
                                "wire W4 G1.- -> XE1 50 mm2 0.3 m\n";
    const std::string cranks = with_check(starter, "check cranks \"Starter\"\n  with key crank\n  look \"It cranks\": M1 runs\n");
    CHECK(codes(with(cranks, "LENGTH", "4 m")) == "");
    CHECK(codes(with(cranks, "LENGTH", "8 m")) == "LS617");
}

TEST_CASE("LS618: a fuse holds a tenth more than its rating") {
    const std::string both =
        with_check(with(horn_circuit, "15 A", "10 A") +
                       "switch S2 \"Second button\", at rest, at pressed 1/2\nhorn H2 \"Low horn\", 1/2 5 A\n"
                       "wire W6 F1.2 -> S2.1 1.5 mm2 1.2 m\nwire W7 S2.2 -> H2.1 1.5 mm2 1.5 m\nwire W8 H2.2 -> XE1 1.5 mm2 0.3 "
                       "m\n",
                   "check both \"Both\"\n  with S1 pressed, S2 pressed\n  look \"Both sound\": H1 works and H2 works\n");
    CHECK(codes(both) == ""); // 10 A
    CHECK(codes(with(both, "\"Horn\", 10 A", "\"Horn\", 7.5 A")) == "LS618");
    CHECK(codes(with(with(both, "\"Horn\", 10 A", "\"Horn\", 7.5 A"), ", S2 pressed\n  look \"Both sound\": H1 works and H2 works",
                     "\n  look \"It sounds\": H1 works")) == "");
    // one horn that is too large for its fuse: LS409 gives way, unless it is allowed since the horn sounds for a moment
    // only
    const std::string one = with(horn("S1 pressed", "  look \"The horn sounds\": H1 works\n"), "15 A", "4 A");
    CHECK(codes(with(one, "4 A", "7.5 A")) == "");
    CHECK(codes(with(one, "4 A", "5 A")) == "LS409");
    CHECK(codes(one) == "LS618");
    CHECK(codes(with(one, "4 A", "4 A, allow LS409 \"Some seconds at most\"")) == "");
}

TEST_CASE("LS619 and LS620: what a Hall sensor says is not computed while it is plugged in") {
    const auto signal = [](const std::string& set_up, const std::string& points, const std::string& limit) {
        return codes(measured_with(sensor_circuit, set_up, "  volts " + points + "\n" + limit));
    };
    CHECK(signal("", "X1.2 to X1.3", "  expect 4.5 .. 5.5 V\n") == "LS619");
    CHECK(signal("", "U1.9 to G1.-", "  expect 4.5 .. 5.5 V\n") == "LS619"); // the same metal, at its other end
    CHECK(signal("", "X1.2 to X1.3", "  expect 4.5 .. 5.5 V not computed\n") == "");
    CHECK(signal("", "X1.2 to X1.3", "  expect 4.5 .. 5.5 V\n  allow LS619 \"Seen on the car\"\n") == "");
    CHECK(signal("", "X1.2 to X1.3", "") == "LS620");
    CHECK(signal("X1 unplugged", "X1.2 to X1.3", "") == ""); // the pull-up
    CHECK(signal("", "X1.1 to X1.3", "") == "");
    CHECK(codes(horn("engine running", "  volts G1.+ to G1.-\n")) == "LS620");
    CHECK(codes(horn("engine running", "  volts G1.+ to G1.-\n  expect 13.5 .. 14.8 V\n")) == "LS619");
}

TEST_CASE("LS621: leads the wrong way round, with a limit and without") {
    CHECK(codes(horn("S1 pressed", "  volts X1.2 to X1.1\n  expect 11.5 .. 13 V\n")) == "LS621");
    CHECK(codes(horn("S1 pressed", "  volts X1.2 to X1.1\n  expect above 11 V\n")) == "LS621");
    CHECK(codes(horn("S1 pressed", "  volts X1.2 to X1.1\n")) == "LS621");
    CHECK(codes(horn("S1 pressed", "  drop X1.1 to F1.2\n  expect below 0.5 V\n")) == "LS621");
    CHECK(codes(horn("S1 pressed", "  volts X1.2 to X1.1\n  expect 11.5 .. 13 V not computed\n")) == "");
    CHECK(codes(horn("", "  volts X1.2 to X1.1\n  expect below 0.5 V\n")) == ""); // 0 V
}
