// Which plans are meant, and where their sheets go.
#pragma once
#include "sheet/sheet.hpp"
#include "source/disk.hpp"
#include <string>
#include <vector>

namespace loomsheet {

struct Gathered {
    std::vector<std::string> plans; // each once, in the order named, those of a folder sorted
    std::string error;              // a folder without a plan
};
Gathered gather(Disk& disk, const std::vector<std::string>& named);

// plans/fan.plan printed into out: out/fan.pdf, as another sheet than `workshop`: out/fan-proof.pdf; standard input:
// out/standard-input.pdf
std::string sheet_path(const std::string& folder, const std::string& plan, const std::string& sheet = "workshop");
// Names two plans that would print into one file; empty when there are none.
std::string clash(const std::string& folder, const std::vector<std::string>& plans, const std::string& sheet = "workshop");

} // namespace loomsheet
