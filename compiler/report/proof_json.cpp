#include "report/proof_json.hpp"
#include "circuit/fault.hpp"
#include "faults/coverage.hpp"
#include "faults/smallest.hpp"
#include "planning/written.hpp"
#include "report/matrix_table.hpp"
#include "report/plan_json.hpp"
#include "report/reading_json.hpp"
#include <nlohmann/json.hpp>

namespace loomsheet {
namespace {

using Json = nlohmann::ordered_json;

std::string_view fate_word(Fate fate) {
    switch (fate) {
    case Fate::found: return "found";
    case Fate::open: return "open";
    case Fate::missed: return "missed";
    case Fate::wrong: break;
    }
    return "wrong";
}
std::string_view judgement_word(Judgement judgement) {
    switch (judgement) {
    case Judgement::found: return "found";
    case Judgement::wrong: return "wrong";
    case Judgement::missed: return "missed";
    case Judgement::open: break;
    }
    return "open";
}

std::string_view end_word(EndKind kind) {
    switch (kind) {
    case EndKind::verdict: return "verdict";
    case EndKind::suspects: return "stop";
    case EndKind::done: break;
    }
    return "done";
}
Json way_of(const Plan& plan, const std::vector<Taken>& way) {
    Json list = Json::array();
    for (const Taken& step : way)
        list.push_back({{"check", plan.checks[step.check].label},
                        {"outcome", step.outcome == Taken::jumps ? "J" : cell_words(plan.checks[step.check], outcome_bit(step.outcome))},
                        {"index", step.outcome == Taken::jumps ? Json() : Json(step.outcome)}});
    return list;
}

Json figures_of(const Plan& plan, const Figures& f) {
    const Isolation& told = f.isolation;
    return {{"found", f.found},
            {"stops", f.open},
            {"stops_where_a_reading_jumps", f.jumps},
            {"called_sound", f.missed},
            {"blames_else", f.wrong},
            {"found_by_number", told.found_plain},
            {"to_one", told.to_one},
            {"to_two", told.to_two},
            {"to_three", told.to_three},
            {"group", told.group},
            {"first_right", told.first_right},
            {"tries", told.tries},
            {"checks", f.checks},
            {"most_checks", f.most_checks},
            {"minutes", f.minutes},
            {"most_minutes", f.most_minutes},
            {"longest_way", way_of(plan, f.longest)},
            {"false_alarm", f.false_alarm}};
}

Json coverage_of(const Plan& plan, const Diagnosis& diagnosis) {
    Json list = Json::array();
    for (const Covered& each : covered(diagnosis)) {
        Json verdicts = Json::array();
        for (const int verdict : each.verdicts)
            verdicts.push_back(plan.verdicts[verdict].label);
        list.push_back({{"suspect", suspect_point(plan.circuit, each.suspect)},
                        {"found", each.found / each.all},
                        {"wrong_verdicts", std::move(verdicts)},
                        {"called_sound", each.sound},
                        {"stops", each.open}});
    }
    return list;
}

Json points_of(const Plan& plan, const std::vector<Suspect>& suspects) {
    Json list = Json::array();
    for (const Suspect& each : suspects)
        list.push_back(suspect_point(plan.circuit, each));
    return list;
}

Json verdicts_of(const Plan& plan, const Diagnosis& diagnosis) {
    const std::vector<Left> by_verdict = groups(diagnosis);
    const std::vector<int> doubtful = doubtful_ends(diagnosis).verdicts;
    Json list = Json::array();
    for (int v = 0; v < static_cast<int>(plan.verdicts.size()); ++v) {
        Json suspects = Json::array();
        for (const Left& group : by_verdict)
            if (group.verdict == v) suspects = points_of(plan, group.suspects);
        list.push_back({{"verdict", plan.verdicts[v].label},
                        {"holds", std::find(doubtful.begin(), doubtful.end(), v) == doubtful.end()},
                        {"suspects", std::move(suspects)}});
    }
    return list;
}

Json checks_of(const Plan& plan, const Prediction& prediction, const Diagnosis& diagnosis) {
    const std::vector<int> doubtful = doubtful_ends(diagnosis).stops;
    Json list = readings_json(plan, prediction);
    for (std::size_t i = 0; i < plan.checks.size(); ++i) {
        list[i]["sound"] = cell_words(plan.checks[i], diagnosis.matrix.sound[i]);
        list[i]["suspects_hold"] = std::find(doubtful.begin(), doubtful.end(), static_cast<int>(i)) == doubtful.end();
    }
    return list;
}

Json endings_of(const Plan& plan, const std::vector<Ending>& endings) {
    Json list = Json::array();
    for (const Ending& each : endings) {
        Json ending;
        if (each.verdict != none) ending["verdict"] = plan.verdicts[each.verdict].label;
        ending["ends"] = end_word(each.kind);
        ending["way"] = way_of(plan, each.way);
        list.push_back(std::move(ending));
    }
    return list;
}

Json faults_of(const Plan& plan, const Diagnosis& diagnosis) {
    Json list = Json::array();
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i) {
        const Candidate& fault = diagnosis.matrix.faults[i];
        const FaultEnds& ends = diagnosis.ends[i];
        Json cells = Json::array(), endings = endings_of(plan, ends.endings);
        for (std::size_t c = 0; c < plan.checks.size(); ++c)
            cells.push_back(cell_words(plan.checks[c], diagnosis.matrix.cells[i][c]));
        for (std::size_t e = 0; e < ends.endings.size(); ++e)
            endings[e]["judged"] = judgement_word(ends.judged[e]);
        list.push_back({{"fault", fault_words(plan.circuit, fault.fault)},
                        {"put_in", fault_json(plan.circuit, fault.fault)},
                        {"suspect", suspect_point(plan.circuit, fault.suspect)},
                        {"likely", fault.likely},
                        {"complains", diagnosis.matrix.harm[i] == Truth::yes ? "yes" : "maybe"},
                        {"fate", fate_word(ends.fate)},
                        {"cells", std::move(cells)},
                        {"endings", std::move(endings)}});
    }
    return list;
}

// Ohms that are added: from how many on they harm, and from how many on a check is certain to fail (null: never).
Json small_faults_of(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis) {
    Json list = Json::array();
    for (const Smallest& each : SmallFaults(plan, sound, diagnosis).all(diagnosis.matrix.faults.size())) {
        Json seen = Json::array();
        for (const SeenFrom& one : each.seen)
            seen.push_back({{"check", plan.checks[one.check].label}, {"ohms", one.ohms ? Json(*one.ohms) : Json()}, {"open", one.open}});
        list.push_back({{"place", written_point(plan.circuit, diagnosis.matrix.faults[each.fault].fault.at_point)},
                        {"load", plan.circuit.parts[each.load].id},
                        {"harm_from", each.harmful},
                        {"seen", std::move(seen)}});
    }
    return list;
}

// Where faults end wrong, and the checks that close it.
Json gaps_of(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis) {
    Json list = Json::array();
    const std::vector<Gap> all = gaps(plan, sound, diagnosis, most_gaps);
    for (std::size_t g = 0; g < all.size(); ++g) {
        const Gap& gap = all[g];
        const auto faults = [&](const std::vector<std::size_t>& which) {
            Json words = Json::array();
            for (const std::size_t each : which)
                words.push_back(fault_words(plan.circuit, diagnosis.matrix.faults[each].fault));
            return words;
        };
        Json arrows = Json::array(), closings = Json::array();
        for (const Taken& arrow : gap.arrows)
            arrows.push_back(way_of(plan, {arrow}).front());
        for (std::size_t c = 0; c < gap.closings.size(); ++c)
            closings.push_back({{"check", written_closing(plan, gap, c)},
                                {"minutes", gap.closings[c].minutes},
                                {"tells", faults(gap.closings[c].closes)}});
        Json made = {
            {"ends_at", target_words(plan, gap)}, {"likely", gap.likely}, {"from", std::move(arrows)}, {"faults", faults(gap.faults)}};
        made["searched"] = g < most_gaps;
        made["closed_by"] = std::move(closings);
        made["not_told"] = faults(gap.unseen), made["not_to_be_seen"] = faults(gap.invisible);
        list.push_back(std::move(made));
    }
    return list;
}

// Verdicts that leave more than three things, and the checks that part them.
Json splits_of(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis) {
    Json list = Json::array();
    for (const Split& each : splits(plan, sound, diagnosis, most_splits)) {
        Json made = {
            {"verdict", plan.verdicts[each.left.verdict].label}, {"leaves", points_of(plan, each.left.suspects)}, {"tried", each.tried}};
        made["alike"] = each.alike;
        if (each.check)
            made["check"] = written_split(plan, each), made["minutes"] = each.minutes, made["pass_leaves"] = points_of(plan, each.passing),
            made["fail_leaves"] = points_of(plan, each.failing);
        list.push_back(std::move(made));
    }
    return list;
}

} // namespace

std::string proof_json(const Plan& plan, const Predictor& sound, const Prediction& prediction, const Diagnosis& diagnosis,
                       const nlohmann::ordered_json& arrows) {
    Json harmless = Json::array(), cleared = Json::array();
    for (const Candidate& each : diagnosis.matrix.harmless) {
        harmless.push_back(fault_words(plan.circuit, each.fault));
        cleared.push_back({{"put_in", fault_json(plan.circuit, each.fault)}, {"likely", each.likely}});
    }
    Json made = {{"id", plan.id},
                 {"title", plan.title},
                 {"figures", figures_of(plan, diagnosis.figures)},
                 {"coverage", coverage_of(plan, diagnosis)},
                 {"verdicts", verdicts_of(plan, diagnosis)},
                 {"checks", checks_of(plan, prediction, diagnosis)},
                 {"gaps", gaps_of(plan, sound, diagnosis)},
                 {"splits", splits_of(plan, sound, diagnosis)},
                 {"small_faults", small_faults_of(plan, sound, diagnosis)},
                 {"faults", faults_of(plan, diagnosis)},
                 {"harmless", std::move(harmless)},
                 {"harmless_put_in", std::move(cleared)},
                 {"sound_endings", endings_of(plan, diagnosis.sound)},
                 {"plan", plan_json(plan)},
                 {"usual", usual_json()},
                 {"arrows", arrows}};
    return made.dump(1, ' ', false, Json::error_handler_t::replace);
}

} // namespace loomsheet
