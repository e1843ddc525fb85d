#include "drawing/drawing.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

class Collector {
public:
    explicit Collector(const Circuit& circuit) : circuit_(circuit) {}
    void add(const PointRef& point, int number) {
        if (point.metal == Metal::body) return;
        if (point.wire != none) return put(probes.wires[point.wire], number);
        if (!point.pins.empty())
            for (const PinId pin : point.pins)
                put(probes.pins[pin], number);
        else if (point.pin != none)
            put(probes.pins[point.pin], number);
        else if (point.part != none && !circuit_.parts[point.part].pins.empty())
            put(probes.pins[circuit_.parts[point.part].pins.front()], number);
    }
    Probes probes;

private:
    static void put(std::vector<int>& list, int number) {
        const auto at = std::lower_bound(list.begin(), list.end(), number);
        if (at == list.end() || *at != number) list.insert(at, number);
    }
    const Circuit& circuit_;
};

} // namespace

Probes probes_of(const Plan& plan, const std::vector<int>& numbers) {
    Collector collector(plan.circuit);
    for (std::size_t i = 0; i < plan.checks.size(); ++i)
        for (const Row& row : plan.checks[i].rows) {
            collector.add(row.red, numbers[i]);
            if (plan.checks[i].measure != MeasureKind::amps && plan.checks[i].measure != MeasureKind::clamp)
                collector.add(row.black, numbers[i]);
        }
    return std::move(collector.probes);
}

} // namespace loomsheet::drawing
