#include "sheet/fields.hpp"
#include <algorithm>

namespace loomsheet {

Piece field_row(Draft& draft, const std::vector<FieldSpec>& specs, const std::string& name) {
    constexpr double least = 13.5, row_gap = 2.5, column_gap = 2.5, margin = 1.5; // caption 3.5 mm, 10 mm to write
    constexpr int columns = 12;
    constexpr double column = (axis::right - axis::edge - (columns - 1) * column_gap) / columns;
    Piece piece;
    Pen pen = draft.pen(piece, draft.plan.at);
    const auto span = [&](double count) { return count * column + (count - 1) * column_gap; };
    double height = least;
    for (const FieldSpec& spec : specs) {
        const auto lines =
            static_cast<double>(pen.wrap(type::main, span(spec.columns) - 2 * margin, spec.filled).size());
        height = std::max(height, least + (lines - 1) * leading(type::main));
    }
    double x = axis::edge;
    for (const FieldSpec& spec : specs) {
        const double width = span(spec.columns);
        const std::string caption = say(spec.caption);
        pen.rect(x, 0, width, height, stroke::rule);
        pen.text(x + margin, 3.6, type::caption, caption);
        if (!spec.filled.empty()) pen.lines(x + margin, 9.8, width - 2 * margin, type::main, spec.filled);
        if (!spec.unit.empty()) pen.right(x + width - margin, height - 2.5, type::text, spec.unit);
        pen.region(spec.filled.empty() ? page::Role::field : page::Role::cell, x, 0, width, height, name + " " + caption);
        x += width + column_gap;
    }
    piece.height = height + row_gap;
    return piece;
}

} // namespace loomsheet
