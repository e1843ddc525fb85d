// Circuits made by chance from a seed: however they hang together, they are drawn whole and nothing lies on anything
// else.
#include "drawn.hpp"
#include <algorithm>
#include <array>
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <random>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

class Maker {
public:
    explicit Maker(unsigned seed) : chance_(seed) {}

    std::string plan(int parts) {
        std::string text = "plan GEN-01 \"Generated\"\n";
        const bool powered = below(8) != 0; // now and then no battery
        if (powered) {
            text += "battery G1 12.6 V\n";
            pins_ = {"G1.+", "G1.+", "G1.-"};
        }
        for (int i = 0; i < 1 + parts / 12; ++i)
            text += ground(i);
        for (int i = 0; i < parts; ++i)
            text += part(i);
        int wire = 0;
        const auto add = [&](const std::string& from, const std::string& to) {
            constexpr std::array<const char*, 6> looks{"1.5 mm2 RD/BU", "4 mm2 BK",      "0.5 mm2 GNYE",
                                                       "AWG 4 BN",      "2.5 mm2 WH/RD", "1 mm2 PK"};
            text += fmt::format("wire W{} {} -> {} {} 1 m\n", ++wire, from, to, looks[static_cast<std::size_t>(below(6))]);
        };
        for (std::size_t i = 1; i < pins_.size(); ++i) // most are joined to what came before, some float
            if (below(7) != 0) add(pins_[i], pins_[static_cast<std::size_t>(below(static_cast<int>(i)))]);
        for (int i = 0; i < parts / 8; ++i) {
            const std::string& one = any_pin();
            const std::string& other = any_pin();
            add(one, other);
            if (below(2) == 0) add(one, other); // side by side
            if (below(4) == 0) add(one, one);   // to itself
        }
        return text;
    }

private:
    int below(int count) { return static_cast<int>(chance_() % static_cast<unsigned>(count)); }
    const std::string& any_pin() { return pins_[static_cast<std::size_t>(below(static_cast<int>(pins_.size())))]; }

    std::string name() {
        constexpr std::array<const char*, 6> names{"",
                                                   " \"Horn\"",
                                                   " \"Μεγάλος ανεμιστήρας ψυγείου\"",
                                                   " \"Реле вентилятора охлаждения двигателя\"",
                                                   " \"A name of sixty letters that a shop may well give to a part\"",
                                                   " \"Donaudampfschifffahrtselektrizitaetenhauptbetriebswerkbau\""};
        return names[static_cast<std::size_t>(below(6))];
    }
    std::string ground(int i) {
        pins_.push_back(fmt::format("XE{}", i + 1));
        return fmt::format("ground XE{}{}, at \"somewhere behind the panel\"\n", i + 1, name());
    }
    std::string with(const std::string& id, std::initializer_list<const char*> pins, const std::string& text) {
        for (const char* pin : pins)
            pins_.push_back(id + "." + pin);
        return text + "\n";
    }
    std::string part(int i) {
        const std::string called = name();
        const auto id = [&](const char* letter) { return fmt::format("{}{}", letter, i + 10); };
        switch (below(15)) {
        case 0: return with(id("F"), {"1", "2"}, fmt::format("fuse {}{}, 10 A", id("F"), called));
        case 1:
            return with(id("K"), {"86", "85", "30", "87"}, fmt::format("relay {}{}, coil 86/85 85 ohm, contact 30/87", id("K"), called));
        case 2:
            return with(id("K"), {"86", "85", "30", "87", "87a"},
                        fmt::format("relay {}{}, coil 86/85 85 ohm, contact 30/87/87a, diode 86/85", id("K"), called));
        case 3: return with(id("S"), {"1", "2"}, fmt::format("switch {}{}\n  at rest\n  at pressed 1/2", id("S"), called));
        case 4:
            return with(id("S"), {"30", "31", "A", "B"},
                        fmt::format("switch {}{}\n  at rest 31/A 31/B\n  at up 30/A 31/B\n  at down 31/A 30/B", id("S"), called));
        case 5: return with(id("M"), {"1", "2"}, fmt::format("motor {}{}, 1/2 8 A", id("M"), called));
        case 6: return with(id("E"), {"56a", "56b", "31"}, fmt::format("lamp {}{}, 56b/31 55 W, 56a/31 60 W", id("E"), called));
        case 7: return with(id("V"), {"1", "2"}, fmt::format("diode {}{}, 1/2", id("V"), called));
        case 8: return with(id("B"), {"1", "2", "3"}, fmt::format("sensor {}{}, pot 1/2/3 5 kohm", id("B"), called));
        case 9: return with(id("B"), {"1", "2", "3"}, fmt::format("sensor {}{}, hall 1/2/3, supply 1, ground 3", id("B"), called));
        case 10:
            return with(id("J"), {}, fmt::format("splice {}{}", id("J"), called)) +
                   (pins_.push_back(id("J")), pins_.push_back(id("J")), "");
        case 11: {
            const std::string x = fmt::format("X{}", 2 * i + 100), y = fmt::format("X{}", 2 * i + 101);
            for (int cavity = 1; cavity <= 3; ++cavity)
                for (const std::string& half : {x, y})
                    pins_.push_back(fmt::format("{}.{}", half, cavity));
            return fmt::format("connector {}{}, 3 pins, mates {}\n", x, called, y);
        }
        case 12: {
            const std::string u = id("U"), x = fmt::format("X{}", 2 * i + 100);
            for (int cavity = 1; cavity <= 9; ++cavity)
                pins_.push_back(fmt::format("{}.{}", x, cavity));
            return fmt::format("module {}{}, supply 1, ground 2, draws 1 A\n  output 3 \"a lamp with a long duty\" "
                               "pulls up 5 A\n  output 4 pulls down 1 A\n"
                               "  input 5 10 kohm\n  gives 6 5 V\n  pull-up 7 5 V 2.2 kohm\n  between 8/9 120 "
                               "ohm\nconnector {} \"Plug\", 9 pins, on {}\n",
                               u, called, x, u);
        }
        case 13: {
            const std::string a = id("A"), k = fmt::format("K{}", i + 1000), m = fmt::format("M{}", i + 1000);
            return with(a, {"30", "50", "31"},
                        fmt::format("assembly {}{}, pins 30 50 31\nrelay {}, in {}, coil 50/31 1.5 ohm, coil 50/45 0.5 "
                                    "ohm, contact 30/45\nmotor {}, in {}, 45/31 140 A",
                                    a, called, k, a, m, a));
        }
        default: return with(id("R"), {"1", "2", "3"}, fmt::format("resistor {}{}, 1/2 1 ohm, 2/3 2 ohm", id("R"), called));
        }
    }

    std::minstd_rand chance_;
    std::vector<std::string> pins_;
};

} // namespace

TEST_CASE("generated circuits are drawn whole, with nothing on anything else") {
    std::size_t wires = 0;
    for (unsigned seed = 1; seed <= 16; ++seed) {
        CAPTURE(seed);
        const Plan plan = drawn::plan(Maker(seed).plan(5 + static_cast<int>(seed % 8) * 4));
        wires += plan.circuit.wires.size();
        drawn::check_whole(plan, drawn::circuit(plan));
    }
    CHECK(wires > 500); // they are what they are meant to be
}

TEST_CASE("a hundred and fifty parts") {
    const Plan plan = drawn::plan(Maker(7).plan(150));
    CHECK(plan.circuit.parts.size() > 150);
    drawn::check_whole(plan, drawn::circuit(plan));
}
