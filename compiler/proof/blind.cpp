#include "proof/blind.hpp"
#include "circuit/fault.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace loomsheet {
namespace {

constexpr std::size_t most_late = 8;

std::string starved_words(const Circuit& circuit, PartId load) {
    switch (row_of(circuit.parts[load].kind).watched) {
    case Watched::armature: return circuit.parts[load].id + " does not pull in";
    case Watched::unit: return circuit.parts[load].id + " does not work";
    case Watched::load:
    case Watched::link: break;
    }
    return circuit.parts[load].id + " is starved";
}

std::string certain_words(const SeenFrom& seen) {
    if (seen.ohms) return fmt::format("this check is certain to fail only from {}", added_words(*seen.ohms));
    return seen.open ? "this check is certain to fail only where it is open"
                     : "this check may pass whatever is added, even where it is open";
}

std::string seen_words(const SeenFrom& seen) { return seen.ohms ? added_words(*seen.ohms) : seen.open ? "where open" : "no reading"; }

std::string by_words(const Plan& plan, const SmallRow& row) {
    if (row.seen.check != none) return plan.checks[row.seen.check].label;
    return row.found ? "it is left when all else passes" : "no check on its way";
}

// The place of a candidate: a wire or joint as a whole, else where its fault is.
PointRef place_of(const Candidate& fault) {
    if (fault.suspect.part != none) return fault.fault.at_point;
    PointRef place;
    place.metal = fault.suspect.wire != none ? Metal::whole : Metal::joint;
    place.wire = fault.suspect.wire;
    place.pin = fault.suspect.joint;
    return place;
}

bool is_late(const Smallest& small) { return small.seen.empty() || !small.seen.front().ohms || *small.seen.front().ohms > small.harmful; }

} // namespace

std::string added_words(double ohms) {
    const double shown = ohms < 0.1 ? ohms * 1e3 : ohms;
    const double step = std::pow(10, std::floor(std::log10(shown)) - 1);
    return fmt::format("{:.4g} {}", std::round(shown / step) * step, ohms < 0.1 ? "mohm" : "ohm");
}

void prove_blind(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, Findings& findings) {
    const Circuit& circuit = plan.circuit;
    const bool slips = std::any_of(diagnosis.ends.begin(), diagnosis.ends.end(),
                                   [](const FaultEnds& ends) { return ends.fate == Fate::wrong || ends.fate == Fate::missed; });
    if (!slips) return;
    for (const BlindCheck& each : SmallFaults(plan, sound, diagnosis).blind()) {
        const Check& check = plan.checks[each.check];
        const Smallest& worst = each.blind_to.front();
        const auto place = [&](const Smallest& small) { return written_point(circuit, place_of(diagnosis.matrix.faults[small.fault])); };
        std::vector<std::string> others;
        for (std::size_t i = 1; i < each.blind_to.size(); ++i)
            others.push_back(place(each.blind_to[i]));
        findings.add(finding::check_passes_what_harms, check.measure_at,
                     fmt::format("{} may pass what harms: with ohms added in {}, {} from {} on, and {}{}", check.label, place(worst),
                                 starved_words(circuit, worst.load), added_words(worst.harmful), certain_words(worst.seen.front()),
                                 others.empty() ? "" : fmt::format("; much the same with {}", list_words(others, "and", 5))),
                     fmt::format("write a drop over {} while {} draws its current, all plugged in: `drop` from one end "
                                 "to the other, `expect below` a few tenths of a volt",
                                 place(worst), circuit.parts[worst.load].id));
    }
}

std::vector<SmallRow> small_rows(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, std::size_t exact) {
    std::vector<SmallRow> rows;
    for (const Smallest& small : SmallFaults(plan, sound, diagnosis).all(exact))
        rows.push_back({place_of(diagnosis.matrix.faults[small.fault]), small.harmful, small.seen.empty() ? SeenFrom{} : small.seen.front(),
                        diagnosis.ends[small.fault].fate == Fate::found, is_late(small)});
    return rows;
}

std::string smallest_table(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis) {
    const std::vector<SmallRow> rows = small_rows(plan, sound, diagnosis, most_late);
    if (rows.empty()) return {};
    std::vector<std::vector<std::string>> lines{{"ohms added in", "harm from", "surely seen from", "by"}};
    std::size_t late = 0;
    for (const SmallRow& row : rows)
        if (row.late && ++late <= most_late)
            lines.push_back(
                {written_point(plan.circuit, row.place), added_words(row.harms_from), seen_words(row.seen), by_words(plan, row)});
    std::string text = late == 0 ? std::string() : laid_out(lines);
    if (late > most_late) text += fmt::format("and {} more\n", late - most_late);
    return text + fmt::format("Of {} wires, joints and contacts where ohms may be added, surely seen before they harm: {}.\n", rows.size(),
                              rows.size() - late);
}

} // namespace loomsheet
