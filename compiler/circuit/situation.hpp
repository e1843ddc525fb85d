// What a set-up says about the things that move and that come off.
#pragma once
#include "model/plan.hpp"
#include <string>
#include <string_view>

namespace loomsheet {

class Situation {
public:
    Situation(const Circuit& circuit, const Setup& setup);

    const std::string& key() const { return key_; } // off, acc, on, crank; on where the engine runs
    bool running() const { return running_; }       // the engine
    bool asleep() const { return asleep_; }
    bool holds(const Condition& condition) const;
    // Pulled, or its plug is off.
    bool taken_off(PartId part) const;
    bool disconnected(PinId pin) const;
    // Called in the set-up, or it follows a switch that does not stand at rest.
    bool output_on(const Element& output) const;
    // Whether a switch stands at this position; `normal` is the first one. A part that is moved stands at both.
    bool at_position(PartId part, std::string_view position, bool normal) const;
    // The item that says at what temperature, or at which position, a part stands; null where none does.
    const SetupItem* held_at(PartId part) const;

private:
    template <class Says>
    bool any(const Says& says) const;
    const Circuit& circuit_;
    const Setup& setup_;
    std::string key_ = "off";
    bool running_ = false, asleep_ = false;
};

} // namespace loomsheet
