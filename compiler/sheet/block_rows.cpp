#include "sheet/block_rows.hpp"
#include "sheet/blocks/blocks.hpp"
#include "sheet/class/class_blocks.hpp"

namespace loomsheet {
namespace {

constexpr BlockRow block_table[] = {
    {"head", head_block, "title, facts of the plan, fields of the job"},
    {"complaint", complaint_block, "what the customer says, and lines for it"},
    {"cautions", cautions_block, "before anything is touched"},
    {"notes", notes_block, "the notes of the plan"},
    {"tools", tools_block, "tools and leads, worked out from the checks"},
    {"parts", parts_block, "parts, places, what comes off first"},
    {"circuit", circuit_block, "the circuit drawn, each probing point with the numbers of its checks, on pages of its own"},
    {"map", map_block, "which check leads where, on a page of its own"},
    {"checks", checks_block, "one card a check"},
    {"verdicts", verdicts_block, "what has failed, repair, proof"},
    {"readings", readings_block, "the readings, copied from the cards"},
    {"work", work_block, "lines for parts fitted and work done"},
    {"closing", closing_block, "putting back together"},
    {"sign-off", sign_off_block, "the fields of who did it and who checked it"},
    {"proof-answer", proof_answer_block, "of 100 cars with the complaint"},
    {"proof-figures", proof_figures_block, "the figures behind it"},
    {"proof-coverage", proof_coverage_block, "what is not surely found, part by part"},
    {"proof-small", proof_small_block, "from how many ohms a poor joint harms, and is seen"},
    {"proof-groups", proof_groups_block, "what a verdict leaves to be looked at"},
    {"proof-readings", proof_readings_block, "what every check must read"},
    {"aim", aim_block, "what the class is to do"},
    {"questions", questions_block, "the questions of the plan, with room to answer"},
    {"marks", marks_block, "a field for the marks of each kind, with what can be had"},
    {"cards", cards_block, "of each planted fault a front for the class and a back for the instructor"},
    {"approval", approval_block, "the fields of who approves the plan"},
};

} // namespace

std::span<const BlockRow> block_rows() { return block_table; }

} // namespace loomsheet
