#include "commands/gather.hpp"
#include "source/text.hpp"
#include <filesystem>
#include <fmt/format.h>
#include <map>
#include <set>

namespace loomsheet {

namespace fs = std::filesystem;

Gathered gather(Disk& disk, const std::vector<std::string>& named) {
    Gathered gathered;
    std::set<std::string> seen;
    for (const std::string& name : named) {
        const bool folder = disk.is_directory(name);
        const std::vector<std::string> plans = folder ? disk.list(name, ".plan") : std::vector{name};
        if (plans.empty()) gathered.error = fmt::format("there is no file ending in .plan in the folder {}", name);
        for (const std::string& plan : plans)
            if (seen.insert(fs::path(plan).lexically_normal().string()).second) gathered.plans.push_back(plan);
    }
    return gathered;
}

std::string sheet_path(const std::string& folder, const std::string& plan, const std::string& sheet) {
    const std::string stem = plan == "-" ? "standard-input" : fs::path(plan).stem().string();
    return (fs::path(folder) / (stem + (sheet == "workshop" ? "" : "-" + sheet) + ".pdf")).lexically_normal().string();
}

std::string clash(const std::string& folder, const std::vector<std::string>& plans, const std::string& sheet) {
    std::map<std::string, std::string> taken; // sheet -> plan
    for (const std::string& plan : plans) {
        const auto [first, fresh] = taken.emplace(sheet_path(folder, plan, sheet), plan);
        if (!fresh)
            return fmt::format("{} and {} would both be printed as {}: give one another name, or print them into two folders",
                               shown_name(first->second), shown_name(plan), first->first);
    }
    return {};
}

} // namespace loomsheet
