#include "commands/each_plan.hpp"
#include "commands/gather.hpp"
#include "proof/blind.hpp"
#include "proof/reading_table.hpp"
#include "report/gaps_table.hpp"
#include "report/matrix_table.hpp"
#include "report/proof_json.hpp"
#include "report/splits_table.hpp"
#include "report/summary.hpp"
#include "sheet/sheet.hpp"
#include "sheet/template_read.hpp"
#include "sheet/words/printed_signs.hpp"
#include "source/render.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <ostream>

namespace loomsheet {

namespace {
// For people: the answer first, what to write into the plan last.
std::string told(const Plan& plan, const Predictor& sound, const Prediction& prediction, const Diagnosis& diagnosis, bool with_matrix) {
    std::string text = fmt::format("{} {}\n{}\n", plan.id, plan.title, diagnosis_summary(plan, diagnosis));
    text += smallest_table(plan, sound, diagnosis) + "\n" + reading_table(plan, prediction) + "\n";
    if (with_matrix) text += matrix_table(plan, diagnosis.matrix) + "\n";
    const std::string gaps = gaps_table(plan, sound, diagnosis);
    if (!gaps.empty()) text += gaps + "\n";
    const std::string splits = splits_table(plan, sound, diagnosis);
    return splits.empty() ? text : text + splits + "\n";
}

// The cards and the verdicts of the workshop's sheet: all of it that sends anybody anywhere.
SheetTemplate cards_and_verdicts() {
    SheetTemplate sheet = workshop_template();
    const auto sends_nobody = [](const BlockRow* block) { return block->name != "checks" && block->name != "verdicts"; };
    sheet.blocks.erase(std::remove_if(sheet.blocks.begin(), sheet.blocks.end(), sends_nobody), sheet.blocks.end());
    return sheet;
}

nlohmann::ordered_json cards_json(const std::vector<PrintedCard>& cards, const char* what) {
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const PrintedCard& card : cards) {
        nlohmann::ordered_json ways = nlohmann::ordered_json::array();
        for (std::size_t i = 0; i < card.ways.size(); ++i) {
            nlohmann::ordered_json way = {{"words", card.ways[i].words}, {"sign", card.ways[i].sign}};
            if (i < card.outcomes.size()) way["index"] = card.outcomes[i];
            ways.push_back(std::move(way));
        }
        list.push_back({{what, card.label}, {"sign", card.sign}, {"ways", std::move(ways)}});
    }
    return list;
}

// Where each outcome sends the technician, read off the printed page; null without typefaces.
nlohmann::ordered_json arrows(const Plan& plan, const Prediction& prediction, const Diagnosis& diagnosis,
                              const std::optional<Faces>& faces) {
    if (!faces) return {};
    const SheetTemplate sheet = cards_and_verdicts();
    const PrintedSigns signs = printed_signs(lay_out(plan, *faces, {std::nullopt, &diagnosis, &prediction, &sheet}).document);
    return {{"checks", cards_json(signs.checks, "check")}, {"verdicts", cards_json(signs.verdicts, "verdict")}};
}
} // namespace

Exit proof(const Arguments& arguments, const Surroundings& around) {
    const auto [plans, error] = gather(around.disk, arguments.plans);
    if (!error.empty()) return complain(around, error);
    std::string objects; // of the plans, as JSON
    std::string no_faces;
    const std::optional<Faces> faces = arguments.format == Format::json ? Faces::load(no_faces) : std::nullopt;
    const Tally tally = each_plan(plans, around, {around.out, around.out_colour, arguments.format}, {{}, {}, Until::proved},
                                  [&](const std::string&, const Analysis& made) {
                                      if (arguments.format == Format::json)
                                          objects += (objects.empty() ? "" : ",\n") +
                                                     proof_json(*made.plan, *made.sound, *made.prediction, *made.diagnosis,
                                                                arrows(*made.plan, *made.prediction, *made.diagnosis, faces));
                                      if (arguments.format != Format::text) return Done{};
                                      return Done{{}, told(*made.plan, *made.sound, *made.prediction, *made.diagnosis, arguments.matrix)};
                                  });
    if (arguments.format == Format::json) around.out << fmt::format("{{\"plans\": [{}],\n\"findings\": {}}}\n", objects, tally.json);
    if (arguments.format == Format::text) {
        const std::string what = plans.size() == 1 ? shown_name(plans.front()) : fmt::format("{} plans", plans.size());
        around.out << fmt::format("{}: {}\n", what, summary(tally.findings));
    }
    return tally.exit;
}

} // namespace loomsheet
