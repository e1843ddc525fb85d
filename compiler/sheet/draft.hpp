// What every block of the sheet is drawn from, and the blocks themselves: one file each.
#pragma once
#include "sheet/order.hpp"
#include "sheet/pen.hpp"
#include "sheet/route.hpp"
#include "sheet/sheet.hpp"
#include <string>

namespace loomsheet {

struct Draft {
    Draft(const Plan& the_plan, const Faces& the_faces, const SheetTemplate& the_sheet, const SheetOptions& options)
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

    Pen pen(Piece& piece, Span at) { return {faces, findings, piece, at}; }
};

std::string check_anchor(const Plan& plan, int check);
std::string verdict_anchor(const Plan& plan, int verdict);
inline constexpr const char* closing_anchor = "closing";

// The blocks, as block_rows() lists them. An empty block is not printed.
Block head_block(Draft& draft); // title, fields to fill in
Block complaint_block(Draft& draft);
Block cautions_block(Draft& draft);
Block notes_block(Draft& draft);
Block tools_block(Draft& draft);
Block parts_block(Draft& draft);
Block circuit_block(Draft& draft); // drawn, on pages of its own
Block map_block(Draft& draft);     // which check leads where
Block checks_block(Draft& draft);
Block verdicts_block(Draft& draft);
Block readings_block(Draft& draft); // readings copied from the cards
Block work_block(Draft& draft);     // parts fitted and work done
Block closing_block(Draft& draft);  // putting back together
Block sign_off_block(Draft& draft); // who did it, who checked it

// The blocks of the proof sheet.
Block proof_answer_block(Draft& draft); // of 100 cars
Block proof_figures_block(Draft& draft);
Block proof_coverage_block(Draft& draft); // part by part
Block proof_small_block(Draft& draft);    // from how many ohms on a poor joint harms, and is seen
Block proof_groups_block(Draft& draft);   // what a verdict leaves to be looked at
Block proof_readings_block(Draft& draft); // what every check must read
Block approval_block(Draft& draft);       // who approves the plan

// The blocks of the class.
Block aim_block(Draft& draft);
Block questions_block(Draft& draft); // of the plan, beyond its checks
Block marks_block(Draft& draft);
Block cards_block(Draft& draft); // of each planted fault a front for the class and a back for the instructor

// "and 12 more": what a table of the proof sheet leaves out; a sheet lists the worst.
Piece more_row(Draft& draft, std::size_t left);
inline constexpr std::size_t most_proof_rows = 16;

// Whether somebody has to hold or turn something while another reads.
bool needs_helper(const Check& check);

// The title of a block with its heavy rule, a note at the right.
Piece block_title(Draft& draft, const std::string& title, const std::string& note);

} // namespace loomsheet
