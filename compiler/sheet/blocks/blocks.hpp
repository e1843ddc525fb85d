// The blocks of a sheet that a shop prints, one file each. An empty block is not printed.
#pragma once
#include "sheet/layout/draft.hpp"

namespace loomsheet {

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

// "and 12 more": what a table of the proof sheet leaves out; a sheet lists the worst.
Piece more_row(Draft& draft, std::size_t left);
inline constexpr std::size_t most_proof_rows = 16;

} // namespace loomsheet
