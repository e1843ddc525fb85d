#include "sheet/layout/template.hpp"

namespace loomsheet {
namespace {

constexpr PaperRow paper_table[] = {{"A4", Paper::a4, 210, 297}, {"Letter", Paper::letter, 215.9, 279.4}, {"A5", Paper::a5, 148, 210}};

constexpr PartRow card_table[] = {
    {"caution", "the caution of this check"},
    {"setup", "what changes on each way here, as ticks, and the steps"},
    {"leads", "where red and black go"},
    {"faces", "the connector as one sees it"},
    {"dial", "how the meter is set"},
    {"predicted", "where the class writes what it predicts", false},
    {"answered", "what the class should predict: the reading of a sound car, computed", false},
    {"blanks", "where the readings are written"},
    {"sound", "the reading of a sound car, small under the dial"},
    {"limits", "the limits in figures; without them the outcomes say `in order`, `lower`, `higher`"},
    {"outcomes", "boxes to tick and where each leads"},
    {"state", "the whole set-up in one line"},
    {"notes", "the notes of this check"},
    {"questions", "the questions of this check, with room to answer and marks", false},
    {"answers", "the same questions with their answers", false},
    {"reasons", "lines for what the reading proves", false},
    {"teacher", "a box for the teacher, where something can start or a bridge is laid", false},
    {"planted", "what the check reads with each planted fault, and where that leads", false},
    {"suspects", "what is suspect if it fails"},
};

constexpr PartRow page_table[] = {
    {"job", "a box for the job number in the head"},
    {"strip", "the numbers of the checks at the foot, to tick"},
    {"code", "a code that a phone reads"},
};

constexpr FieldRow field_table[] = {
    {"registration", Word::registration, nullptr},
    {"vehicle", Word::vehicle, &Plan::vehicle},
    {"odometer", Word::odometer, nullptr},
    {"technician", Word::technician, nullptr},
    {"date", Word::date, nullptr},
    {"started", Word::started, nullptr},
    {"finished", Word::finished, nullptr},
    {"job", Word::job_number, nullptr},
    {"checked", Word::checked_by, nullptr},
    {"approved", Word::proof_approved, nullptr},
    {"notes", Word::notes, nullptr},
    {"class", Word::class_name, nullptr},
    {"name", Word::student, nullptr},
    {"station", Word::station, nullptr},
    {"teacher", Word::teacher, nullptr},
};

} // namespace

std::span<const PaperRow> papers() { return paper_table; }
const PaperRow& paper_row(Paper paper) { return paper_table[static_cast<std::size_t>(paper)]; }
std::span<const PartRow> card_rows() { return card_table; }
std::span<const PartRow> page_rows() { return page_table; }
std::span<const FieldRow> field_rows() { return field_table; }

} // namespace loomsheet
