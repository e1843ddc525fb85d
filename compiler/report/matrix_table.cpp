#include "report/matrix_table.hpp"
#include "proof/witness.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <map>

namespace loomsheet {
namespace {

constexpr std::size_t most_columns = 24; // of checks side by side

std::size_t row_number(const Check& check, const std::string& name) {
    for (std::size_t r = 0; r < check.rows.size(); ++r)
        if (check.rows[r].name == name) return r + 1;
    return 0;
}

std::string outcome_letter(const Check& check, std::size_t index) {
    const bool look = check.measure == MeasureKind::look;
    if (index >= check.outcomes.size()) return look ? "N" : "X";
    const Outcome& outcome = check.outcomes[index];
    const std::size_t row = outcome.row.empty() ? 0 : row_number(check, outcome.row);
    const auto with_row = [&](char letter) {
        return row > 0 && check.rows.size() > 1 ? fmt::format("{}{}", letter, row) : std::string(1, letter);
    };
    switch (outcome.kind) {
    case OutcomeKind::pass: return ".";
    case OutcomeKind::fail: return look ? "N" : with_row('X');
    case OutcomeKind::low: return with_row('L');
    case OutcomeKind::high: return with_row('H');
    case OutcomeKind::open: return with_row('O');
    case OutcomeKind::no_current: return with_row('I');
    case OutcomeKind::band: return with_row('B');
    case OutcomeKind::answer: break;
    }
    char letter = 'a';
    for (std::size_t i = 0; i < index; ++i)
        if (check.outcomes[i].kind == OutcomeKind::answer && letter < 'z') ++letter;
    return std::string(1, letter);
}

// "W1 (open), joint X1.1 (3 .. 30 mohm) and 4 more"
std::string faults_of(const Plan& plan, const Matrix& matrix, const Alike& group) {
    std::vector<std::pair<Suspect, std::vector<const Fault*>>> list;
    for (const std::size_t each : group.faults) {
        const Candidate& fault = matrix.faults[each];
        auto at = std::find_if(list.begin(), list.end(), [&](const auto& one) { return one.first == fault.suspect; });
        if (at == list.end()) at = list.insert(at, {fault.suspect, {}});
        at->second.push_back(&fault.fault);
    }
    std::vector<std::string> words;
    for (const auto& [suspect, faults] : list)
        words.push_back(fmt::format("{} ({})", suspect_point(plan.circuit, suspect), faults_words(faults)));
    return list_words(words, "and", 3);
}

} // namespace

std::vector<Alike> alike(const Matrix& matrix) {
    std::vector<Alike> list;
    std::map<std::vector<OutcomeSet>, std::size_t> known;
    for (std::size_t i = 0; i < matrix.faults.size(); ++i) {
        const auto [at, is_new] = known.try_emplace(matrix.cells[i], list.size());
        if (is_new) list.emplace_back();
        list[at->second].faults.push_back(i);
    }
    return list;
}

std::string cell_words(const Check& check, OutcomeSet set) {
    if (set & stop_bit) return set == stop_bit ? "J" : "j";
    std::size_t pass = check.outcomes.size() + 1, first = pass, count = 0;
    for (std::size_t i = 0; i <= check.outcomes.size(); ++i) {
        if ((set & outcome_bit(i)) == 0) continue;
        if (count++ == 0) first = i;
        if (i < check.outcomes.size() && check.outcomes[i].kind == OutcomeKind::pass) pass = i;
    }
    if (count == 1) return outcome_letter(check, first);
    return pass <= check.outcomes.size() ? "?" : "x";
}

std::string matrix_table(const Plan& plan, const Matrix& matrix) {
    std::string text = "Checks:";
    for (std::size_t i = 0; i < plan.checks.size(); ++i)
        text += fmt::format("{}{} {}", i % 6 == 0 ? "\n  " : "  ", i + 1, plan.checks[i].label);
    text += "\n. passes   X fails (X2: at its second row)   L low   H high   O open   I no current   B in a band   N the look says NO   a, "
            "b its answers\n"
            "? may pass or not   x does not pass, by tolerance in one way or another   J jumps   j may jump\n";
    const std::vector<Alike> groups = alike(matrix);
    for (std::size_t first = 0; first < plan.checks.size(); first += most_columns) {
        const std::size_t last = std::min(first + most_columns, plan.checks.size());
        text += "\n";
        for (std::size_t i = first; i < last; ++i)
            text += fmt::format("{:<4}", i + 1);
        text += "\n";
        const auto line = [&](const std::vector<OutcomeSet>& cells, const std::string& words) {
            for (std::size_t i = first; i < last; ++i)
                text += fmt::format("{:<4}", cell_words(plan.checks[i], cells[i]));
            text += words + "\n";
        };
        line(matrix.sound, "sound");
        for (const Alike& each : groups)
            line(matrix.cells[each.faults.front()], faults_of(plan, matrix, each));
    }
    return text;
}

} // namespace loomsheet
