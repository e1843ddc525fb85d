// What every block of the sheet is drawn from.
#pragma once
#include "sheet/layout/order.hpp"
#include "page/pen.hpp"
#include "sheet/layout/route.hpp"
#include "sheet/layout/options.hpp"
#include <string>

namespace loomsheet {

struct LayoutContext {
    LayoutContext(const Plan& the_plan, const Faces& the_faces, const SheetTemplate& the_sheet, const SheetOptions& options)
        : plan(the_plan), faces(the_faces), sheet(the_sheet), diagnosis(options.diagnosis),
          prediction(options.prediction), planted(options.planted), order(order_of(the_plan)), routes(the_plan) {}

    const Plan& plan;
    const Faces& faces;
    const SheetTemplate& sheet;
    const Diagnosis* diagnosis;             // null: not proved
    const Prediction* prediction;           // the same
    const std::vector<PlantedCar>* planted; // the same
    Order order;
    Routes routes;
    std::size_t page_figures = 2; // lines break as if every page number had so many figures
    double page_room = 259;       // mm between head and foot
    Findings findings;

    Pen pen(Box& box, Span at) { return {faces, findings, box, at}; }
};

std::string check_anchor(const Plan& plan, int check);
std::string verdict_anchor(const Plan& plan, int verdict);
inline constexpr const char* closing_anchor = "closing";

// The title of a block with its heavy rule, a note at the right.
Box block_title(LayoutContext& context, const std::string& title, const std::string& note);

} // namespace loomsheet
