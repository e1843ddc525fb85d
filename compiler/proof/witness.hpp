// What stands behind a finding on verdicts: faults in few words, and the readings of a car that has one.
#pragma once
#include "faults/diagnosis.hpp"

namespace loomsheet {

// Suspects with their faults: one of them as a witness, then the likeliest first.
class Told {
public:
    // `sure`: on this way every check comes out so, whatever the tolerances.
    void add(const Candidate& fault, const std::vector<Taken>& way, bool sure = true);
    bool empty() const { return list_.empty(); }
    std::size_t size() const { return list_.size(); }
    // "W1 (open or more than 3 ohm), joint X1.1 (open) and 4 more"
    std::string words(const Circuit& circuit) const;
    // "W1, joint X1.1 and 4 more"
    std::string names(const Circuit& circuit) const;
    // "W1 joint X1.1": to be written behind `blames`; empty where they are many.
    std::string to_blame(const Circuit& circuit) const;
    const Candidate& witness() const { return *witness_; }
    const std::vector<Taken>& way() const { return way_; }

private:
    struct Of {
        Suspect suspect;
        double likely = 0;
        std::vector<const Fault*> faults;
    };
    std::vector<Of> sorted() const;
    std::vector<Of> list_;
    const Candidate* witness_ = nullptr; // the likeliest of those that are sure; of several the one with the shortest way
    bool sure_ = false;
    std::vector<Taken> way_;
};

// "open or more than 3 ohm": bands of added ohms that touch are one range.
std::string faults_words(const std::vector<const Fault*>& faults);

// Cars with a fault, read again.
class Witness {
public:
    Witness(const Plan& plan, const Predictor& sound);
    // "lit says NO, volts passes (12.3 .. 12.9 V), beep may pass"; of a long way the end.
    std::string way(const Fault& fault, const std::vector<Taken>& way) const;
    // What a row reads on all these cars (null: the sound one), where none of them is in doubt; empty otherwise.
    std::string range(const std::vector<const Fault*>& faults, int check, std::size_t row) const;

private:
    const Plan& plan_;
    const Predictor& sound_;
    std::vector<Setup> uses_;
};

} // namespace loomsheet
