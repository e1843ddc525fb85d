// One check as a card that never breaks. Its parts stand at fixed places and only ever move down:
//   set-up at the left, leads and connector faces at the upper right, dial, readings and outcomes below, suspects at
//   the foot. On narrow paper the set-up stands over the leads.
// A card that is higher than a page goes on on the next, between two rows of the check, with its title again.
#pragma once
#include "sheet/draft.hpp"

namespace loomsheet {

struct Card {
    Draft& draft;
    Pen& pen;
    int index; // of the check in the plan
    const Check& check;
    std::string name;               // starts the names of its regions
    std::size_t first_row, end_row; // of the check that stand here
    bool opens, closes;             // with its set-up; with its outcomes

    bool has_rows() const { return first_row < end_row; }
    bool shows(CardPart part) const { return draft.sheet.card.has(part); }
    const Plan& plan() const { return draft.plan; }
    const Circuit& circuit() const { return draft.plan.circuit; }
};

namespace card {
inline constexpr double least = 76;
inline constexpr double columns = 12.2; // where set-up and leads begin under a title of one line
inline constexpr double lead_row = 16.2, least_leads = 28.6;
inline constexpr double field_width = 44.3;
} // namespace card

// Each draws from `top` down and gives where it ends.
double card_title(Card& card);
double card_setup(Card& card, double top);
double card_leads(Card& card, double top);
double card_reading(Card& card, double top);
double card_outcomes(Card& card, double top);
double card_foot(Card& card, double top);

// Several readings: one a row of the check, or one a part that is pulled in turn; their names, or one empty name.
std::vector<std::string> reading_names(const Plan& plan, const Check& check);

// One piece, or several where it is higher than `page_room` mm.
std::vector<Piece> check_card(Draft& draft, int check, double page_room);

} // namespace loomsheet
