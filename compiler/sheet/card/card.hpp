// One check as a card that never breaks. Its parts stand at fixed places and only ever move down:
//   set-up at the left, leads and connector faces at the upper right, dial, readings and outcomes below, suspects at
//   the foot. On narrow paper the set-up stands over the leads.
// A card that is higher than a page is continued on the next, between two rows of the check, under its title again.
#pragma once
#include "sheet/layout/context.hpp"
#include "sheet/words/limit.hpp"

namespace loomsheet {

struct Card {
    LayoutContext& context;
    Pen& pen;
    int index; // of the check in the plan
    const Check& check;
    std::string name;               // starts the names of its regions
    std::size_t first_row, end_row; // of the check that stand here
    bool opens, closes;             // with its set-up; with its outcomes
    bool reasoned = false;          // the lines for what it proves are drawn already
    const Axes& axis = context.axis;
    const Wording& say = context.say;

    bool has_rows() const { return first_row < end_row; }
    bool shows(CardPart part) const { return context.sheet.card.has(part); }
    std::vector<OutcomeLine> outcomes() const { return outcome_lines(say, check, shows(CardPart::limits) ? Figured::yes : Figured::no); }
    const Plan& plan() const { return context.plan; }
    const Circuit& circuit() const { return context.plan.circuit; }
};

namespace card {
inline constexpr double least = 76;
inline constexpr double columns = 12.2; // where set-up and leads begin under a title of one line
inline constexpr double lead_row = 16.2, least_leads = 28.6;
inline constexpr double field_width = 44.3;
} // namespace card

// Each draws from `top` down and returns where it ends.
double card_title(Card& card);
double card_setup(Card& card, double top);
double card_leads(Card& card, double top);
double card_reading(Card& card, double top);
double card_outcomes(Card& card, double top);
double card_foot(Card& card, double top);

// The lines for what the reading proves stand under the set-up where there is room.
void class_column(Card& card, double top, double bottom);
// What the class and its teacher have at the foot of a card: the same lines, questions, the planted cars.
double class_foot(Card& card, double top);
// A label on the text axis and its words on the probe axis, under a rule.
double foot_row(Card& card, double top, const std::string& label, const std::string& words);

// The names of its readings: one for each row of the check, or for each part that is pulled in turn; else one empty
// name.
std::vector<std::string> reading_names(const Plan& plan, const Check& check);

// What a sound car reads there, with its range; for a look, whether it holds. Empty where nothing is predicted.
std::string sound_words(const Card& card, std::size_t row);

// Whether somebody has to hold or turn something while another reads.
bool needs_helper(const Check& check);

// One box, or several where it is higher than `page_room` mm.
std::vector<Box> check_card(LayoutContext& context, int check, double page_room);

} // namespace loomsheet
