#include "small_circuits.hpp"
#include "hand.hpp"

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

const std::string car = "battery G1 \"Battery\", 12.6 V\nground XE1 \"Left wing\", at \"below the tray\"\n"
                        "wire W90 G1.- -> XE1 25 mm2 BK\n";

std::string lamps(int count) {
    std::string text = car + "splice J1 \"Bar\"\nfuse F0 40 A\nwire W91 G1.+ -> F0.1 16 mm2 RD\nwire W92 F0.2 -> J1 16 mm2 RD\n";
    for (int i = 1; i <= count; ++i) {
        const std::string n = std::to_string(i);
        text += "fuse F" + n + " \"Lamp " + n + "\", 10 A\nswitch S" + n + " \"Lamp switch " + n + "\", 1/2 closed when key on\nlamp E" +
                n + " 1/2 21 W\nwire W" + n + "1 J1 -> F" + n + ".1 2.5 mm2 RD\nwire W" + n + "2 F" + n + ".2 -> S" + n +
                ".1 1.5 mm2 RD/BU\nwire W" + n + "3 S" + n + ".2 -> E" + n + ".1 1.5 mm2 BU\nwire W" + n + "4 E" + n +
                ".2 -> XE1 1.5 mm2 BN\n";
    }
    return text;
}

} // namespace

const std::vector<SmallCircuit>& small_circuits() {
    static const std::vector<SmallCircuit> list{
        {"a lamp", car + "fuse F1 \"Lamp\", 10 A\nlamp E1 1/2 21 W\nconnector X1, 2 pins, on E1\n"
                         "wire W1 G1.+ -> F1.1 4 mm2 RD\nwire W2 F1.2 -> X1.1 1.5 mm2 RD/BU\n"
                         "wire W3 X1.2 -> XE1 1.5 mm2 BN\n"},
        {"a fan with its relay",
         car + "fuse F1 40 A\nrelay K5 \"Fan relay\", coil 86/85 85 ohm, contact 30/87\n"
               "switch S1 \"Thermal switch\", 1/2 closed when key on\nmotor M3 \"Fan\", 1/2 22 A\n"
               "connector X30, 2 pins, mates X31\nconnector X21, 2 pins, on M3\nwire W1 G1.+ -> F1.1 16 mm2 RD\n"
               "wire W2 F1.2 -> K5.30 6 mm2 RD\nwire W3 F1.2 -> K5.86 1 mm2 RD/GN\nwire W4 K5.85 -> S1.1 1 mm2 GN\n"
               "wire W5 S1.2 -> XE1 1 mm2 BN\nwire W6 K5.87 -> X30.1 6 mm2 BU/WH\nwire W7 X31.1 -> X21.1 6 mm2 BU/WH\n"
               "wire W8 X21.2 -> X31.2 6 mm2 BN\nwire W9 X30.2 -> XE1 6 mm2 BN\n"},
        {"lamps on a splice", lamps(3)},
        {"a window that runs both ways",
         car + "breaker F22 \"Windows\", 25 A\nswitch S4 \"Window switch\"\n  at rest 31/A 31/B\n  at up 30/A 31/B\n"
               "  at down 31/A 30/B\nmotor M4 \"Window motor\", A/B 7 A\nwire W1 G1.+ -> F22.1 16 mm2 RD\n"
               "wire W2 F22.2 -> S4.30 4 mm2 RD/GN\nwire W3 S4.31 -> XE1 4 mm2 BN\nwire W4 S4.A -> M4.A 2.5 mm2 GN\n"
               "wire W5 S4.B -> M4.B 2.5 mm2 GN/WH\n"},
        {"a module, its sensor and what it switches",
         car + "fuse F1 7.5 A\nmodule U1 \"Control unit\", supply 15, ground 31\n  output 47 \"relay\" pulls down 1 A\n"
               "  output 6 \"lamp\" pulls up 6 A\n  gives 72 5 V\n  input 80 100 kohm\n"
               "connector X1 \"Plug\", 90 pins, on U1\nsensor B6 \"Pedal\", pot 1/2/3 5 kohm\nlamp E6 1/2 5 W\n"
               "relay K2 coil 86/85 85 ohm, contact 30/87, diode 86/85\nhorn H1 1/2 5 A\n"
               "wire W1 G1.+ -> F1.1 4 mm2 RD\nwire W2 F1.2 -> X1.15 1 mm2 RD\nwire W3 X1.31 -> XE1 1 mm2 BN\n"
               "wire W4 F1.2 -> K2.86 1 mm2 RD\nwire W5 K2.85 -> X1.47 1 mm2 GN\nwire W6 F1.2 -> K2.30 2.5 mm2 RD\n"
               "wire W7 K2.87 -> H1.1 2.5 mm2 BU\nwire W8 H1.2 -> XE1 2.5 mm2 BN\nwire W9 X1.72 -> B6.1 0.5 mm2 PK\n"
               "wire W10 B6.2 -> X1.80 0.5 mm2 WH\nwire W11 B6.3 -> XE1 0.5 mm2 BN\nwire W12 X1.6 -> E6.1 1 mm2 OG\n"
               "wire W13 E6.2 -> XE1 1 mm2 BN\n"},
        {"a starter whose relay is inside",
         car + "assembly A1 \"Starter\", pins 30 50 31, 31 on XE1\nrelay K9, in A1, coil 50/31 1.5 ohm, coil 50/45 0.5 "
               "ohm,"
               " contact 30/45\nmotor M9, in A1, 45/31 140 A\nswitch S1 \"Key\", 30/50 closed when key crank\n"
               "wire W1 G1.+ -> A1.30 50 mm2 RD\nwire W2 G1.+ -> S1.30 4 mm2 RD\nwire W3 S1.50 -> A1.50 4 mm2 BK/YE\n"},
        {"a lamp changed over, wires side by side and a wire to itself",
         car + "relay K1 coil 86/85 85 ohm, contact 30/87/87a\nlamp E1 1/2 5 W\nheater E2 1/2 100 W at 12 V\n"
               "solenoid Y1 1/2 24 ohm\nresistor R1 1/2 1 ohm, 2/3 2 ohm\nsensor B4 ntc 1/2 10 kohm at 25 degC beta "
               "3900 K\n"
               "wire W1 G1.+ -> K1.30 4 mm2 RD\nwire W2 G1.+ -> K1.86 1 mm2 RD\nwire W3 K1.85 -> XE1 1 mm2 BN\n"
               "wire W4 K1.87 -> E1.1 1 mm2 BU\nwire W5 K1.87 -> E1.1 1 mm2 BU\nwire W6 K1.87a -> E2.1 1 mm2 GN\n"
               "wire W7 E1.2 -> XE1 1 mm2 BN\nwire W8 E2.2 -> XE1 1 mm2 BN\nwire W9 K1.87a -> R1.1 1 mm2 WH\n"
               "wire W10 R1.3 -> Y1.1 1 mm2 GY\nwire W11 R1.2 -> B4.1 0.5 mm2 GY\nwire W12 Y1.2 -> XE1 1 mm2 BN\n"
               "wire W13 B4.2 -> XE1 0.5 mm2 BN\nwire W14 Y1.1 -> Y1.1 1 mm2 PK\n"},
    };
    return list;
}

std::string tangled_circuit(unsigned seed) {
    hand::Chance chance(seed);
    std::string text = car + "splice J1 \"Bar\"\nsplice J2 \"Joint\"\nconnector X1, 3 pins, mates X2\n"
                             "module U1 \"Unit\", supply 1, ground 2\n  output 3 \"lamp\" pulls up 5 A\n"
                             "  output 4 pulls down 1 A\n  input 5 10 kohm\nwire W80 G1.+ -> J1 16 mm2 RD\n"
                             "wire W81 U1.2 -> XE1 1 mm2 BN\n";
    std::vector<std::string> pins{"J1",   "J1",   "J1",   "J2",   "J2",   "J2",   "XE1",  "XE1",  "XE1",  "XE1",
                                  "X1.1", "X2.1", "X1.2", "X2.2", "X1.3", "X2.3", "U1.1", "U1.3", "U1.4", "U1.5"};
    for (int i = 1; i <= 12; ++i) {
        const std::string n = std::to_string(i);
        const int kind = chance.below(4);
        const std::string id = (kind == 0 ? "F" : kind == 1 ? "E" : kind == 2 ? "S" : "K") + n;
        text += kind == 0   ? "fuse " + id + " 10 A\n"
                : kind == 1 ? "lamp " + id + " \"Lamp " + n + "\", 1/2 21 W\n"
                : kind == 2 ? "switch " + id + ", 1/2 closed when key on\n"
                            : "relay " + id + " coil 1/2 85 ohm, contact 30/87\n";
        for (const char* pin : {".1", ".2", ".30", ".87"})
            if (kind == 3 || pin[1] < '3') pins.push_back(id + pin);
    }
    for (int wire = 1; pins.size() > 1; ++wire) { // each end once
        const auto take = [&] {
            const auto at = pins.begin() + chance.below(static_cast<int>(pins.size()));
            const std::string pin = *at;
            pins.erase(at);
            return pin;
        };
        const std::string from = take(), to = take();
        if (from != to) text += "wire W" + std::to_string(wire) + " " + from + " -> " + to + " 1.5 mm2 BU\n";
    }
    return text;
}

Probes small_probes(const Circuit& circuit) {
    Probes probes;
    int number = 0;
    for (WireId wire = 0; wire < static_cast<WireId>(circuit.wires.size()); ++wire) {
        const Wire& each = circuit.wires[static_cast<std::size_t>(wire)];
        if (each.from == none || each.to == none) continue;
        if (wire % 3 == 1) probes.pins[each.from].push_back(++number);
        if (wire % 3 == 2) probes.pins[each.to] = {number + 1, number + 2}, number += 2;
        if (wire % 4 == 3) probes.wires[wire] = {++number};
    }
    return probes;
}
