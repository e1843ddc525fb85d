// The circuit, drawn by program on pages of its own.
#include "sheet/blocks/circuit_drawing.hpp"
#include "drawing/drawing.hpp"
#include "sheet/blocks/blocks.hpp"
#include "sheet/blocks/frame.hpp"
#include "sheet/words/words.hpp"
#include <fmt/format.h>

namespace loomsheet {
namespace {

constexpr double fits_by = 0.01;
constexpr double below_title = 2;

page::Face face_of(drawing::Type type) {
    switch (type) {
    case drawing::Type::colour:
    case drawing::Type::small: return page::Face::N;
    case drawing::Type::designator:
    case drawing::Type::number:
    case drawing::Type::small_bold: return page::Face::NB;
    }
    return page::Face::N;
}

page::Ink ink_of(drawing::Fill fill) {
    return fill == drawing::Fill::black ? page::Ink::black : fill == drawing::Fill::white ? page::Ink::white : page::Ink::none;
}

} // namespace

void draw_picture(Pen& pen, const Faces& faces, const drawing::Picture& picture, double left, double top) {
    for (const drawing::Stroke& stroke : picture.strokes) {
        std::vector<page::Point> points;
        for (const drawing::Spot& spot : stroke.through)
            points.push_back({left + spot.x, top + spot.y});
        if (points.size() == 2 && !stroke.closed)
            pen.line(points[0].x, points[0].y, points[1].x, points[1].y, stroke.pt, stroke.dash);
        else
            pen.box().marks.emplace_back(page::Path{std::move(points), stroke.pt, stroke.closed, ink_of(stroke.fill), stroke.dash});
    }
    for (const drawing::Ring& ring : picture.rings)
        pen.circle(left + ring.x, top + ring.y, ring.r, ring.pt, ink_of(ring.fill));
    for (const drawing::Pill& pill : picture.pills)
        pen.rect(left + pill.x, top + pill.y, pill.w, pill.h, pill.pt, page::Ink::none, std::min(pill.h, 5.6) / 2);
    for (const drawing::Words& words : picture.words) // in its own sizes: whatever the template's, they were measured so
        for (page::Text& run : faces.runs(left + words.x, top + words.y, face_of(words.type), drawing::size_of(words.type),
                                          hold_units(words.text), words.white ? page::Ink::white : page::Ink::black))
            pen.box().marks.emplace_back(std::move(run));
}

drawing::Measure measure_with(const Faces& faces) {
    return {[&faces](drawing::Type type, const std::string& text) {
                return faces.runs_width(face_of(type), drawing::size_of(type), hold_units(text));
            },
            [&faces](drawing::Type type, double room, const std::string& text) {
                return faces.wrap(face_of(type), drawing::size_of(type), room, hold_units(text));
            }};
}

drawing::Phrases drawing_phrases(const Wording& say) {
    return {[&say](const std::string& pages) { return say(Word::to_circuit, pages); },
            [&say](const std::string& pages) { return say(Word::from_circuit, pages); }, say(Word::circuit_part)};
}

drawing::Area drawing_area(LayoutContext& context) {
    const double heading = block_title(context, context.say(Word::circuit), "").height + below_title;
    return {context.axis.right - context.axis.edge, context.page_room - heading, heading};
}

Block picture_block(LayoutContext& context, const std::vector<drawing::Picture>& pictures, const std::string& title) {
    const Axes& axis = context.axis;
    const double width = axis.right - axis.edge;
    Block block;
    for (std::size_t i = 0; i < pictures.size(); ++i) {
        Box box = block_title(context, title, pictures.size() > 1 ? context.say(Word::drawing_of, i + 1, pictures.size()) : "");
        if (i > 0) box.outline.clear();
        const double heading = box.height + below_title;
        Pen pen = context.pen(box, context.plan.at);
        if (pictures[i].width > width + fits_by || pictures[i].height > context.page_room - heading + fits_by)
            pen.does_not_fit(fmt::format("\"{}\" needs {:.0f} x {:.0f} mm on page {} of it, a page has {:.0f} x {:.0f} mm", title,
                                         pictures[i].width, pictures[i].height, i + 1, width, context.page_room - heading),
                             "take larger paper, or leave the block out of the template");
        draw_picture(pen, context.faces, pictures[i], axis.edge + (width - pictures[i].width) / 2, heading);
        pen.region(page::Role::block, axis.edge, heading, width, pictures[i].height, title);
        box.height = heading + pictures[i].height;
        block.rows.push_back(std::move(box));
    }
    block.new_page = block.alone = true;
    block.keep = 1;
    return block;
}

Block circuit_block(LayoutContext& context) {
    const drawing::Measure measure = measure_with(context.faces);
    const drawing::Probes probes = drawing::probes_of(context.plan, context.order.numbers);
    return picture_block(context,
                         drawing::draw_circuit(context.plan.circuit, probes, measure, drawing_phrases(context.say), drawing_area(context)),
                         context.say(Word::circuit));
}

} // namespace loomsheet
