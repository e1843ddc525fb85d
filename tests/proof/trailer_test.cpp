// The trailer plan against the published table of the 13-pin socket: ISO 11446, pins 1 to 7 also ISO 1724 type N,
// colours ISO 4141-3 (from the page "Trailer connectors in Europe" and a maker's page on ISO 1724, as collected in
// trade-data.md, section 1.3). Colour and cross-section of pin 13: from memory, source not seen. Pin 12, trailer
// presence, has no wire in the table.
#include "analysis/analysis.hpp"
#include <cctype>
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {
struct SocketPin {
    std::string pin, mark, function, colour;
    double square_mm;
};
const SocketPin table[] = {
    {"1", "L", "left turn", "YE", 1.5},  {"2", "54G", "rear fog", "BU", 1.5},
    {"3", "31", "", "WH", 2.5}, // ground of pins 1 to 8
    {"4", "R", "right turn", "GN", 1.5}, {"5", "58R", "right tail and plate", "BN", 1.5},
    {"6", "54", "stop", "RD", 1.5},      {"7", "58L", "left tail", "BK", 1.5},
    {"8", "8", "reverse", "PK", 1.5},    {"9", "30", "", "OG", 2.5}, // permanent plus
    {"10", "15", "", "GY", 2.5},                                     // switched plus
    {"11", "31", "", "BK/WH", 1.5},                                  // return of 10
    {"13", "31", "", "WH/RD", 2.5},                                  // return of 9
};

struct TrailerPlan {
    Sources sources;
    Plan plan;
    TrailerPlan() {
        RealDisk disk;
        auto result = analyse(sources, disk, {std::string(LOOMSHEET_ROOT) + "/plans/trailer/socket-13.plan"});
        REQUIRE(result.unreadable.empty());
        plan = *result.plan;
    }
    PinId pin(const std::string& part, const std::string& name) const { return plan.circuit.find_pin(plan.circuit.find_part(part), name); }
};

// Where a pin of the socket is led: along the wire and through the plugs, to what is no plug.
std::string far_end(const Circuit& circuit, PinId pin) {
    for (int hops = 0; hops < 8; ++hops) {
        const auto wires = circuit.wires_at(pin);
        if (wires.size() != 1) return "";
        const Wire& wire = circuit.wires[wires[0]];
        pin = wire.from == pin ? wire.to : wire.from;
        if (circuit.mate(pin) == none) return circuit.pin_name(pin);
        pin = circuit.mate(pin);
        if (circuit.parts[circuit.pins[pin].part].kind != PartKind::connector) return circuit.pin_name(pin);
    }
    return "";
}
} // namespace

TEST_CASE("the socket has the pins, marks, colours and cross-sections of the published table") {
    const TrailerPlan trailer;
    const Circuit& circuit = trailer.plan.circuit;
    const PartId socket = circuit.find_part("X62");
    REQUIRE(socket != none);
    CHECK(circuit.parts[socket].cavities == 13);
    for (const SocketPin& row : table) {
        CAPTURE(row.pin);
        const PinId pin = circuit.find_pin(socket, row.pin);
        REQUIRE(pin != none);
        CHECK(circuit.pins[pin].mark == row.mark);
        const auto wires = circuit.wires_at(pin);
        REQUIRE(wires.size() == 1);
        const Wire& wire = circuit.wires[wires[0]];
        CHECK(wire.colour.code() == row.colour);
        REQUIRE(wire.area.has_value());
        CHECK(wire.area->si == doctest::Approx(row.square_mm * 1e-6));
    }
    CHECK(circuit.wires_at(circuit.find_pin(socket, "12")).empty());
}

TEST_CASE("each pin of the socket is led from what the table says it carries") {
    const TrailerPlan trailer;
    const Circuit& circuit = trailer.plan.circuit;
    const Part& module = circuit.parts[circuit.find_part("U2")];
    for (const SocketPin& row : table) {
        if (row.function.empty()) continue;
        CAPTURE(row.pin);
        std::string led_from;
        for (const Element& element : module.elements)
            if (element.kind == ElementKind::module_output && circuit.pin_name(element.a) == far_end(circuit, trailer.pin("X62", row.pin)))
                led_from = element.name;
        CHECK(led_from == row.function);
    }
    CHECK(far_end(circuit, trailer.pin("X62", "9")) == "F32.2");
    CHECK(far_end(circuit, trailer.pin("X62", "10")) == "A2.87");
    for (const char* ground : {"3", "11", "13"})
        CHECK(far_end(circuit, trailer.pin("X62", ground)) == "XE5");
}

TEST_CASE("the rows measured at the socket are the signal pins against ground pin 3") {
    const TrailerPlan trailer;
    const Circuit& circuit = trailer.plan.circuit;
    std::vector<Row> rows; // three in one check, four in the next
    for (const Check& check : trailer.plan.checks)
        if (check.label.starts_with("socket-rows")) rows.insert(rows.end(), check.rows.begin(), check.rows.end());
    std::size_t at = 0;
    for (const SocketPin& row : table) {
        if (row.function.empty()) continue;
        CAPTURE(row.pin);
        REQUIRE(at < rows.size());
        std::string name = rows[at].name;
        name[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(name[0])));
        CHECK(name == row.function);
        CHECK(circuit.pin_name(rows[at].red.pin) == "X62." + row.pin);
        CHECK(circuit.pin_name(rows[at].black.pin) == "X62.3");
        ++at;
    }
    CHECK(at == rows.size());
}
