#include "commands/each_plan.hpp"
#include "source/render.hpp"
#include <algorithm>
#include <exception>
#include <fmt/format.h>
#include <ostream>

namespace loomsheet {

namespace {
// One line on a terminal, written over and over; only when there is something to wait for.
class Progress {
public:
    Progress(const Surroundings& around, std::size_t plans) : err_(around.err), plans_(plans), on_(around.progress && plans > 1) {}
    void next(const std::string& path) {
        ++at_;
        if (on_) err_ << fmt::format("\r\x1b[K{} of {}  {:.60}", at_, plans_, path) << std::flush;
    }
    void clear() {
        if (on_) err_ << "\r\x1b[K" << std::flush;
    }

private:
    std::ostream& err_;
    std::size_t plans_;
    std::size_t at_ = 0;
    bool on_;
};

struct Turn { // of one plan
    Findings findings;
    Done done;
    std::string bug;
};
Turn take(Sources& sources, Disk& disk, const Request& request, const Then& then) {
    Turn turn;
    try {
        Analysis analysis = analyse(sources, disk, request);
        turn.done.error = std::move(analysis.unreadable);
        if (turn.done.error.empty() && analysis.usable()) turn.done = then(request.path, analysis);
        turn.findings = std::move(analysis.findings);
        turn.findings.add(std::move(analysis.proof_findings));
        turn.findings.add(std::move(turn.done.findings));
        turn.findings.sort();
    } catch (const std::exception& failure) {
        turn.bug = failure.what();
    }
    return turn;
}

Exit exit_of(const Turn& turn) {
    if (!turn.bug.empty()) return Exit::bug;
    if (!turn.done.error.empty()) return Exit::usage;
    return turn.findings.has_errors() ? Exit::errors : Exit::clean;
}
} // namespace

std::string rendered(const Sources& sources, const Findings& findings, const Tongue& tongue) {
    switch (tongue.format) {
    case Format::text: return render_text(sources, findings, {.colour = tongue.colour});
    case Format::brief: return render_short(sources, findings, {.colour = tongue.colour});
    case Format::json: break;
    }
    return {}; // at the end, as one array
}

Tally each_plan(const std::vector<std::string>& plans, const Surroundings& around, const Tongue& tongue, const Request& request,
                const Then& then) {
    Tally tally;
    Sources sources;
    Progress progress(around, plans.size());
    for (const std::string& path : plans) {
        progress.next(path);
        const Turn turn = take(sources, around.disk, {path, request.fault, request.until}, then);
        progress.clear();
        tongue.stream << rendered(sources, turn.findings, tongue);
        if (!turn.done.error.empty()) complain(around, turn.done.error);
        if (!turn.bug.empty())
            complain(around, fmt::format("this is a fault of Loomsheet, not of {}: {}\n"
                                         "Please report it, with the plan if you may.",
                                         shown_name(path), turn.bug));
        around.out << turn.done.says;
        tally.exit = std::max(tally.exit, exit_of(turn));
        tally.well += exit_of(turn) == Exit::clean ? 1 : 0;
        tally.findings.add(turn.findings);
    }
    if (tongue.format == Format::json) tally.json = render_json(sources, tally.findings);
    return tally;
}

} // namespace loomsheet
