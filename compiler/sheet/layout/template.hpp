// What a template says of a sheet: all that is not in the plan. And the tables from which it may choose: a row for each
// paper, part of a check's card, part of every page, and field. Those of the blocks are in sheet/block_rows.hpp.
#pragma once
#include "model/plan.hpp"
#include "page/axes.hpp"
#include "sheet/words/words.hpp"
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace loomsheet {

struct Block;
struct LayoutContext;

enum class Paper : std::uint8_t { a4, letter, a5 };
struct PaperRow {
    std::string_view name; // as templates write it
    Paper paper;
    double width, height; // mm
};
std::span<const PaperRow> papers();
const PaperRow& paper_row(Paper paper);

// A row of a table that templates name, and what it means, for the reference page.
struct BlockRow {
    std::string_view name;
    Block (*make)(LayoutContext&);
    std::string_view meaning;
};

enum class CardPart : std::uint8_t {
    caution,
    setup,
    leads,
    faces,
    dial,
    predicted,
    answered,
    blanks,
    sound,
    limits,
    outcomes,
    state,
    notes,
    questions,
    answers,
    reasons,
    teacher,
    planted,
    suspects,
};
enum class PagePart : std::uint8_t { job, strip, code };
struct PartRow { // in the order of their enum
    std::string_view name;
    std::string_view meaning;
    bool usual = true; // shown where a template does not say
};
std::span<const PartRow> card_rows();
std::span<const PartRow> page_rows();
template <class Part>
class Shown { // a set of them
public:
    bool has(Part part) const { return (bits_ >> static_cast<unsigned>(part)) & 1U; }
    void add(Part part) { bits_ |= 1U << static_cast<unsigned>(part); }

private:
    std::uint32_t bits_ = 0;
};

struct FieldRow {
    std::string_view name;
    Word caption;
    std::string Plan::*filled; // what of the plan is printed in it, or null
};
std::span<const FieldRow> field_rows();
struct Field {
    std::string name; // the same in every language
    std::string caption;
    double columns = 1; // of twelve
    std::string unit;
    std::string Plan::*filled = nullptr;
};
using FieldLines = std::vector<std::vector<Field>>;

struct SheetTemplate {
    std::string name;  // files are named by it
    std::string title; // printed on every page
    std::string shop;  // the shop's name, may be empty
    Paper paper = Paper::a4;
    Margins margins;
    TypeSizes sizes;
    std::vector<const BlockRow*> blocks;
    Shown<PagePart> page;
    Shown<CardPart> card;
    FieldLines head, sign_off, approval;
    Wording words;
};

} // namespace loomsheet
