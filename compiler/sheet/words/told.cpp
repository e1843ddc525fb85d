#include "sheet/words/told.hpp"
#include "proof/reading_table.hpp"
#include "proof/words.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/words.hpp"

namespace loomsheet {
namespace {

// Before figures; a hyphen elsewhere stays one.
std::string true_minus(std::string words) {
    for (std::size_t at = words.find('-'); at != std::string::npos; at = words.find('-', at + 1)) {
        const bool begins = at == 0 || words[at - 1] == ' ' || words[at - 1] == '(';
        if (begins && at + 1 < words.size() && words[at + 1] >= '0' && words[at + 1] <= '9') words.replace(at, 1, "\u2212");
    }
    return words;
}

} // namespace

std::string told_range(const Wording& say, const Circuit& circuit, const RowPrediction& row, MeasureKind measure) {
    const Reading& reading = row.reading;
    const bool lamp = measure == MeasureKind::testlamp;
    switch (reading.kind) {
    case ReadingKind::number: break;
    case ReadingKind::open: return say(Word::reads_open);
    case ReadingKind::floating: return say(Word::reads_floats);
    case ReadingKind::yes: return say(lamp ? Word::reads_lit : Word::beeps);
    case ReadingKind::no: return say(lamp ? Word::reads_dark : Word::silent);
    case ReadingKind::unsure: return say(Word::reads_unsure);
    case ReadingKind::chatters: return say(Word::reads_chatters);
    case ReadingKind::history: return say(Word::reads_history);
    case ReadingKind::beyond: return say(Word::reads_beyond);
    }
    return true_minus(ohms_printed(range_words(circuit, reading, measure, finest_step(row.limit))));
}

std::string told_reading(const Wording& say, const Circuit& circuit, const RowPrediction& row, MeasureKind measure) {
    const Reading& reading = row.reading;
    if (reading.kind != ReadingKind::number) return told_range(say, circuit, row, measure);
    return true_minus(ohms_printed(reading_words(circuit, reading, measure, finest_step(row.limit))));
}

std::string told_seen(const Wording& say, const Check& check, const CheckPrediction& made) {
    return seen_words(check, made, {say(Word::reads_yes), say(Word::reads_no), say(Word::or_between), say(Word::reads_beyond), ""});
}

std::string told_limit(const Wording& say, const Plan& plan, const Limit& limit) {
    const auto end = [&](const MaybeQuantity& quantity) { return quantity ? rating(say, *quantity) : std::string(); };
    switch (limit.kind) {
    case LimitKind::range: return ohms_printed(written_limit(plan, limit));
    case LimitKind::below: return say(Word::below, end(limit.high));
    case LimitKind::above: return say(Word::above, end(limit.low));
    case LimitKind::open: return say(Word::reads_open);
    case LimitKind::yes: return say(Word::reads_yes);
    case LimitKind::no: return say(Word::reads_no);
    case LimitKind::within: break;
    }
    return say(Word::limit_within, end(limit.high), limit.reference == none ? "?" : plan.checks[limit.reference].label);
}

std::string told_share(const Wording& say, double share) {
    return share > no_share && share < 0.005 ? say(Word::less_than_one) : of_hundred(share);
}

} // namespace loomsheet
