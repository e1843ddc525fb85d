// The proof sheet's table of poor joints: from how many ohms on they harm, and from how many on they are surely seen.
#include "proof/blind.hpp"
#include "sheet/draft.hpp"
#include "sheet/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr double harm_x = 70, seen_x = 100, by_x = 134;

Piece small_captions(Draft& draft) {
    Piece piece;
    Pen pen = draft.pen(piece, draft.plan.at);
    pen.text(axis::edge, 3.6, type::caption, say(Word::proof_small_place));
    pen.text(harm_x, 3.6, type::caption, say(Word::proof_small_harm));
    pen.text(seen_x, 3.6, type::caption, say(Word::proof_small_seen));
    pen.text(by_x, 3.6, type::caption, say(Word::proof_small_by));
    piece.height = 4.6;
    return piece;
}

Piece small_row(Draft& draft, const SmallRow& row) {
    Piece piece;
    Pen pen = draft.pen(piece, draft.plan.at);
    const double first = 4.2;
    int lines = pen.lines(axis::edge, first, harm_x - axis::edge - 2, type::how, row.place);
    pen.text(harm_x, first, type::how_bold, row.harms_from);
    pen.text(seen_x, first, type::how, row.seen_from);
    lines = std::max(lines, pen.lines(by_x, first, axis::right - by_x, type::how, row.by));
    piece.height = first + (lines - 1) * leading(type::how) + 1.6;
    pen.line(axis::edge, piece.height, axis::right, piece.height, stroke::rule);
    pen.region(page::Role::cell, axis::edge, 0, axis::right - axis::edge, piece.height, "small " + row.place);
    return piece;
}

} // namespace

Block proof_small_block(Draft& draft) {
    Block block;
    const Predictor sound(draft.plan.circuit, system_volts(draft.plan));
    const std::vector<SmallRow> rows = small_rows(draft.plan, sound, *draft.diagnosis, most_proof_rows);
    const auto late = static_cast<std::size_t>(std::count_if(rows.begin(), rows.end(), [](const SmallRow& row) { return row.late; }));
    block.title = block_title(draft, say(Word::proof_small), say(Word::proof_small_note, rows.size() - late, rows.size()));
    block.captions = small_captions(draft);
    for (const SmallRow& row : rows)
        if (row.late && block.rows.size() < most_proof_rows) block.rows.push_back(small_row(draft, row));
    if (late > most_proof_rows) block.rows.push_back(more_row(draft, late - most_proof_rows));
    return block;
}

} // namespace loomsheet
