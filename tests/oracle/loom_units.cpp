// Sensors and control units in the loom.
#include "oracle/loom.hpp"
#include <algorithm>
#include <cmath>

namespace oracle {

void Loom::lay_sensor(int index, int number, int a, int b, int c) {
    const Part& part = plan.parts[index];
    const Element& it = part.elements[number];
    if (it.kind == "hall") {
        const Range ohms = usual["a Hall sensor between its supply and ground"];
        if (a != none && c != none) lay(a, c, index, number).real = [=](Dice& dice) { return Real{dice(ohms)}; };
    } else if (it.kind == "ntc") {
        std::vector<std::pair<double, double>> curve; // degC, ohm
        for (const TableRow& row : it.table)
            if (row.at && row.value) curve.emplace_back(row.at->si, row.value->si);
        const Range share =
            !it.table.empty() && it.table.front().value && it.table.front().value->plus_minus
                ? usual.written(*it.table.front().value, "an NTC's ohms at its temperature").times(1 / it.table.front().value->si)
                : usual["an NTC's ohms at its temperature"];
        const Range shop = usual["a sensor whose temperature nobody said"], hot = usual["the same with the engine running"];
        const double reference = it.value ? it.value->si : 0, at = it.at ? it.at->si : 25, beta = it.more ? it.more->si : 0;
        Branch& made = lay(a, b, index, number);
        made.real = [=](Dice& dice) { return Real{dice(share), dice(shop), dice(hot)}; };
        made.ohms_there = [=](const Real& real, const Setting& setting) {
            const auto said = setting.temperature.find(index);
            const double warm = said != setting.temperature.end() ? said->second : setting.engine ? real.amps : real.volts;
            if (curve.size() < 2)
                return real.ohms * (beta > 0        ? reference * std::exp(beta * (1 / (warm + 273.15) - 1 / (at + 273.15)))
                                    : curve.empty() ? reference
                                                    : curve[0].second);
            std::size_t i = 1;
            while (i + 1 < curve.size() && curve[i].first < warm)
                ++i;
            const auto [t1, r1] = curve[i - 1];
            const auto [t2, r2] = curve[i];
            const double x = (1 / (warm + 273.15) - 1 / (t1 + 273.15)) / (1 / (t2 + 273.15) - 1 / (t1 + 273.15));
            return real.ohms * std::exp(std::log(r1) + x * (std::log(r2) - std::log(r1)));
        };
    } else {
        const Range ohms = usual.written(*it.value, "a track, end to end"), off = usual["where a wiper stands"];
        for (const bool upper : {true, false}) {
            Branch& made = upper ? lay(a, b, index, number) : lay(b, c, index, number);
            made.real = [=](Dice& dice) { return Real{dice(ohms), dice(off), 0}; };
            const std::vector<TableRow> table = it.table;
            made.ohms_there = [=](const Real& real, const Setting& setting) {
                double share = table.empty() || !table.front().value ? 0.5 : table.front().value->si;
                const auto stands = setting.position.find(index);
                for (const TableRow& row : table)
                    if (stands != setting.position.end() && row.position == stands->second && row.value) share = row.value->si;
                share = std::clamp(share + real.volts, 0.0, 1.0);
                return std::max(0.01, real.ohms * (upper ? 1 - share : share));
            };
        }
    }
}

void Loom::lay_module(int index) {
    const Part& part = plan.parts[index];
    // All that is inside hangs on the first pin of each kind; the others reach it over the board.
    const auto rail = [&](const std::vector<int>& pins) {
        if (pins.empty()) return new_node();
        const int first = part_side_[pins.front()];
        const Range ohms = usual["ground pins inside a control unit"];
        for (std::size_t i = 1; i < pins.size(); ++i)
            lay(part_side_[pins[i]], first, index).real = [=](Dice& dice) { return Real{dice(ohms)}; };
        return first;
    };
    const int supply = rail(part.supply), ground = rail(part.ground);
    rails_[index] = {supply, ground};
    std::vector<std::pair<Range, int>> draws; // A
    for (std::size_t i = 0; i < part.draws.size(); ++i)
        draws.emplace_back(usual.written(part.draws[i].value, "what a control unit draws"), static_cast<int>(i));
    if (draws.empty()) draws = {{usual["a control unit that does not say what it draws"], 0}, {usual["the same, asleep"], 1}};
    for (const auto& [amps, choice] : draws) {
        Branch& draw = lay(supply, ground, index);
        draw.gate = Gate::given, draw.choice = -2 - choice;
        const double volts = plan.system;
        draw.real = [=, amps = amps](Dice& dice) { return Real{volts / dice(amps)}; };
    }
    for (std::size_t i = 0; i < part.elements.size(); ++i) {
        const Element& it = part.elements[i];
        const int number = static_cast<int>(i), pin = it.a == none ? none : part_side_[it.a];
        if (it.kind == "output") {
            Branch& driver = lay(it.pulls_down ? pin : supply, it.pulls_down ? ground : pin, index, number);
            driver.gate = Gate::driver;
            const Range ohms =
                it.value ? usual["a driver, volts at the current it says"].times(1 / it.value->si) : usual["a driver that says no current"];
            driver.real = [=](Dice& dice) { return Real{dice(ohms)}; };
        } else if (it.kind == "gives" || it.kind == "pull-up") {
            Branch& source = lay(pin, ground, index, number);
            source.law = Law::source, source.gate = Gate::fed;
            const bool gives = it.kind == "gives";
            const Range volts = usual.written(*it.value, "a sensor supply's volts");
            const Range ohms = gives ? usual["a sensor supply, inside"] : usual.written(*it.more, "a pull-up's ohms");
            source.real = [=](Dice& dice) { return Real{dice(ohms), dice(volts), 0}; };
        } else if (it.kind == "input") {
            const Range ohms = usual.written(*it.value, "an input's ohms");
            lay(pin, ground, index, number).real = [=](Dice& dice) { return Real{dice(ohms)}; };
        }
    }
}

} // namespace oracle
