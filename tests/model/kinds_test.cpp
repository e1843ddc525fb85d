// The tables of kinds against the vocabulary: what the one has the other must know.
#include "grammar/vocabulary.hpp"
#include "model/plan.hpp"
#include "model/reach.hpp"
#include <algorithm>
#include <doctest/doctest.h>
#include <set>
#include <string>

using namespace loomsheet;

namespace {
const PhrasePattern& pattern(Form form) {
    const auto found = std::find_if(phrases().begin(), phrases().end(), [form](const PhraseRow& row) { return row.form == form; });
    REQUIRE(found != phrases().end());
    return pattern_of(*found);
}

// All that the words of a pattern can come to, without what is filled in: "stuck open", "stuck closed" of "POINT stuck
// (open|closed)".
std::set<std::string> spellings(std::span<const Node> nodes) {
    if (nodes.empty()) return {""};
    std::set<std::string> all, first;
    const Node& node = nodes.front();
    if (node.kind == NodeKind::item) first.insert(node.atom == Atom::word ? std::string(node.word) : "");
    if (node.kind == NodeKind::optional || node.may_be_missing) first.insert("");
    for (const auto& branch : node.branches)
        first.merge(spellings(branch));
    for (const std::string& begin : first)
        for (const std::string& rest : spellings(nodes.subspan(1)))
            all.insert(begin + (begin.empty() || rest.empty() ? "" : " ") + rest);
    return all;
}
} // namespace

TEST_CASE("every statement of a part has a kind, and every kind its statement") {
    std::set<std::string_view> words;
    for (const StatementRow& row : statements())
        if (row.context == Context::part && row.head == Form::head_name_text) {
            CHECK_MESSAGE(kind_word(part_kind(row.word)) == row.word, row.word);
            words.insert(row.word);
        }
    CHECK(words.size() == part_kinds().size());
    for (std::size_t i = 0; i < part_kinds().size(); ++i) {
        CHECK_MESSAGE(words.contains(part_kinds()[i].word), part_kinds()[i].word);
        CHECK(part_kind(part_kinds()[i].word) == static_cast<PartKind>(i));
    }
}

TEST_CASE("the states of a kind are words that a plan can have") {
    std::set<std::string> known;
    for (const std::string& word : spellings(pattern(Form::look)))
        known.insert(word);
    for (const PartKindRow& row : part_kinds())
        for (const auto word : words_in(row.states)) {
            CHECK_MESSAGE(state_word(state_verb(word)) == word, word);
            CHECK_MESSAGE(known.contains("look " + std::string(word)), word);
        }
    CHECK(state_verb("runs") == StateVerb::runs); // `runs 1 to 2` has the same word
}

TEST_CASE("what works for the driver says so of its winding") {
    for (const PartKindRow& row : part_kinds())
        CHECK_MESSAGE(row.is_load == ((row.winding & thing::load) != 0), row.word);
    CHECK(is_load(PartKind::horn));
    CHECK_FALSE(is_load(PartKind::relay));
    CHECK(a_kind(PartKind::assembly) == "an assembly");
    CHECK(a_kind(PartKind::plain) == "a part");
}

TEST_CASE("every fault that the grammar has words for has a row, and every row its words in the grammar") {
    const std::set<std::string> known = spellings(pattern(Form::fault));
    for (const std::string& words : known)
        CHECK_MESSAGE(find_fault(words) != nullptr, words);
    for (const FaultPhrase& row : fault_phrases()) {
        CHECK_MESSAGE(known.contains(std::string(row.words)), row.words);
        CHECK(find_fault(row.words) == &row);
        CHECK((row.befalls != thing::nothing || row.kind == FaultKind::at_position));
    }
    CHECK(find_fault("melted") == nullptr);
}

TEST_CASE("a fault that lays a branch needs no other law, and one that cuts lets nothing more flow") {
    for (const FaultKindRow& row : fault_kinds()) {
        CAPTURE(row.word);
        if (row.acts == Acts::cuts) CHECK_FALSE(row.can_blow);
        if (row.is_short) CHECK(row.can_blow);
        if (row.has_other) CHECK((row.acts == Acts::lays || row.acts == Acts::swaps));
    }
}

TEST_CASE("what can be measured is what the grammar has, in the meter's units") {
    std::set<std::string> known;
    for (const Form form : {Form::points, Form::through, Form::clamp, Form::look, Form::read})
        known.merge(spellings(pattern(form)));
    const auto has = [&](std::string_view word) {
        return std::any_of(known.begin(), known.end(),
                           [word](const std::string& each) { return each == word || each.starts_with(std::string(word) + " "); });
    };
    for (const MeasureKind kind : {MeasureKind::volts, MeasureKind::volts_ac, MeasureKind::drop, MeasureKind::ohms, MeasureKind::continuity,
                                   MeasureKind::amps, MeasureKind::clamp, MeasureKind::testlamp, MeasureKind::look, MeasureKind::read}) {
        CHECK_MESSAGE(has(measure_word(kind)), measure_word(kind));
        CHECK(measure_kind(measure_word(kind)) == kind);
        if (const auto dimension = dimension_of(kind)) CHECK(row_of(*dimension).base_unit == shown_unit(kind));
        CHECK(find_reach(row_of(shown_as(kind)).role) != nullptr);
    }
    CHECK(dimension_of(MeasureKind::continuity) == std::nullopt); // it beeps
    CHECK(shown_unit(MeasureKind::continuity) == "ohm");
    CHECK(dimension_of(MeasureKind::read) == std::nullopt); // that of its limits
    for (const std::string& word : spellings(pattern(Form::accuracy)))
        CHECK_MESSAGE(meter_function(word), word);
}

TEST_CASE("what a set-up takes apart is taken apart last and put together first; the car is switched on after that") {
    for (const ItemKind off : {ItemKind::unplugged, ItemKind::pulled, ItemKind::disconnected, ItemKind::one_of_pulled})
        for (const ItemKind on : {ItemKind::key, ItemKind::engine_running, ItemKind::output_on, ItemKind::pressed}) {
            CHECK(row_of(off).done < row_of(on).done);
            CHECK(row_of(on).undone < row_of(off).undone);
            CHECK(row_of(off).is_connection);
            CHECK(row_of(on).is_power);
        }
    CHECK(row_of(ItemKind::disconnected).undone > row_of(ItemKind::unplugged).undone); // the battery comes back last
}
