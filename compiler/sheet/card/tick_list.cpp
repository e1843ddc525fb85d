#include "sheet/card/tick_list.hpp"
#include "sheet/card/symbol.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

std::vector<Box> tick_list(LayoutContext& context, const std::vector<std::string>& words, const std::string& name) {
    const Axes& axis = context.axis;
    constexpr double pitch = 9.5, top = 1.25;
    const double room = axis.second - (axis.text - axis.edge) - 2.5;
    const std::size_t half = (words.size() + 1) / 2; // down the left column, then down the right
    std::vector<Box> rows;
    for (std::size_t row = 0; row < half; ++row) {
        Box box;
        Pen pen = context.pen(box, context.plan.at);
        box.height = pitch;
        for (std::size_t i = row; i < words.size(); i += half) {
            const double shift = i < half ? 0 : axis.second;
            tick_box(pen, axis.box + shift, top, fmt::format("tick {} {}", name, i + 1));
            const auto count = static_cast<double>(pen.wrap(type::text, room, words[i]).size());
            const double middle = top + tick_size / 2, above = (count - 1) / 2 * pen.leading(type::text);
            const double first = count > 2 ? top + 2 * pen.half_cap(type::text) : middle - above + pen.half_cap(type::text);
            pen.lines(axis.text + shift, first, room, type::text, words[i]);
            box.height = std::max(box.height, first + (count - 1) * pen.leading(type::text) + 2);
        }
        rows.push_back(std::move(box));
    }
    return rows;
}

} // namespace loomsheet
