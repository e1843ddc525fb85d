// What a run takes in, against what each kind of circuit has between two points; and against all ways of random looms, each walked.
#include "faults/between.hpp"
#include "model/build.hpp"
#include "syntax/parse.hpp"
#include <doctest/doctest.h>
#include <functional>
#include <random>
#include <set>

using namespace loomsheet;

namespace {

struct Loom {
    explicit Loom(const std::string& text) {
        Sources sources;
        Findings findings;
        std::vector<Tree> trees;
        trees.push_back(parse(sources, sources.add("test.plan", text), findings));
        circuit = build(sources, trees, findings).circuit;
        for (const Diagnostic& finding : findings.list())
            CHECK_MESSAGE(severity_of(finding) != Severity::error, finding.says);
    }
    PointRef point(const std::string& name) const {
        const auto dot = name.find('.');
        PointRef made;
        made.part = circuit.find_part(name.substr(0, dot));
        REQUIRE(made.part != none);
        if (dot != std::string::npos)
            made.pin = circuit.find_pin(made.part, name.substr(dot + 1));
        else
            made.metal = Metal::whole;
        return made;
    }
    // "W3, XE1, XE2, W4": without the joints
    std::string between(const std::string& from, const std::string& to) const {
        std::string said;
        for (const Suspect& each : suspects_between(circuit, build_graph(circuit), point(from), point(to)))
            if (each.joint == none) said += (said.empty() ? "" : ", ") + suspect_point(circuit, each);
        return said;
    }
    Circuit circuit;
};

const std::string horn = R"(plan HORN-01 "Horn"
battery G1 12.6 V
fuse F12 15 A
horn H1 1/2 5 A
ground XE1
ground XE2
wire W1 G1.+ -> F12.1 2.5 mm2
wire W2 F12.2 -> H1.1 1.5 mm2
wire W3 H1.2 -> XE1 1.5 mm2
wire W4 G1.- -> XE2 16 mm2
)";

} // namespace

TEST_CASE("a run over the body takes in both ground points") {
    CHECK(Loom(horn).between("H1.2", "G1.-") == "W3, XE1, XE2, W4");
    CHECK(Loom(horn).between("G1.-", "H1.2") == "W4, XE2, XE1, W3");
    CHECK(Loom(horn).between("G1.+", "H1.1") == "W1, F12, W2");
    CHECK(Loom(horn).between("H1.1", "H1.2").empty()); // a load lies between
}

TEST_CASE("a run has the joints on its way, in their order, and the one it ends in") {
    const Loom loom(horn);
    PointRef post = loom.point("G1.+");
    post.metal = Metal::joint;
    std::string said;
    for (const Suspect& each : suspects_between(loom.circuit, build_graph(loom.circuit), post, loom.point("H1.1")))
        said += suspect_point(loom.circuit, each) + ", ";
    CHECK(said == "joint G1.+, W1, joint F12.1, F12, joint F12.2, W2, ");
}

TEST_CASE("what lies side by side carries current too: a second wire, a second ground point, the engine's strap") {
    CHECK(Loom(horn + "wire W5 F12.2 -> H1.1 1.5 mm2\n").between("G1.+", "H1.1") == "W1, F12, W2, W5");
    CHECK(Loom(horn + "ground XE3\nwire W5 H1.2 -> XE3 1.5 mm2\n").between("H1.2", "G1.-") == "W3, W5, XE1, XE3, XE2, W4");
    const std::string engine = horn + "ground XE5, on engine\nground XE6, on engine\nground XE7\n"
                                      "wire W7 G1.- -> XE5 16 mm2\nwire W8 XE6 -> XE7 10 mm2\n";
    CHECK(Loom(engine).between("H1.2", "G1.-") == "W3, XE1, XE2, XE7, W4, W8, W7, XE6, XE5");
    CHECK(Loom(horn + "ground XE9\n").between("H1.2", "G1.-") == "W3, XE1, XE2, W4"); // leads nowhere
}

TEST_CASE("contacts of another part are a run of their own, and a control unit is not gone through") {
    const std::string reversing = R"(plan WIN-01 "Window"
battery G1 12.6 V
ground XE1
relay K1 coil 86/85 85 ohm, contact 30/87/87a
relay K2 coil 86/85 85 ohm, contact 30/87/87a
motor M1 1/2 8 A
splice J1
splice J2
wire W1 G1.+ -> J1 10 mm2
wire W3 J1 -> K1.87 6 mm2
wire W4 J1 -> K2.87 6 mm2
wire W5 K1.87a -> J2 6 mm2
wire W6 K2.87a -> J2 6 mm2
wire W8 J2 -> XE1 6 mm2
wire W9 K1.30 -> M1.1 6 mm2
wire W10 K2.30 -> M1.2 6 mm2
)";
    CHECK(Loom(reversing).between("J1", "M1.1") == "W3, K1, W9");
    CHECK(Loom(reversing).between("M1.2", "XE1") == "W10, K2, W6, J2, W8");
    CHECK(Loom("plan U-01 \"Unit\"\nbattery G1 12.6 V\nground XE1\nmodule U1 supply 30, ground 31 26\n"
               "wire W1 G1.+ -> U1.30 1 mm2\nwire W2 U1.31 -> XE1 1 mm2\nwire W3 U1.26 -> XE1 1 mm2\nwire W4 G1.- -> XE1 9 mm2\n")
              .between("U1.31", "XE1") == "W2");
    CHECK(Loom("plan K-01 \"Two contacts\"\nbattery G1 12.6 V\nrelay K1 coil 86/85 85 ohm, contact 30/87, contact 30/88\n"
               "motor M1 1/2 8 A\nwire W1 G1.+ -> K1.30 1 mm2\nwire W2 K1.87 -> M1.1 1 mm2\nwire W3 K1.88 -> M1.1 1 mm2\n")
              .between("G1.+", "M1.1") == "W1, K1, W2, W3");
}

TEST_CASE("of random looms a run takes in the wires of every way, and no other") {
    std::mt19937 random(20261129);
    std::size_t wires_on_runs = 0, wires_off = 0;
    for (int trial = 0; trial < 200; ++trial) {
        constexpr int joints = 7;
        std::string text = "plan R-01 \"Random\"\n";
        for (int i = 0; i < joints; ++i)
            text += "splice J" + std::to_string(i) + " bare\n";
        std::vector<std::pair<int, int>> ends;
        for (int w = 0; w < 9; ++w) {
            const int a = static_cast<int>(random() % joints), b = static_cast<int>(random() % joints);
            if (a == b) continue;
            text += "wire W" + std::to_string(ends.size()) + " J" + std::to_string(a) + " -> J" + std::to_string(b) + " 1 mm2\n";
            ends.emplace_back(a, b);
        }
        std::set<std::string> expected;
        std::vector<bool> been(joints);
        std::vector<std::size_t> way;
        const std::function<void(int)> walk = [&](int here) {
            if (here == 1) {
                for (const std::size_t wire : way)
                    expected.insert("W" + std::to_string(wire));
                return;
            }
            been[here] = true;
            for (std::size_t w = 0; w < ends.size(); ++w) {
                const auto [a, b] = ends[w];
                if (a != here && b != here) continue;
                const int there = a == here ? b : a;
                if (been[there]) continue;
                way.push_back(w), walk(there), way.pop_back();
            }
            been[here] = false;
        };
        walk(0);
        const Loom loom(text);
        std::set<std::string> found;
        for (const Suspect& each : suspects_between(loom.circuit, build_graph(loom.circuit), loom.point("J0"), loom.point("J1")))
            if (each.wire != none) found.insert(suspect_point(loom.circuit, each));
        CHECK_MESSAGE(found == expected, text);
        wires_on_runs += found.size(), wires_off += ends.size() - found.size();
    }
    CHECK(wires_on_runs > 400);
    CHECK(wires_off > 200);
}
