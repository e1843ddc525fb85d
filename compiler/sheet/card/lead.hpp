// One lead of the meter on the card: pill, point, metal, wire, place.
#pragma once
#include "sheet/card/card.hpp"
#include "sheet/words/spot.hpp"
#include "sheet/words/words.hpp"

namespace loomsheet {

struct Lead {
    Word label;
    bool solid = false;
    Spot spot;
};

void lead_pill(const Wording& say, Pen& pen, double y, Word label, bool solid);
// What a row above has said already, so that it is left out here.
enum class Said : std::uint8_t { nothing, place, point };
// Point and wire, metal and colour words, place: a line each. Returns where the next row may start.
double lead_row(Card& card, double y, const Lead& lead, Said said = Said::nothing);

// The point as this check finds it; `other` is where the other lead is.
Spot spot_for(const Card& card, const PointRef& point, const PointRef& other);
// The leads of a row, red or tip first; only one where the meter goes around something or takes its place.
std::vector<Lead> leads_of(const Card& card, const Row& row);

// Several rows: each with its leads, its blank, its limit and the outcomes that are its own.
double card_rows(Card& card, double top);
// One row of the outcomes; returns where it ends.
double outcome_row(Card& card, double y, const struct OutcomeLine& line);

} // namespace loomsheet
