#include "circuit/fault.hpp"
#include "commands/each_plan.hpp"
#include "commands/gather.hpp"
#include "proof/reading_table.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

namespace {
// The disk, with a fault planted at the end of each plan that is asked for.
class WithFault : public Disk {
public:
    WithFault(Disk& disk, const std::string& fault, const std::vector<std::string>& plans)
        : disk_(disk), fault_(fault), plans_(plans) {}
    DiskError read(const std::string& path, std::string& text) override {
        DiskError error = disk_.read(path, text);
        const bool asked = std::find(plans_.begin(), plans_.end(), path) != plans_.end();
        if (error.empty() && asked && !fault_.empty()) text += fmt::format("\nplant fault-asked-for {}\n", fault_);
        return error;
    }
    DiskError write_whole(const std::string& path, std::string_view bytes) override {
        return disk_.write_whole(path, bytes);
    }
    bool is_directory(const std::string& path) override { return disk_.is_directory(path); }
    std::vector<std::string> list(const std::string& folder, std::string_view ending) override {
        return disk_.list(folder, ending);
    }
    DiskError make_directory(const std::string& path) override { return disk_.make_directory(path); }

private:
    Disk& disk_;
    const std::string& fault_;
    const std::vector<std::string>& plans_;
};

std::string blown_words(const Circuit& circuit, const std::vector<PartId>& blown) {
    std::string words;
    for (const PartId part : blown)
        words += fmt::format("{} has blown before the first check.\n", circuit.part_name(part));
    return words;
}
} // namespace

Exit predict(const Arguments& arguments, const Surroundings& around) {
    const auto [plans, error] = gather(around.disk, arguments.plans);
    if (!error.empty()) return complain(around, error);
    WithFault disk(around.disk, arguments.fault, plans);
    const Surroundings with_fault{disk, around.out, around.err, around.out_colour, around.err_colour, around.progress};
    const Tongue tongue{around.err, around.err_colour, arguments.format};
    const Tally tally = each_plan(plans, with_fault, tongue, [&](const std::string&, Compiled& compiled) {
        const Plan& plan = compiled.plan;
        const std::string name = fmt::format("{} {}", plan.id, plan.title);
        const Predictor sound(plan.circuit, system_volts(plan));
        if (arguments.fault.empty())
            return Done{{}, fmt::format("{}: sound\n{}", name, reading_table(plan, predict(plan, sound)))};
        const Fault& fault = plan.plants.back().fault;
        const Predictor faulty(sound, fault, normal_use(plan));
        return Done{{},
                    fmt::format("{}: {}\n{}{}", name, fault_words(plan.circuit, fault),
                                blown_words(plan.circuit, faulty.blown_before()),
                                reading_table(plan, predict(plan, faulty)))};
    });
    around.err << tally.json;
    return tally.exit;
}

} // namespace loomsheet
