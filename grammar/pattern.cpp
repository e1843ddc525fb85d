// Reads the patterns of the vocabulary once, at the first use.
#include "grammar/units.hpp"
#include "grammar/vocabulary.hpp"
#include <algorithm>
#include <cassert>
#include <fmt/format.h>
#include <functional>

namespace loomsheet {

namespace {
constexpr std::uint32_t bit(Dimension dimension) { return 1U << static_cast<unsigned>(dimension); }

struct AtomName {
    std::string_view written;
    Atom atom;
    std::uint32_t dimensions;
};
constexpr AtomName atom_names[] = {
    {"TEXT", Atom::text, 0},
    {"NAME", Atom::name, 0},
    {"REF", Atom::ref, 0},
    {"POINT", Atom::point, 0},
    {"PIN", Atom::pin, 0},
    {"PINS2", Atom::pins2, 0},
    {"PINS3", Atom::pins3, 0},
    {"LABEL", Atom::label, 0},
    {"KEY", Atom::key, 0},
    {"POSITION", Atom::position, 0},
    {"COLOUR", Atom::colour, 0},
    {"NUMBER", Atom::number, 0},
    {"DATE", Atom::date, 0},
    {"MAP", Atom::map, 0},
    {"TOLERANCE", Atom::tolerance, ~0U},
    {"RANGE", Atom::range, ~0U},
    {"ITEMS", Atom::items, 0},
    {"VOLT", Atom::quantity, bit(Dimension::volt)},
    {"AMP", Atom::quantity, bit(Dimension::ampere)},
    {"WATT", Atom::quantity, bit(Dimension::watt)},
    {"OHM", Atom::quantity, bit(Dimension::ohm)},
    {"METRE", Atom::quantity, bit(Dimension::metre)},
    {"AREA", Atom::quantity, bit(Dimension::area)},
    {"SECOND", Atom::quantity, bit(Dimension::second)},
    {"TEMP", Atom::quantity, bit(Dimension::temperature)},
    {"KELVIN", Atom::quantity, bit(Dimension::kelvin)},
    {"PERCENT", Atom::quantity, bit(Dimension::percent)},
    {"CHARGE", Atom::quantity, bit(Dimension::charge)},
    {"RPM", Atom::quantity, bit(Dimension::speed)},
    {"VALUE", Atom::quantity, ~0U},
};

class Reader {
public:
    explicit Reader(std::string_view text) : rest_(text) {}

    std::vector<PhrasePattern> branches(char close) {
        std::vector<PhrasePattern> all(1);
        for (;;) {
            skip();
            if (rest_.empty() || rest_[0] == close) {
                if (!rest_.empty()) rest_.remove_prefix(1);
                return all;
            }
            if (rest_[0] == '|') {
                rest_.remove_prefix(1);
                all.emplace_back();
                continue;
            }
            all.back().push_back(node());
        }
    }

private:
    std::string_view rest_;

    void skip() {
        while (!rest_.empty() && rest_[0] == ' ')
            rest_.remove_prefix(1);
    }
    Node node() {
        Node made;
        if (rest_[0] == '(' || rest_[0] == '[') {
            made.kind = rest_[0] == '(' ? NodeKind::choice : NodeKind::optional;
            const char close = rest_[0] == '(' ? ')' : ']';
            rest_.remove_prefix(1);
            made.branches = branches(close);
        } else {
            const auto end = std::min(rest_.find_first_of(" |()[]+*"), rest_.size());
            const auto written = rest_.substr(0, end);
            rest_.remove_prefix(end);
            made.atom = Atom::word;
            made.word = written;
            for (const auto& known : atom_names)
                if (known.written == written) {
                    made.atom = known.atom;
                    made.dimensions = known.dimensions;
                }
            if (written == "->") made.atom = Atom::arrow;
            if (written == ":") made.atom = Atom::colon;
        }
        if (!rest_.empty() && (rest_[0] == '+' || rest_[0] == '*')) {
            made.repeats = true;
            made.may_be_missing = rest_[0] == '*';
            rest_.remove_prefix(1);
        }
        return made;
    }
};

PhrasePattern read(std::string_view pattern) { return std::move(Reader(pattern).branches('\0').front()); }

template <class Row>
std::vector<PhrasePattern> read_all(std::span<const Row> rows, std::string_view Row::*pattern) {
    std::vector<PhrasePattern> made;
    made.reserve(rows.size());
    for (const Row& row : rows)
        made.push_back(read(row.*pattern));
    return made;
}

// Of the two tables the one that holds the row.
template <class Row>
const PhrasePattern& found(const Row& row, const std::vector<PhrasePattern>& plans, std::span<const Row> of_plans,
                           const std::vector<PhrasePattern>& sheets, std::span<const Row> of_sheets) {
    const std::less<const Row*> before;
    const bool is_plan = !before(&row, of_plans.data()) && before(&row, of_plans.data() + of_plans.size());
    return is_plan ? plans[static_cast<std::size_t>(&row - of_plans.data())] : sheets[static_cast<std::size_t>(&row - of_sheets.data())];
}
} // namespace

const PhrasePattern& pattern_of(const PhraseRow& row) {
    static const auto plans = read_all(plan_vocabulary().phrases, &PhraseRow::pattern);
    static const auto sheets = read_all(sheet_vocabulary().phrases, &PhraseRow::pattern);
    return found(row, plans, plan_vocabulary().phrases, sheets, sheet_vocabulary().phrases);
}

const PhrasePattern& head_of(const StatementRow& row) {
    static const auto plans = read_all(plan_vocabulary().statements, &StatementRow::head_pattern);
    static const auto sheets = read_all(sheet_vocabulary().statements, &StatementRow::head_pattern);
    return found(row, plans, plan_vocabulary().statements, sheets, sheet_vocabulary().statements);
}

std::string describe(const Node& node) {
    if (node.kind != NodeKind::item) {
        std::string all;
        for (const auto& branch : node.branches) {
            if (branch.empty()) continue;
            const auto one = describe(branch.front());
            if (all.find(one) != std::string::npos) continue;
            all += (all.empty() ? "" : " or ") + one;
        }
        return all;
    }
    switch (node.atom) {
    case Atom::word: return fmt::format("`{}`", node.word);
    case Atom::text: return "words in quotes";
    case Atom::name: return "a name such as F14";
    case Atom::ref: return "a pin such as K5.30";
    case Atom::point: return "a point such as X21.1";
    case Atom::pin: return "a pin such as 30 or 87a";
    case Atom::pins2: return "two pins such as 30/87";
    case Atom::pins3: return "three pins such as 30/87/87a";
    case Atom::label: return "a label such as plug-feed";
    case Atom::key: return "a name in small letters such as page_of";
    case Atom::position: return "a position such as up";
    case Atom::colour: return "a colour such as BU/WH";
    case Atom::number: return "a number";
    case Atom::date: return "a date such as 2026-11-24";
    case Atom::map: return "pairs such as 1=A";
    case Atom::tolerance: return "a tolerance such as ±10 mA";
    case Atom::range: return "a range such as 11.5 .. 12.8 V";
    case Atom::arrow: return "`->`";
    case Atom::colon: return "`:`";
    case Atom::items: return "a set-up such as `key on, X21 unplugged`";
    case Atom::quantity: break;
    }
    if (node.dimensions == ~0U) return "a number with its unit, such as 0.5 V";
    for (std::size_t i = 0; i < dimensions().size(); ++i)
        if (node.dimensions & (1U << i)) return fmt::format("{} such as {}", dimensions()[i].word, dimensions()[i].example);
    return "a number with its unit";
}

} // namespace loomsheet
