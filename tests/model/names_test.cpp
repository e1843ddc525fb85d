// LS112 to LS115, LS2xx, LS501, LS508 and LS901 as the model finds them: where, in which words, with what help; and one
// message a cause.
#include "model/built.hpp"
#include <algorithm>
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {
const std::string base = "battery G1 12.6 V\nfuse F1 \"Fan\" 10 A\nmotor M3 1/2 22 A\nground XE1\nswitch S4\n  at "
                         "rest\n  at up 30/A\n"; // 7 lines

struct Mistake {
    const char *text, *places, *says, *help;
};
void hold(const Mistake& row) {
    const Built built(base + row.text);
    CHECK_MESSAGE(built.places() == std::string(row.places), std::string(row.text), "\n", built.said());
    if (built.places() == "") return;
    const auto told = [](const Diagnostic& finding) { return severity_of(finding) != Severity::note; };
    const Diagnostic& first = *std::find_if(built.findings.list().begin(), built.findings.list().end(), told);
    CHECK_MESSAGE(first.says.find(row.says) != std::string::npos, std::string(row.text), "\n", first.says);
    CHECK_MESSAGE(first.help.find(row.help) != std::string::npos, std::string(row.text), "\n", first.help);
}
} // namespace

TEST_CASE("names and pins that are not there") {
    const Mistake rows[] = {
        {"wire W1 G1.+ -> F2.1\n", "LS201@8:17", "nothing is called `F2`", "did you mean `F1`"},
        {"wire W1 G1.+ -> Q77.1\n", "LS201@8:17", "nothing is called `Q77`", "declare it in the circuit"},
        {"wire W1 G1.+ -> F1.3\n", "LS204@8:17", "F1 has no pin `3`", "its pins are 1, 2"},
        {"wire W1 G1.+ -> F1\n", "LS204@8:17", "at which pin of F1 does the wire end?", "F1.1, F1.2"},
        {"wire W1 G1.+ -> XE1.1\n", "LS204@8:17", "XE1 has no pins", "write `XE1` alone"},
        {"wire W1 G1.+ -> F1.\n", "LS204@8:17", "after `F1.` the pin is missing", "F1.1"},
        {"connector X8 26 pins, mates X9\nwire W1 G1.+ -> X8.45\n", "LS204@9:17", "X8 has 26 pins, there is no X8.45", "X8.1 to X8.26"},
        {"wire W1 G1.+ -> ground\n", "LS203@8:17", "a wire ends at a pin, a splice or a ground point, not at `ground`", ""},
        {"wire W1 G1.+ -> joint F1.1\n", "LS203@8:17", "not at `joint F1.1`", ""},
        {"wire W1 F1.1 -> W1.1\n", "LS203@8:17", "`W1` is a wire; here comes a part", ""},
        {"also F2 at \"box\"\n", "LS201@8:6", "nothing is called `F2`", "did you mean `F1`"},
        {"splice J1 joins J1\n", "LS203@8:17", "J1 cannot join itself", ""},
        {"cable C1 W9\n", "LS201@8:10", "no wire is called `W9`", ""},
        {"connector X1 2 pins, on XE1\n", "LS203@8:25", "`XE1` is a ground; a plug sits on a part", "`mates`"},
        {"motor M4 1/2 2 A, 2 on F1\n", "LS203@8:24", "`F1` is a fuse, not a ground point", ""},
        {"motor M4 1/2 2 A, in F1\n", "LS203@8:22", "`F1` is a fuse, not an assembly", "`pins`"},
        {"motor M4 1/1 2 A\n", "LS203@8:10", "`1/1` names the same pin twice", ""},
        {"motor M4 1/2 2 A, behind shield\n", "LS508@8:26", "no access panel is called `shield`", "declare it: access shield"},
        {"verdict a blames F7\n", "LS201@8:18", "nothing is called `F7`", "did you mean `F1`"},
        {"verdict a blames F1 -> b\n", "LS211@8:24", "no check is called `b`", ""},
        {"verdict a blames F1 after a\n", "LS203@8:27", "`a` is a verdict; a repair is proved by a check", "label of a check"},
        {"check a look \"x\": M3 runs pass -> bb\nverdict bc blames F1\n", "LS211@8:35", "no check and no verdict is called `bb`",
         "did you mean `bc`?"},
        {"check a look \"x\" with up\n", "LS501@8:23", "no set-up is called `up`", "declare it: setup up: key on"},
        {"check a look \"x\" with a\n", "LS501@8:23", "no set-up is called `a`", "`a` is a check"},
    };
    for (const Mistake& row : rows)
        hold(row);
}

TEST_CASE("declared twice, in every name space") {
    const Mistake rows[] = {
        {"fuse F1 5 A\n", "LS202@8:6", "the name `F1` is declared twice", "another name"},
        {"wire F1 G1.+ -> XE1\n", "LS202@8:6", "`F1` is declared twice", ""},
        {"wire W1 G1.+ -> XE1\nfuse W1 5 A\n", "LS202@9:6", "`W1` is declared twice", ""},
        {"wire W1 G1.+ -> XE1\ncable W1 W1\n", "LS202@9:7", "`W1` is declared twice", ""},
        {"connector X1 2 pins, mates F1\n", "LS202@8:28", "`F1` is declared a second time by `mates`", ""},
        {"connector X1 2 pins, mates X2\nconnector X2 2 pins, mates X1\n", "LS202@8:28 LS202@9:28",
         "`X2` is declared a second time by `mates`", "declare an in-line pair once"},
        {"access a\naccess a\nmotor M4 1/2 2 A behind a\n", "LS202@9:8", "the panel `a` is declared twice", ""},
        {"check a look \"x\"\nverdict a blames F1\n", "LS202@9:9", "the verdict `a` is declared twice", ""},
        {"plant a F1 open\nplant a F1 blown\n", "LS202@9:7", "the planted fault `a` is declared twice", ""},
        {"question a \"x\"\nquestion a \"y\"\n", "LS202@9:10", "the question `a` is declared twice", ""},
        {"colour RD \"rot\"\n", "LS202@8:8", "`RD` is red in IEC 60757 already", ""},
        {"switch S5\n  at up 1/2\n  at up 1/3\n", "LS202@10:3", "the position `up` of S5 is declared twice", ""},
        {"check a volts G1.+ to G1.-\n  volts F1.1 to G1.-\n", "LS202@9:3", "several rows need names", "volts \"Front left\""},
        {"wire W1 G1.+ -> XE1\ncable C1 W1\ncable C2 W1\n", "LS202@10:10", "W1 runs in cable C1 already", ""},
    };
    for (const Mistake& row : rows)
        hold(row);
}

TEST_CASE("what does not suit, what is missing, what has no place") {
    const Mistake rows[] = {
        {"horn H1 1/2 5 A, coil 86/85   85 ohm\n", "LS112@8:18", "a horn has no `coil 86/85 85 ohm`", "belongs to a relay or a sensor"},
        {"assembly M1 pins 1, in M1\n", "LS112@8:21", "an assembly has no `in M1`", "a motor, a lamp"},
        {"fuse F2\n", "LS114@8:1", "F2 lacks its rating", "40 A"},
        {"relay K1 coil 86/85 85 ohm\n", "LS114@8:1", "K1 lacks its contact", "contact 30/87"},
        {"wire W1 2.5 mm2\n", "LS114@8:1", "W1 lacks from where to where it runs", "G1.+ -> F1.1"},
        {"connector X1 2 pins\n", "LS114@8:1", "X1 lacks what it plugs into", "mates X31"},
        {"sensor B1 pot 1/2/3 1 kohm\nsensor B2 ntc 1/2\n  at open 15 %\n", "LS114@10:3", "this position belongs to no track", "pot 2/4/3"},
        {"check a \"b\"\n", "LS114@8:1", "a lacks what is measured", ""},
        {"verdict a \"b\"\n", "LS114@8:1", "a lacks what has failed", "blames nothing"},
        {"check a look \"x\"\n  answer \"y\"\n", "LS114@9:3", "this answer belongs to no question", "`question`"},
        {"plan A-1 \"a\"\nplan A-2 \"b\"\n", "LS113@9:6", "a second plan head: `A-2`", "one file holds one plan"},
        {"plan A-1 \"a\"\n  code X12\n", "LS212@9:8", "`X12` is no trouble code", "P0480"},
        {"resistor R1 1/2 5 A\n", "LS206@8:17", "a resistor has ohms, not `5 A`", ""},
        {"check a volts G1.+ to G1.-\n  expect below 3 A\n", "LS206@9:16", "`3 A` is a current; this check measures a voltage", "12.6 V"},
        {"check a look \"x\"\n  expect below 3 A\n", "LS206@9:16", "`look` has no number to compare", "expect yes"},
        {"connector X1 2 pins, on M3, half \"a\" \"b\"\n", "LS203@8:29", "X1 is no in-line pair", "`mates`"},
        {"connector X1 2 pins, on M3, mates X2\n", "LS203@8:25", "X1 has another half, X2, and cannot sit on `M3` too", ""},
        {"connector X1 2 pins, on M3, map 1=9\n", "LS204@8:35", "M3 has no pin `9`", "1, 2"},
        {"connector X1 2 pins, on M3, map 3=1\n", "LS204@8:33", "X1 has 2 pins, there is no X1.3", ""},
        {"connector X1 3 pins, mates X2, face 1 x 2\n", "LS213@8:37", "X1 has 3 pins, but 1 rows of 2 make 2", ""},
        {"access shield\n", "LS214@8:8", "nothing sits behind `shield`", "behind shield"},
        {"setup a: key on\n", "LS214@8:7", "no check uses the set-up `a`", "with a"},
    };
    for (const Mistake& row : rows)
        hold(row);
}

TEST_CASE("states and set-up items that do not fit their part") {
    const Mistake rows[] = {
        {"check a look \"x\": F1 runs\n", "LS203@8:19", "`runs` does not fit F1, which is a fuse",
         "write `whole`, `blown`, `works` or `fails`"},
        {"check a look \"x\": M3 lit\n", "LS203@8:19", "`lit` does not fit M3, which is a motor", "`still`, `runs`"},
        {"check a look \"x\": XE1 works\n", "LS203@8:19", "XE1, which is a ground", "a motor or a lamp"},
        {"check a look \"x\": M3 runs and M3 slow or M3 still\n", "LS203@8:39", "all by `and` or all by `or`", ""},
        {"check a look \"x\" with b for 5 min\nsetup b: key on\n", "LS203@8:25", "`b` is a label, and a time belongs to one thing",
         "in the set-up `b` itself"},
        {"sensor B2 ntc 1/2\ncheck a look \"x\" with B2 at 5 V\n", "LS206@9:29", "`5 V` is a voltage; B2 is brought to a temperature", ""},
        {"check a look \"x\" with S4 at down\n", "LS210@8:29", "S4 has no position `down`", "rest, up"},
        {"check a look \"x\" with M3 at fast\n", "LS203@8:29", "M3 is a motor without positions", ""},
        {"check a look \"x\" with M3 pressed\n", "LS203@8:23", "M3 is a motor; only a switch is pressed", ""},
        {"check a look \"x\" with M3 at 80 degC\n", "LS203@8:23", "only a sensor is brought to a value", ""},
        {"check a look \"x\" with M3 as found\n", "LS203@8:23", "only a sensor", ""},
        {"module U1 supply 1 ground 2\ncheck a look \"x\" with U1.1 on\n", "LS203@9:23", "U1.1 is no output that can be called",
         "output 1 pulls down 1 A"},
        {"setup a: b\nsetup b: a\ncheck c look \"x\" with a\n", "LS501@9:10", "the set-up `a` uses itself", ""},
    };
    for (const Mistake& row : rows)
        hold(row);
}

TEST_CASE("colours") {
    const Mistake rows[] = {
        {"wire W1 G1.+ -> F1.1 bu\n", "LS208@8:22", "colour codes are written in capitals, not `bu`", "write `BU`"},
        {"wire W1 G1.+ -> F1.1 BU/wh\n", "LS208@8:22", "in capitals", "write `BU/WH`"},
        {"wire W1 G1.+ -> F1.1 XX\n", "LS208@8:22", "`XX` is no colour that is known here", "colour XX \"tan\""},
        {"wire W1 G1.+ -> F1.1 bleu\n", "LS208@8:22", "`bleu` is no colour", "did you mean `blue`?"},
        {"wire W1 G1.+ -> F1.1 BUWH\n", "LS209@8:22", "`BUWH` does not say which colour is the base", "write `BU/WH` or `WH/BU`"},
        {"wire W1 G1.+ -> F1.1 BU/WH/RD\n", "LS208@8:22", "", ""},
        {"colour TAN \"tan\"\n", "LS208@8:8", "a colour code is two capitals, not `TAN`", "colour TN"},
    };
    for (const Mistake& row : rows)
        hold(row);
}

TEST_CASE("allowances of this room: an error cannot be allowed, a code must be one") {
    CHECK(Built(base + "wire W1 G1.+ -> F1.1 allow LS401 \"x\"\n").places() == "LS203@8:28");
    CHECK(Built(base + "wire W1 G1.+ -> F1.1 allow LS999 \"x\"\n").places() == "LS201@8:28");
    CHECK(Built(base + "wire W1 G1.+ -> F1.1 allow LS40x \"x\"\n").places() == "LS201@8:28");
    CHECK(Built(base + "wire W1 G1.+ -> F1.1 allow LS404 \"x\"\n").places() == "");
}

TEST_CASE("questions with marks and questions without are told once; a check may have the marks of its one question") {
    const auto notes = [](const std::string& text) {
        const Built built(base + text);
        std::string places;
        for (const auto& finding : built.findings.list())
            if (finding.code == 901) places += std::to_string(finding.at.begin - base.size()) + " ";
        return places;
    };
    const std::string check = "check e \"E\"\n  look \"x\"\n  pass -> done\n  question \"Why?\"\n";
    CHECK(notes("question c \"Why?\"\nquestion d \"How?\"\n").empty());
    CHECK(notes("question c \"Why?\"\nquestion d \"How?\"\nquestion f \"Who?\", marks 2\n") == "9 ");
    CHECK(notes(check + "  marks 2\nquestion d \"How?\", marks 1\n").empty());
    CHECK(notes(check + "question d \"How?\", marks 1\n") != "");
}

TEST_CASE("one message a cause: what comes of a mistake is not told again") {
    // The head of a part is not understood: its name is not missed elsewhere.
    CHECK(Built("battery G1 12.6 V\nfuze F1 10 A\nwire W1 G1.+ -> F1.1\nwire W2 F1.2 -> G1.-\n").places() == "LS101@2:1");
    CHECK(Built("battery G1 12.6 V\nfuse f1 10 A\nwire W1 G1.+ -> F1.1\n").places() == "LS107@2:6");
    CHECK(Built("battery G1 12.6 V\nfuse \"Horn\" 10 A\nwire W1 G1.+ -> F1.1\n").places() == "LS107@2:6");
    CHECK(Built("battery G1 12.6 V\n  fuse F1 \"Horn\", 10 A\nwire W1 G1.+ -> F1.1\n").places() == "LS102@2:3");
    // A phrase of a part is not understood: its pins and positions are not missed.
    CHECK(Built("battery G1 12.6 V\nrelay K5 coil 86/85 85 ohm, contact 30\nwire W1 G1.+ -> K5.30\n").places() == "LS103@2:37");
    CHECK(Built("switch S4\n  at rest\n  up 30/A\ncheck a look \"x\" with S4 at up\n").places() == "LS102@3:3");
    CHECK(Built("connector X30 4 pins, mates x31\nbattery G1 12.6 V\nwire W1 G1.+ -> X31.1\n").places() == "LS103@1:29");
    // A check or a set-up whose head is not understood.
    CHECK(Built("check a look \"x\" pass -> feed\ncheck Feed look \"y\"\n").places() == "LS107@2:7");
    CHECK(Built("setup called key on\ncheck a look \"x\" with called\n").places() == "LS107@1:14");
    // A plan whose first line is indented.
    CHECK(Built("  battery G1 12.6 V\nfuse F1 10 A\nwire W1 G1.+ -> F1.1\n").places() == "LS106@1:3");
}
