// The way from text to proof, in one function: text, circuit, sound car, predictions, outcomes, proof. Each stage is made once, by
// a pure function of the stages before it, and never changes.
#pragma once
#include "analysis/kept.hpp"
#include "faults/diagnosis.hpp"
#include "source/diagnostic.hpp"
#include "source/disk.hpp"
#include "source/stop.hpp"

namespace loomsheet {

// How far to go: to what sound cars read; to where each fault ends in the printed plan; to what that says against its verdicts.
enum class Until : std::uint8_t { predicted, walked, proved };

struct Request {
    std::string path;
    std::string fault = {}; // that the command line puts in, as a plan writes it; empty: none
    Until until = Until::predicted;
};

struct Analysis {
    DiskError unreadable; // of the plan's own file: then there is nothing else
    Findings findings;    // LS0xx to LS6xx, sorted
    std::shared_ptr<const Plan> plan;
    // Of a plan without errors in `findings`:
    std::shared_ptr<const Predictor> sound;
    std::shared_ptr<const Prediction> prediction; // of sound cars
    std::shared_ptr<const Diagnosis> diagnosis;   // from `walked` on
    Findings proof_findings;                      // LS7xx, of `proved`; sorted
    bool usable() const { return !findings.has_errors(); }
};

// Adds the files that it reads to `sources`. Throws `Stopped` when `stop` says so.
Analysis analyse(Sources& sources, Disk& disk, const Request& request, Kept& kept, const Stop& stop = {});
// With nothing kept.
Analysis analyse(Sources& sources, Disk& disk, const Request& request);

} // namespace loomsheet
