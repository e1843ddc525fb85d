#include "sheet/blocks/fields.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <map>

namespace loomsheet {

namespace {

Box field_row(LayoutContext& context, const std::vector<Field>& fields, const std::string& name, std::map<std::string, int>& named) {
    const Axes& axis = context.axis;
    constexpr double least = 13.5, row_gap = 2.5, column_gap = 2.5, margin = 1.5; // caption 3.5 mm, 10 mm to write
    constexpr int columns = 12;
    const double column = (axis.right - axis.edge - (columns - 1) * column_gap) / columns;
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    const auto filled = [&](const Field& field) { return field.filled ? context.plan.*field.filled : std::string(); };
    const auto span = [&](double count) { return count * column + (count - 1) * column_gap; };
    double height = least;
    for (const Field& field : fields) {
        const auto lines = static_cast<double>(pen.wrap(type::main, span(field.columns) - 2 * margin, filled(field)).size());
        height = std::max(height, least + (lines - 1) * pen.leading(type::main));
    }
    double x = axis.edge;
    for (const Field& field : fields) {
        const double width = span(field.columns);
        pen.rect(x, 0, width, height, stroke::rule);
        pen.fit(x + margin, 3.6, width - 2 * margin, type::caption, field.caption);
        if (const std::string words = filled(field); !words.empty()) pen.lines(x + margin, 9.8, width - 2 * margin, type::main, words);
        if (!field.unit.empty()) pen.right(x + width - margin, height - 2.5, type::text, field.unit);
        std::string own = name + " " + field.name;
        if (const int times = ++named[own]; times > 1) own += fmt::format(" {}", times);
        pen.region(filled(field).empty() ? page::Role::field : page::Role::cell, x, 0, width, height, own);
        x += width + column_gap;
    }
    box.height = height + row_gap;
    return box;
}

} // namespace

std::vector<Box> field_rows(LayoutContext& context, const FieldLines& lines, const std::string& name) {
    std::vector<Box> rows;
    std::map<std::string, int> named; // how often a name was used: a field of the same name is another one
    for (const std::vector<Field>& fields : lines)
        rows.push_back(field_row(context, fields, name, named));
    return rows;
}

} // namespace loomsheet
