// The layout context: what every block of a sheet is drawn from. Each layout has one of its own; blocks and cards take
// all that depends on paper, type sizes and language from it.
#pragma once
#include "page/pen.hpp"
#include "sheet/layout/options.hpp"
#include "sheet/layout/order.hpp"
#include "sheet/layout/route.hpp"
#include "sheet/words/words.hpp"
#include <string>

namespace loomsheet {

struct LayoutContext {
    // What is passed by reference outlives it; `axes` is copied.
    LayoutContext(const Plan& the_plan, const Faces& the_faces, const SheetTemplate& the_sheet, const SheetOptions& options,
                  const Axes& axes, double room)
        : plan(the_plan), faces(the_faces), sheet(the_sheet), axis(axes), say(the_sheet.words), page_room(room),
          diagnosis(options.diagnosis), prediction(options.prediction), planted(options.planted), order(order_of(the_plan)),
          routes(the_plan) {}

    const Plan& plan;
    const Faces& faces;
    const SheetTemplate& sheet;
    const Axes axis;
    const Wording& say;
    const double page_room;                 // mm between head and foot
    const Diagnosis* diagnosis;             // null: not proved
    const Prediction* prediction;           // the same
    const std::vector<PlantedCar>* planted; // the same
    const Order order;
    const Routes routes;
    std::size_t page_figures = 2; // lines break as if every page number had so many figures
    Findings findings;

    Pen pen(Box& box, Span at) { return {faces, axis, sheet.sizes, findings, box, at}; }
};

std::string check_anchor(const Plan& plan, int check);
std::string verdict_anchor(const Plan& plan, int verdict);
inline constexpr const char* closing_anchor = "closing";

// The title of a block with its heavy rule, a note at the right.
Box block_title(LayoutContext& context, const std::string& title, const std::string& note);

} // namespace loomsheet
