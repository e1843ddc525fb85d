#include "report/reading_json.hpp"
#include "circuit/fault.hpp"
#include "faults/answers.hpp"
#include "proof/reading_table.hpp"
#include "report/matrix_table.hpp"
#include <nlohmann/json.hpp>

namespace loomsheet {
namespace {

using Json = nlohmann::ordered_json;

std::string_view kind_word(ReadingKind kind) {
    switch (kind) {
    case ReadingKind::number: return "number";
    case ReadingKind::open: return "open";
    case ReadingKind::floating: return "floats";
    case ReadingKind::yes: return "yes";
    case ReadingKind::no: return "no";
    case ReadingKind::unsure: return "either";
    case ReadingKind::chatters: return "chatters";
    case ReadingKind::history: return "history";
    case ReadingKind::beyond: break;
    }
    return "beyond";
}

Json row_json(const Plan& plan, const Check& check, const Row& row, const RowPrediction& made) {
    const Reading& reading = made.reading;
    Json json;
    if (!row.name.empty()) json["name"] = row.name;
    json["red"] = written_point(plan.circuit, row.red);
    json["black"] = written_point(plan.circuit, row.black);
    json["reads"] = range_words(plan.circuit, reading, check.measure, finest_step(made.limit));
    json["kind"] = kind_word(reading.kind), json["may_chatter"] = reading.may_chatter, json["may_float"] = reading.floats,
    json["may_be_open"] = reading.may_be_open;
    if (reading.kind == ReadingKind::number) json["value"] = reading.value, json["low"] = reading.low, json["high"] = reading.high;
    if (check.measure == MeasureKind::drop && reading.kind == ReadingKind::number) json["amps"] = reading.carried;
    if (made.difference && made.difference->kind == ReadingKind::number)
        json["difference"] = {{"low", made.difference->low}, {"high", made.difference->high}};
    if (made.limit) json["limit"] = written_limit(plan, *made.limit), json["fit"] = fit_words(made.fit);
    return json;
}

} // namespace

Json readings_json(const Plan& plan, const Prediction& prediction) {
    Json list = Json::array();
    for (std::size_t i = 0; i < plan.checks.size(); ++i) {
        const Check& check = plan.checks[i];
        const OutcomeSet set = outcomes_of(check, prediction[i]);
        Json rows = Json::array(), outcomes = Json::array();
        for (std::size_t r = 0; r < check.rows.size(); ++r)
            rows.push_back(row_json(plan, check, check.rows[r], prediction[i].rows[r]));
        for (std::size_t o = 0; o <= check.outcomes.size(); ++o)
            if (set & outcome_bit(o)) outcomes.push_back(o);
        Json made = {
            {"check", check.label}, {"cell", cell_words(check, set)}, {"outcomes", std::move(outcomes)}, {"jumps", (set & stop_bit) != 0}};
        if (check.measure == MeasureKind::look) made["look"] = seen_words(check, prediction[i]);
        made["rows"] = std::move(rows);
        list.push_back(std::move(made));
    }
    return list;
}

std::string predict_json(const Plan& plan, const Predictor& car, const std::string& fault, const Prediction& prediction) {
    Json blown = Json::array();
    for (const PartId part : car.blown_before())
        blown.push_back(plan.circuit.parts[part].id);
    const Json made = {{"id", plan.id},
                       {"title", plan.title},
                       {"fault", fault.empty() ? Json() : Json(fault)},
                       {"blown", std::move(blown)},
                       {"checks", readings_json(plan, prediction)}};
    return made.dump(1, ' ', false, Json::error_handler_t::replace);
}

} // namespace loomsheet
