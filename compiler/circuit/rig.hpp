// Settings that are kept. The network of a set-up with its instrument is built once for all cars of a circuit; the fault of
// a car is put in when that car is measured and taken out when another is.
#pragma once
#include "circuit/setting.hpp"
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

namespace loomsheet {

bool has_part(const std::vector<PartId>& list, PartId part);
Blown surely_blown(const std::vector<Blown>& alternatives); // fuses: in every one of these

class Rigs;
struct RiggedCar;

// One set-up with its instrument, as one car has it. What it hands out holds until another car is measured.
class Rig {
public:
    Setting& setting() const { return *setting_; }
    const Stands& stands();

private:
    friend class Rigs;
    Rigs* home_ = nullptr;
    RiggedCar* car_ = nullptr;
    std::size_t place_ = 0;
    Setting* setting_ = nullptr;   // the kept one, or its own
    std::unique_ptr<Setting> own_; // where the fault changes what the instrument lies round
    std::unique_ptr<Stands> stands_;
};

// What one car has been measured with; its fault, and what was before: fuses that were blown, uses.
struct RiggedCar {
    std::size_t number = 0; // no two cars have the same; 0 is none
    const Fault* fault = nullptr;
    const std::vector<Blown>* blown = nullptr;
    const std::vector<Setup>* uses = nullptr;  // before; of a sound car any may have been
    std::optional<std::vector<PartId>> was_on; // relays and modules, in one of these uses or in one that came after another
    std::unordered_map<std::size_t, Rig> rigs; // by place
};

// All set-ups of one circuit. Not for two threads.
class Rigs {
public:
    Rigs(const Circuit& circuit, std::shared_ptr<const Parameters> parameters);
    Rigs(const Rigs&) = delete;
    Rigs& operator=(const Rigs&) = delete;

    RiggedCar car(const Fault* fault, const std::vector<Blown>& blown, const std::vector<Setup>& uses) {
        return {++cars_, fault, &blown, &uses, {}, {}};
    }
    // `row` is null where nothing is measured. Loads are placed.
    Rig& at(RiggedCar& car, const Setup& setup, MeasureKind measure, const Row* row, double ohms_volts);

private:
    friend class Rig;
    struct Kept {
        Setting setting;
        std::size_t bare = 0; // of a meter that hardly loads: the place of the same set-up without it; else its own
        double pushes = 0;    // A that such a meter can send through anything
        Setup setup;
        MeasureKind measure = MeasureKind::look;
        std::optional<Row> row;
        double ohms_volts = 0;
        // --- the fault that is in
        std::size_t tenant = 0; // the number of its car
        std::vector<std::pair<int, NetBranch>> as_they_were;
        std::size_t branches = 0, parameters = 0;
        bool stale = false;           // a fault has been taken out since its bench was renewed
        std::unique_ptr<Bench> bench; // the one without it, while new branches need another
    };
    std::size_t place(const Setup& setup, MeasureKind measure, const Row* row, double ohms_volts);
    Rig& at(RiggedCar& car, std::size_t place);
    const std::vector<PartId>& was_on(RiggedCar& car);
    void put_in(Kept& kept, const RiggedCar& car);
    void take_out(Kept& kept) const;

    const Circuit& circuit_;
    std::shared_ptr<const Parameters> parameters_;
    std::size_t cars_ = 0;
    std::unordered_map<std::string, std::size_t> places_;
    std::vector<std::unique_ptr<Kept>> kept_; // by place
};

} // namespace loomsheet
