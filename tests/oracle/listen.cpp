// What a control unit hears of a switch: tried on a car whose values are all usual, the switch at rest and operated.
#include "oracle/stand.hpp"

namespace oracle {

void Loom::listen() {
    const auto levels = [&](const Setting& setting, int module) {
        Dice values(1, Manner::usual), hand(1, Manner::usual);
        const Damage none_there;
        Car car(*this, values, none_there, hand);
        Stand stand(*this, setting, {}, none_there);
        const Rest rest = stand.settle(car, false);
        std::vector<double> made;
        for (std::size_t e = 0; e < plan.parts[module].elements.size(); ++e)
            made.push_back(stand.level(car, rest.now.volts, module, static_cast<int>(e)));
        return made;
    };
    const auto hear = [&](int module, int output, const Setting& at_rest, const Setting& operated) {
        const std::vector<double> before = levels(at_rest, module), after = levels(operated, module);
        const double high = usual["an input reads high from, of its pull-up's or the system's volts"].usual,
                     low = usual["an input reads low up to, of the same"].usual;
        for (std::size_t e = 0; e < before.size(); ++e) {
            const Element& input = plan.parts[module].elements[e];
            if (input.kind != "input" && input.kind != "pull-up") continue;
            const bool rises = before[e] <= low && after[e] >= high, falls = before[e] >= high && after[e] <= low;
            if (rises || falls) return void(heard_.try_emplace({module, output}, Heard{input.a, rises}));
        }
    };
    for (std::size_t m = 0; m < plan.parts.size(); ++m)
        for (std::size_t o = 0; o < plan.parts[m].elements.size(); ++o) {
            const Element& output = plan.parts[m].elements[o];
            if (output.kind != "output" || output.follows == none) continue;
            for (const char* key : {"on", "crank", "acc", "off"}) {
                Setting at_rest;
                at_rest.key = key;
                for (const TableRow& position : plan.parts[output.follows].positions) {
                    Setting operated = at_rest;
                    operated.position[output.follows] = position.position;
                    hear(static_cast<int>(m), static_cast<int>(o), at_rest, operated);
                }
                if (plan.parts[output.follows].positions.empty()) hear(static_cast<int>(m), static_cast<int>(o), Setting{}, at_rest);
            }
        }
}

} // namespace oracle
