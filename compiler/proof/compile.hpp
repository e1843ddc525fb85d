// The pipeline up to the proof: text -> tree -> model -> rules, in one call.
#pragma once
#include "model/plan.hpp"
#include "faults/prediction.hpp"
#include "source/diagnostic.hpp"
#include "source/disk.hpp"

namespace loomsheet {

struct Compiled {
    Plan plan;
    Findings findings; // sorted
    Prediction prediction; // of sound cars, by check; empty where the plan has errors
    bool usable() const { return !findings.has_errors(); }
};

// Reads `path` from `disk` (and what it uses), adds the files to `sources`. A file that cannot be read gives `unreadable`. `fault`
// is what the command line puts in, empty for none: a source of its own, whose findings stand in it.
struct CompileResult {
    Compiled compiled;
    DiskError unreadable;
};
CompileResult compile(Sources& sources, Disk& disk, const std::string& path, const std::string& fault = {});

} // namespace loomsheet
