// Patterns of the vocabulary as they are made ready for matching, and what their atoms look like in messages.
#include "grammar/units.hpp"
#include "grammar/vocabulary.hpp"
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

// The pattern back as it is written, each atom by its number.
std::string written(const PhrasePattern& nodes) {
    std::string all;
    for (const Node& node : nodes) {
        if (!all.empty()) all += ' ';
        if (node.kind == NodeKind::item)
            all += node.atom == Atom::word ? std::string(node.word) : "<" + std::to_string(static_cast<int>(node.atom)) + ">";
        else {
            all += node.kind == NodeKind::choice ? "(" : "[";
            for (std::size_t i = 0; i < node.branches.size(); ++i)
                all += (i ? "|" : "") + written(node.branches[i]);
            all += node.kind == NodeKind::choice ? ")" : "]";
        }
        if (node.repeats) all += node.may_be_missing ? "*" : "+";
    }
    return all;
}

std::string atom(Atom atom) { return "<" + std::to_string(static_cast<int>(atom)) + ">"; }

template <class Visit>
void each_item(const PhrasePattern& nodes, const Visit& visit) {
    for (const Node& node : nodes) {
        if (node.kind == NodeKind::item) visit(node);
        for (const auto& branch : node.branches)
            each_item(branch, visit);
    }
}
} // namespace

TEST_CASE("words, atoms, what may be left out, choices and repeats are read as they stand") {
    CHECK(written(pattern(Form::inner)) == "inner " + atom(Atom::quantity));
    CHECK(written(pattern(Form::route)) == atom(Atom::point) + " " + atom(Atom::arrow) + " " + atom(Atom::point));
    CHECK(written(pattern(Form::supply)) == "supply " + atom(Atom::pin) + "+");
    CHECK(written(pattern(Form::at_position)) == "at " + atom(Atom::position) + " " + atom(Atom::pins2) + "*");
    CHECK(written(pattern(Form::hall)) == "hall [" + atom(Atom::pins3) + "]");
    CHECK(written(pattern(Form::contact)) == "contact (" + atom(Atom::pins3) + "|" + atom(Atom::pins2) + ")");
    CHECK(written(pattern(Form::item_key)) == "key (off|acc|on|crank) [for " + atom(Atom::quantity) + "]");
    CHECK(written(pattern(Form::draws)) == "draws " + atom(Atom::quantity) +
                                               " [when (key (off|acc|on|crank)+|engine running|asleep) [and (key "
                                               "(off|acc|on|crank)+|engine running|asleep)]*]");
}

TEST_CASE("a quantity takes the units of its dimension, VALUE those of all") {
    const auto takes = [](Form form, Dimension dimension) {
        return (pattern(form).back().dimensions & (1U << static_cast<unsigned>(dimension))) != 0;
    };
    for (std::size_t i = 0; i < dimensions().size(); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        CHECK(takes(Form::inner, dimension) == (dimension == Dimension::ohm));
        CHECK(takes(Form::needs, dimension) == (dimension == Dimension::volt));
        CHECK(takes(Form::charge, dimension) == (dimension == Dimension::charge));
        CHECK(takes(Form::length, dimension) == (dimension == Dimension::metre));
        CHECK(takes(Form::accuracy, dimension)); // TOLERANCE
    }
}

TEST_CASE("every pattern of both vocabularies has closed brackets and nothing empty") {
    for (const Vocabulary* vocabulary : {&plan_vocabulary(), &sheet_vocabulary()}) {
        for (const PhraseRow& row : vocabulary->phrases) {
            CAPTURE(row.pattern);
            CHECK(std::count(row.pattern.begin(), row.pattern.end(), '(') == std::count(row.pattern.begin(), row.pattern.end(), ')'));
            CHECK(std::count(row.pattern.begin(), row.pattern.end(), '[') == std::count(row.pattern.begin(), row.pattern.end(), ']'));
            CHECK_FALSE(pattern_of(row).empty());
            each_item(pattern_of(row), [](const Node& node) {
                if (node.atom != Atom::word) return;
                CHECK_FALSE(node.word.empty());
                // CAPITALS that are no atom would be words of the language, and plans have none.
                const bool capitals =
                    node.word.size() > 1 && std::all_of(node.word.begin(), node.word.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
                CHECK_MESSAGE((!capitals || node.word == "AWG"), node.word);
            });
        }
        for (const StatementRow& row : vocabulary->statements)
            CHECK(head_of(row).empty() == row.head_pattern.empty());
    }
}

TEST_CASE("every atom is told apart in messages, with an example in the unit that is meant") {
    std::set<std::string> told;
    for (unsigned i = 0; i <= static_cast<unsigned>(Atom::items); ++i) {
        Node node;
        node.atom = static_cast<Atom>(i);
        node.word = "fuse";
        if (node.atom != Atom::quantity) CHECK_MESSAGE(told.insert(describe(node)).second, describe(node));
    }
    CHECK(told.contains("`fuse`"));
    CHECK(describe(pattern(Form::inner).back()) == "a resistance such as 85 ohm");
    CHECK(describe(pattern(Form::contact).back()) == "three pins such as 30/87/87a or two pins such as 30/87");
    CHECK(describe(pattern(Form::pair_value)[1]) == "a current such as 40 A or a power such as 55 W or a resistance such as 85 ohm");
}
