#include "circuit/parameters.hpp"
#include "circuit/wire_tables.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

constexpr double copper_per_kelvin = 0.00393; // at 20 °C, IEC 60028
double warm(double degrees) { return 1 + copper_per_kelvin * (degrees - 20); }

constexpr double milli = 1e-3;

// Ohms a metre at 20 °C: ideal copper of that size, what its table allows at most, and between them.
Parameter per_metre(double mm2) {
    double most = copper_ohm_mm2_per_m / mm2 * 1.15;
    for (const MetricWireRow& row : metric_wires())
        if (std::abs(row.mm2 - mm2) < 1e-3 * mm2) most = (row.class5 > 0 ? row.class5 : row.iso6722) * milli; // mohm/m
    const double ideal = copper_ohm_mm2_per_m / mm2;
    return {ideal, (ideal + most) / 2, most};
}

Parameter as_written(const Quantity& quantity) { return {quantity.low(), quantity.si, quantity.high()}; }

class Maker {
public:
    Maker(const Circuit& circuit, Parameters& made) : circuit_(circuit), made_(made), mm2_(circuit.pins.size(), 0) {
        for (const Wire& wire : circuit.wires)
            for (const PinId pin : {wire.from, wire.to})
                if (pin != none && wire.area) mm2_[pin] = std::max(mm2_[pin], wire.area->si * 1e6);
    }

    void make() {
        made_.wire.assign(circuit_.wires.size(), none);
        for (std::size_t i = 0; i < circuit_.wires.size(); ++i)
            made_.wire[i] = add(wire(circuit_.wires[i]));
        const std::size_t pins = circuit_.pins.size(), parts = circuit_.parts.size();
        made_.joint.assign(pins, none), made_.bolt.assign(pins, none);
        made_.link.assign(parts, none), made_.inner.assign(parts, none);
        made_.rail.assign(parts, none), made_.hall.assign(parts, none);
        made_.emf.resize(parts), made_.draw.resize(parts), made_.element.resize(parts), made_.heard.resize(parts);
        for (PinId pin = 0; pin < static_cast<PinId>(pins); ++pin) {
            const bool clamp = circuit_.parts[circuit_.pins[pin].part].kind == PartKind::battery;
            made_.joint[pin] = add(clamp ? range_of(Usual::clamp, milli) : range_of(Usual::contact_pin, milli / size_at(pin)));
            made_.bolt[pin] = add(range_of(Usual::bolt, milli));
        }
        for (PartId id = 0; id < static_cast<PartId>(parts); ++id)
            part(id);
        made_.added = add({});
    }

private:
    ParameterId add(Parameter parameter) {
        made_.list.push_back(parameter);
        return static_cast<ParameterId>(made_.list.size()) - 1;
    }

    // The thickest wire at a pin or at what it meets, in mm²; of a pin inside a part, at the part.
    double size_at(PinId pin) const {
        double size = mm2_[pin];
        if (const PinId mate = circuit_.mate(pin); mate != none) size = std::max(size, mm2_[mate]);
        if (size > 0) return size;
        for (const PinId other : circuit_.parts[circuit_.pins[pin].part].pins) {
            size = std::max(size, mm2_[other]);
            if (const PinId mate = circuit_.mate(other); mate != none) size = std::max(size, mm2_[mate]);
        }
        return size > 0 ? size : 1;
    }

    Parameter wire(const Wire& wire) const {
        if (!wire.area || !wire.length) return range_of(Usual::unknown_wire, milli);
        const double mm2 = wire.area->si * 1e6, metres = wire.length->si;
        const Parameter metre = per_metre(mm2), crimps = range_of(Usual::crimp, 2 * milli / mm2);
        const UsualRow &heat = usual(Usual::copper_temperature), &length = usual(Usual::wire_length);
        return {metre.low * metres * length.low * warm(heat.low) + crimps.low,
                metre.value * metres * length.value * warm(heat.value) + crimps.value,
                metre.high * metres * length.high * warm(heat.high) + crimps.high};
    }

    void part(PartId id) {
        const Part& part = circuit_.parts[id];
        const auto itself = row_of(part.kind).itself;
        if (itself == ElementKind::source) battery(id);
        if (itself == ElementKind::link) made_.link[id] = add(range_of(Usual::fuse_drop, 1 / (part.rating ? part.rating->si : 10)));
        if (!part.ground_pins.empty() || part.bolted_pin != none) made_.rail[id] = add(range_of(Usual::rail, milli));
        if (part.sensor_kind == "hall") made_.hall[id] = add(range_of(Usual::hall_ohms));
        if (!part.supply_pins.empty()) supply(id);
        for (const Element& each : part.elements)
            made_.element[id].push_back(element(part, each));
        for (const Element& each : part.elements)
            made_.heard[id].push_back(each.follows == none ? Heard{} : heard_by(circuit_, id, each));
    }

    void battery(PartId id) {
        const Part& part = circuit_.parts[id];
        const double size = made_.system_volts / 12;
        made_.inner[id] = add(part.inner ? written(*part.inner, Usual::battery_ohms) : range_of(Usual::battery_ohms, 6 * milli * size));
        for (const Draw& gives : part.gives) {
            const double volts = gives.value.si;
            const UsualRow& row = usual(gives.when && gives.when->engine_running ? Usual::charging_volts : Usual::battery_volts);
            made_.emf[id].push_back(
                add(gives.value.plus_minus ? as_written(gives.value) : Parameter{volts + row.low * size, volts, volts + row.high * size}));
        }
    }

    // What a control unit draws, shared by its supply pins, as ohms at the system's volts.
    void supply(PartId id) {
        const Part& part = circuit_.parts[id];
        const double each = made_.system_volts * static_cast<double>(part.supply_pins.size());
        const auto as_ohms = [&](Parameter amps) { return add({each / amps.high, each / amps.value, each / amps.low}); };
        for (const Draw& draws : part.draws)
            made_.draw[id].push_back(as_ohms(written(draws.value, Usual::draw)));
        made_.draw[id].push_back(as_ohms(range_of(Usual::module_draw, milli)));   // where no row holds: awake,
        made_.draw[id].push_back(as_ohms(range_of(Usual::module_asleep, milli))); // asleep
    }

    Parameters::OfElement element(const Part& part, const Element& element) {
        switch (element.kind) {
        case ElementKind::source:
        case ElementKind::link:
        case ElementKind::ntc:
        case ElementKind::hall: return {};
        case ElementKind::coil: {
            const double usual_ohms = made_.system_volts > 18 ? 255 : 85; // relay data sheet: 12 V and 24 V coils
            Parameter ohms = element.value ? written(*element.value, Usual::coil) : range_of(Usual::coil, usual_ohms);
            const UsualRow& heat = usual(Usual::coil_temperature);
            ohms.low *= warm(heat.low), ohms.high *= warm(heat.high);
            return {add(ohms), none};
        }
        case ElementKind::contact: return {add(range_of(Usual::contact_blade, milli / size_at(element.a))), none};
        case ElementKind::load: return load(part, element);
        case ElementKind::resistor:
        case ElementKind::between: return {add(element.value ? written(*element.value, Usual::resistor) : Parameter{1, 1, 1}), none};
        case ElementKind::pot: return {add(written(*element.value, Usual::track)), none};
        case ElementKind::diode: return {add(range_of(Usual::diode_ohms, milli)), add(range_of(Usual::diode_drop))};
        case ElementKind::module_output:
            return {add(element.value ? range_of(Usual::driver_drop, 1 / element.value->si) : range_of(Usual::driver_ohms)), none};
        case ElementKind::module_gives:
            return {add(range_of(Usual::sensor_supply_ohms)), add(written(*element.value, Usual::sensor_supply))};
        case ElementKind::pull_up: return {add(written(*element.more, Usual::pull_up)), add(written(*element.value, Usual::sensor_supply))};
        case ElementKind::input: return {add(written(*element.value, Usual::input)), none};
        }
        return {};
    }

    // In use its ohms at its volts; held still or cold the others.
    Parameters::OfElement load(const Part& part, const Element& element) {
        const double volts = element.holds_at ? element.holds_at->si : made_.system_volts;
        const bool lamp = part.kind == PartKind::lamp;
        Parameter ohms{1, 1, 1};
        if (element.value) {
            const Quantity& given = *element.value;
            const Parameter range = written(given, lamp ? Usual::filament_power : Usual::load_current);
            switch (given.unit->dimension) {
            case Dimension::ampere: ohms = {volts / range.high, volts / range.value, volts / range.low}; break;
            case Dimension::watt: ohms = {volts * volts / range.high, volts * volts / range.value, volts * volts / range.low}; break;
            default: ohms = written(given, Usual::coil); // the phrase takes ohms beside these two
            }
        }
        if (lamp) return {add(ohms), add(range_of(Usual::filament_cold))};
        if (part.kind != PartKind::motor) return {add(ohms), none};
        if (part.stalls_at) {
            const Parameter amps = written(*part.stalls_at, Usual::load_current);
            return {add(ohms), add({volts / amps.high, volts / amps.value, volts / amps.low})};
        }
        const UsualRow& row = usual(Usual::stall_current);
        return {add(ohms), add({ohms.value / row.high, ohms.value / row.value, ohms.value / row.low})};
    }

    const Circuit& circuit_;
    Parameters& made_;
    std::vector<double> mm2_; // by pin
};

} // namespace

Parameter range_of(Usual of, double times) {
    const UsualRow& row = usual(of);
    return {row.low * times, row.value * times, row.high * times};
}

Parameter written(const Quantity& quantity, Usual of) { return quantity.plus_minus ? as_written(quantity) : range_of(of, quantity.si); }

Parameters::Parameters(const Circuit& circuit, double volts) : system_volts(volts) { Maker(circuit, *this).make(); }

std::optional<Parameter> ntc_ohms(const Element& ntc, double degrees) {
    constexpr double zero = 273.15;
    if (ntc.value && ntc.holds_at && ntc.more) { // R = R0 exp(B (1/T - 1/T0))
        const double at = std::exp(ntc.more->si * (1 / (degrees + zero) - 1 / (ntc.holds_at->si + zero)));
        Parameter ohms = written(*ntc.value, Usual::ntc);
        return Parameter{ohms.low * at, ohms.value * at, ohms.high * at};
    }
    struct Warmth {
        double degrees;
        Parameter ohms;
    };
    std::vector<Warmth> rows;
    for (const TableValue& row : ntc.table)
        if (row.at_value && row.value) rows.push_back({row.at_value->si, written(*row.value, Usual::ntc)});
    std::sort(rows.begin(), rows.end(), [](const Warmth& a, const Warmth& b) { return a.degrees < b.degrees; });
    if (rows.size() == 1 && rows.front().degrees == degrees) return rows.front().ohms;
    if (rows.size() < 2) return std::nullopt;
    // Between two rows, and beyond the outer ones, log R runs straight over 1/T.
    std::size_t after = 1;
    while (after + 1 < rows.size() && rows[after].degrees < degrees)
        ++after;
    const double x0 = 1 / (rows[after - 1].degrees + zero), x1 = 1 / (rows[after].degrees + zero);
    const double share = (1 / (degrees + zero) - x0) / (x1 - x0);
    const Parameter &a = rows[after - 1].ohms, &b = rows[after].ohms;
    const auto between = [&](double from, double to) { return std::exp(std::log(from) * (1 - share) + std::log(to) * share); };
    return Parameter{between(a.low, b.low), between(a.value, b.value), between(a.high, b.high)};
}

} // namespace loomsheet
