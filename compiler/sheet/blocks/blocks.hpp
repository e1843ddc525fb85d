// The blocks of a sheet that a shop prints, one file each. An empty block is not printed.
#pragma once
#include "sheet/layout/context.hpp"

namespace loomsheet {

Block head_block(LayoutContext& context); // title, fields to fill in
Block complaint_block(LayoutContext& context);
Block cautions_block(LayoutContext& context);
Block notes_block(LayoutContext& context);
Block tools_block(LayoutContext& context);
Block parts_block(LayoutContext& context);
Block circuit_block(LayoutContext& context); // drawn, on pages of its own
Block map_block(LayoutContext& context);     // which check leads where
Block checks_block(LayoutContext& context);
Block verdicts_block(LayoutContext& context);
Block readings_block(LayoutContext& context); // readings copied from the cards
Block work_block(LayoutContext& context);     // parts fitted and work done
Block closing_block(LayoutContext& context);  // putting back together
Block sign_off_block(LayoutContext& context); // who did it, who checked it

// The blocks of the proof sheet.
Block proof_answer_block(LayoutContext& context); // of 100 cars
Block proof_figures_block(LayoutContext& context);
Block proof_coverage_block(LayoutContext& context); // part by part
Block proof_small_block(LayoutContext& context);    // from how many ohms on a poor joint harms, and is seen
Block proof_groups_block(LayoutContext& context);   // what a verdict leaves to be looked at
Block proof_readings_block(LayoutContext& context); // what every check must read
Block approval_block(LayoutContext& context);       // who approves the plan

// "and 12 more": a table of the proof sheet lists the worst and counts the rest.
Box more_row(LayoutContext& context, std::size_t left);
inline constexpr std::size_t most_proof_rows = 16;

} // namespace loomsheet
