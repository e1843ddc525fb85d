#include "sheet/blocks/frame.hpp"
#include "page/code.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

constexpr double rule_over_foot = 4.1;
constexpr double strip_box = 6, strip_space = 2, strip_gap = 0.8;
constexpr double wide_box = 7;

double foot_rule(const Axes& axis) { return axis.foot + rule_over_foot; } // above the lower edge

struct Facts {
    std::string digest; // with a space in the middle
    std::string revision;
};

std::string capitals(std::string words) {
    for (char& letter : words)
        if (letter >= 'a' && letter <= 'z') letter = static_cast<char>(letter - 'a' + 'A');
    return words;
}

std::string revision_words(const Wording& say, const Plan& plan) {
    if (plan.revision.empty()) return say(Word::no_revision);
    return plan.date.empty() ? say(Word::revision, plan.revision) : say(Word::revision_of, plan.revision, plan.date);
}

// Where things stand in the head, before the right edge.
struct HeadPlaces {
    double job, job_width, title_end, page;
};
HeadPlaces places(const Axes& axis) {
    if (axis.narrow) return {axis.right - 55.8, 22, axis.right - 57.3, axis.right - 19.3};
    return {axis.right - 63.8, 30, axis.right - 65.8, axis.right - 19.3};
}

// The title of the plan stands at the foot alone.
void narrow_head(Pen& pen, const LayoutContext& context, const Facts& facts) {
    const Axes& axis = context.axis;
    const double room = places(axis).title_end - axis.edge, x = axis.edge + pen.width(type::plan_id, context.plan.id) + 2.5;
    pen.fit(axis.edge, 8.3, room, type::plan_id, context.plan.id);
    pen.fit(x, 8.3, room + axis.edge - x, type::caption, context.sheet.title);
    pen.fit(axis.edge, 12.6, room, type::caption, facts.revision);
    pen.fit(axis.edge, 16.6, room, type::caption, context.say(Word::digest_alone, facts.digest));
}

void head_title(Pen& pen, const LayoutContext& context, const Facts& facts) {
    const Axes& axis = context.axis;
    if (axis.narrow) return narrow_head(pen, context, facts);
    const Plan& plan = context.plan;
    const double x = axis.edge + std::max({26.0, pen.width(type::plan_id, plan.id) + 3, pen.width(type::caption, context.sheet.title) + 3}),
                 room = places(axis).title_end - x;
    pen.fit(axis.edge, 9.2, places(axis).title_end - axis.edge, type::plan_id, plan.id);
    pen.fit(axis.edge, 14.2, room + x - axis.edge, type::caption, context.sheet.title);
    const std::string second = context.say(Word::revision_and_digest, facts.revision, facts.digest);
    if (room < pen.width(type::caption, second))
        return pen.does_not_fit(fmt::format("the plan's name \"{}\" leaves no room for its title in the running head", plan.id),
                                "shorten it");
    // At most two lines over the revision; else smaller ones, and three of them take the place of the revision, which
    // stands at the foot too.
    const std::vector<std::string> lines = pen.wrap(type::run_head, room, plan.title),
                                   small = pen.wrap(type::caption_narrow, room, plan.title);
    if (lines.size() <= 2) {
        for (std::size_t i = 0; i < lines.size(); ++i)
            pen.text(x, (lines.size() == 1 ? 9.2 : 7.2) + 4.2 * static_cast<double>(i), type::run_head, lines[i]);
    } else {
        if (small.size() > 3)
            pen.does_not_fit(fmt::format("the title \"{}\" needs {} lines in the running head, there are three", plan.title, small.size()),
                             "shorten it");
        for (std::size_t i = 0; i < std::min<std::size_t>(3, small.size()); ++i)
            pen.text(x, 7.2 + pen.leading(type::caption_narrow) * static_cast<double>(i), type::caption_narrow, small[i]);
        if (small.size() > 2) return;
    }
    pen.text(x, lines.size() == 1 ? 14.2 : 15.8, type::caption, second);
}

void job_number(Pen& pen, const LayoutContext& context) {
    const auto [x, width, title_end, number] = places(context.axis);
    pen.rect(x, frame::margin, width, 12.6, stroke::rule);
    pen.fit(x + 1.5, 7.8, width - 3, type::caption, context.say(Word::job_number));
    pen.region(page::Role::field, x, frame::margin, width, 12.6, "job number"); // one field, on every page
}

void head(Pen& pen, const LayoutContext& context, const Facts& facts, std::size_t page, std::size_t count) {
    const Axes& axis = context.axis;
    head_title(pen, context, facts);
    if (context.sheet.page.has(PagePart::job)) job_number(pen, context);
    pen.right(places(axis).page, 9.2, type::plan_id, std::to_string(page));
    pen.right(places(axis).page, 14.2, type::caption, context.say(Word::of_pages, count));
    pen.region(page::Role::head, axis.edge, 0, axis.right - axis.edge, frame::clip_zone, fmt::format("head {}", page));
}

// On narrow paper revision and digest stand in the head alone.
void foot(Pen& pen, const LayoutContext& context, const Facts& facts, double height, std::size_t page, std::size_t count) {
    const Axes& axis = context.axis;
    const Plan& plan = context.plan;
    const double rule = height - foot_rule(axis), text = height - axis.foot;
    pen.line(axis.edge, rule, axis.right, rule, stroke::rule);
    const std::string right = context.say(Word::page_of, page, count),
                      middle = axis.narrow ? "" : context.say(Word::revision_and_digest, facts.revision, facts.digest);
    pen.right(axis.right, text, type::caption_bold, right);
    const double middle_x =
        axis.right - std::max(axis.narrow ? 0.0 : 24.0, pen.width(type::caption_bold, right) + 4) - pen.width(type::caption, middle);
    pen.text(middle_x, text, type::caption, middle);
    const double title_x = axis.edge + pen.width(type::caption_bold, plan.id) + 2.5;
    pen.fit(axis.edge, text, middle_x - axis.edge - 2, type::caption_bold, plan.id);
    if (title_x + pen.width(type::caption_narrow, plan.title) <= middle_x - 2)
        pen.text(title_x, text, type::caption_narrow, plan.title); // the head has it
    pen.region(page::Role::foot, axis.edge, rule, axis.right - axis.edge, rule_over_foot + 1.7, fmt::format("foot {}", page));
}

// A box for each check to tick; with more checks than boxes, empty boxes to write the way in.
void strip(Pen& pen, const LayoutContext& context, double height) {
    const Axes& axis = context.axis;
    const std::size_t count = context.order.checks.size();
    if (count == 0) return;
    const double y = height - foot_rule(axis) - strip_gap - strip_box, base = y + strip_box / 2 + pen.half_cap(type::caption);
    const double room = axis.right - axis.edge;
    const auto fit = [&](double wide) { return static_cast<std::size_t>((room + strip_space) / (wide + strip_space)); };
    const bool numbered = count <= fit(strip_box);
    const std::string label = context.say(numbered ? Word::strip_done : Word::strip_way);
    const double start = numbered ? axis.edge : axis.edge + pen.width(type::caption, label) + 2;
    const double width = !numbered ? 10 : count <= fit(wide_box) ? wide_box : strip_box, pitch = width + strip_space;
    const std::size_t boxes = numbered ? count : static_cast<std::size_t>((axis.right - start + pitch - width) / pitch);
    for (std::size_t i = 0; i < boxes; ++i) {
        const double x = start + static_cast<double>(i) * pitch;
        pen.rect(x, y, width, strip_box, stroke::rule);
        if (numbered) pen.centre(x + width / 2, base, type::caption, std::to_string(i + 1));
        pen.region(page::Role::tick, x, y, width, strip_box, fmt::format("strip {}", i + 1));
    }
    const double after = start + static_cast<double>(boxes) * pitch;
    if (!numbered)
        pen.text(axis.edge, base, type::caption, label);
    else if (after + pen.width(type::caption, label) <= axis.right)
        pen.text(after, base, type::caption, label);
}

} // namespace

double content_bottom(const Axes& axis, double height) { return height - foot_rule(axis) - strip_gap - strip_box - 0.8; }

void draw_frames(LayoutContext& context, std::vector<page::Page>& pages, const std::string& digest) {
    const Plan& plan = context.plan;
    Facts facts;
    facts.digest = digest.substr(0, 4) + " " + digest.substr(4);
    facts.revision = revision_words(context.say, plan);
    for (std::size_t i = 0; i < pages.size(); ++i) {
        Box box;
        Pen pen = context.pen(box, plan.at);
        head(pen, context, facts, i + 1, pages.size());
        foot(pen, context, facts, pages[i].height, i + 1, pages.size());
        if (context.sheet.page.has(PagePart::strip)) strip(pen, context, pages[i].height);
        put(pages[i], std::move(box), 0);
        if (context.sheet.page.has(PagePart::code))
            draw_code(pages[i], context.axis.right - frame::code, frame::margin, frame::code,
                      capitals(fmt::format("{}/{}/{}", plan.id, i + 1, digest))); // up to 20 characters take 21 modules
    }
}

} // namespace loomsheet
