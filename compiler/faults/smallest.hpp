// How small a fault matters, and how small a fault a check is certain to see: ohms added to a wire, a joint, a ground
// point or a contact. "The fan is starved from 0.08 ohm; the beep is certain to fail from 100 ohm."
#pragma once
#include "faults/diagnosis.hpp"

namespace loomsheet {

struct SeenFrom {
    int check = none;
    std::optional<double> ohms; // added, from which no car passes; none: such cars may pass whatever is added
    bool open = false;          // surely seen where it is open
};

struct Smallest {
    std::size_t fault = 0;      // in the matrix: the one with the least ohms of its place
    PartId load = none;         // that is starved
    double harmful = 0;         // ohm, added, from which the load lacks what it needs, on a usual car: every value usual
    std::vector<SeenFrom> seen; // by the checks that a car with the fault may come to, the most certain first
};

// A check that a car with a harmful fault may pass though the fault, larger, would fail it: it looks like a proof and
// is none.
struct BlindCheck {
    int check = none;
    std::vector<Smallest> blind_to; // worst first; `seen` has this check alone
};

class SmallFaults {
public:
    SmallFaults(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis);
    // Of each place whose added ohms can cause the complaint, by how much later it is seen than it harms, worst first. Of
    // the first `exact` that are seen later the ohms are found to two figures; of the rest they are the end of a band.
    std::vector<Smallest> all(std::size_t exact) const;
    // Those of which a harmful value ends wrong.
    std::vector<BlindCheck> blind() const;

private:
    struct Place { // its bands, lowest first
        std::vector<std::size_t> bands;
        std::optional<std::size_t> open;
    };
    std::optional<std::pair<PartId, double>> harmful_from(const Place& place) const;
    std::vector<int> checks_met(const Place& place) const;
    bool sees(std::size_t fault, int check) const;
    bool moves(std::size_t fault, int check) const;
    SeenFrom roughly(const Place& place, int check) const;
    SeenFrom exactly(const Place& place, int check) const;
    bool is_complaint(const Check& check) const;

    const Plan& plan_;
    const Predictor& sound_;
    const Diagnosis& diagnosis_;
    std::vector<Place> places_;
    struct Use {
        Setup setup;
        std::vector<PartId> loads;
        bool all = false; // must lack, else any
    };
    std::vector<Use> uses_;
};

} // namespace loomsheet
