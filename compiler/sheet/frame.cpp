#include "sheet/frame.hpp"
#include "sheet/code.hpp"
#include "sheet/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

constexpr double foot_rule = 9.8, foot_text = 5.7; // above the lower edge
constexpr double strip_box = 6, strip_space = 2, strip_gap = 0.8;
constexpr std::size_t most_numbers = 22, most_wide = 20; // boxes that stand side by side

struct Facts {
    std::string digest; // with a space in the middle
    std::string revision;
};

std::string capitals(std::string words) {
    for (char& letter : words)
        if (letter >= 'a' && letter <= 'z') letter = static_cast<char>(letter - 'a' + 'A');
    return words;
}

std::string revision_words(const Plan& plan) {
    if (plan.revision.empty()) return say(Word::no_revision);
    return plan.date.empty() ? say(Word::revision, plan.revision) : say(Word::revision_of, plan.revision, plan.date);
}

void head_title(Pen& pen, const Plan& plan, const Facts& facts, SheetKind kind) {
    const double x = std::max(44.0, axis::edge + pen.width(type::plan_id, plan.id) + 3), room = 135 - x;
    pen.fit(axis::edge, 9.2, room + x - axis::edge, type::plan_id, plan.id);
    pen.text(axis::edge, 14.2, type::caption, say(kind == SheetKind::proof ? Word::proof_kind : Word::sheet_kind));
    const std::string second = say(Word::revision_and_digest, facts.revision, facts.digest);
    if (room < pen.width(type::caption, second))
        return pen.does_not_fit(
            fmt::format("the plan's name \"{}\" leaves no room for its title in the running head", plan.id),
            "shorten it");
    const std::vector<std::string> lines = pen.wrap(type::run_head, room, plan.title);
    if (lines.size() == 1) {
        pen.text(x, 9.2, type::run_head, plan.title);
        pen.text(x, 14.2, type::caption, second);
        return;
    }
    if (lines.size() > 2)
        pen.does_not_fit(
            fmt::format("the title \"{}\" needs {} lines in the running head, there are two", plan.title, lines.size()),
            "shorten it");
    for (std::size_t i = 0; i < std::min<std::size_t>(2, lines.size()); ++i)
        pen.text(x, 7.2 + 4.2 * static_cast<double>(i), type::run_head, lines[i]);
    pen.text(x, 15.8, type::caption, second);
}

void job_number(Pen& pen) {
    pen.rect(137, frame::margin, 30, 12.6, stroke::rule);
    pen.text(138.5, 7.8, type::caption, say(Word::job_number));
    pen.region(page::Role::field, 137, frame::margin, 30, 12.6, "job number"); // one field, on every page
}

void head(Pen& pen, const Plan& plan, const Facts& facts, SheetKind kind, std::size_t page, std::size_t count) {
    head_title(pen, plan, facts, kind);
    if (kind == SheetKind::workshop) job_number(pen);
    pen.right(181.5, 9.2, type::plan_id, std::to_string(page));
    pen.right(181.5, 14.2, type::caption, say(Word::of_pages, count));
    pen.region(page::Role::head, axis::edge, 0, axis::right - axis::edge, frame::clip_zone,
               fmt::format("head {}", page));
}

void foot(Pen& pen, const Plan& plan, const Facts& facts, double height, std::size_t page, std::size_t count) {
    const double rule = height - foot_rule, text = height - foot_text;
    pen.line(axis::edge, rule, axis::right, rule, stroke::rule);
    const std::string right = say(Word::page_of, page, count),
                      middle = say(Word::revision_and_digest, facts.revision, facts.digest);
    pen.right(axis::right, text, type::caption_bold, right);
    const double middle_x = axis::right - 24 - pen.width(type::caption, middle);
    pen.text(middle_x, text, type::caption, middle);
    const double title_x = axis::edge + pen.width(type::caption_bold, plan.id) + 2.5;
    pen.text(axis::edge, text, type::caption_bold, plan.id);
    pen.fit(title_x, text, middle_x - title_x - 2, type::caption_narrow, plan.title);
    pen.region(page::Role::foot, axis::edge, rule, axis::right - axis::edge, foot_rule - 4,
               fmt::format("foot {}", page));
}

// A box for each check to tick; with more checks than boxes, empty boxes to write the way in.
void strip(Pen& pen, const Order& order, double height) {
    const std::size_t count = order.checks.size();
    if (count == 0) return;
    const double y = height - foot_rule - strip_gap - strip_box, base = y + strip_box / 2 + half_cap(type::caption);
    const bool numbered = count <= most_numbers;
    const std::string label = say(numbered ? Word::strip_done : Word::strip_way);
    const double start = numbered ? axis::edge : axis::edge + pen.width(type::caption, label) + 2;
    const double width = !numbered ? 10 : count <= most_wide ? 7 : strip_box, pitch = width + strip_space;
    const std::size_t boxes =
        numbered ? count : static_cast<std::size_t>((axis::right - start + pitch - width) / pitch);
    for (std::size_t i = 0; i < boxes; ++i) {
        const double x = start + static_cast<double>(i) * pitch;
        pen.rect(x, y, width, strip_box, stroke::rule);
        if (numbered) pen.centre(x + width / 2, base, type::caption, std::to_string(i + 1));
        pen.region(page::Role::tick, x, y, width, strip_box, fmt::format("strip {}", i + 1));
    }
    const double after = start + static_cast<double>(boxes) * pitch;
    if (!numbered)
        pen.text(axis::edge, base, type::caption, label);
    else if (after + pen.width(type::caption, label) <= axis::right)
        pen.text(after, base, type::caption, label);
}

} // namespace

double content_bottom(double height) { return height - foot_rule - strip_gap - strip_box - 0.8; }

void draw_frames(Draft& draft, std::vector<page::Page>& pages, const std::string& digest) {
    const Plan& plan = draft.plan;
    Facts facts;
    facts.digest = digest.substr(0, 4) + " " + digest.substr(4);
    facts.revision = revision_words(plan);
    for (std::size_t i = 0; i < pages.size(); ++i) {
        Piece piece;
        Pen pen = draft.pen(piece, plan.at);
        head(pen, plan, facts, draft.kind, i + 1, pages.size());
        foot(pen, plan, facts, pages[i].height, i + 1, pages.size());
        if (draft.kind == SheetKind::workshop) strip(pen, draft.order, pages[i].height);
        put(pages[i], std::move(piece), 0);
        draw_code(pages[i], axis::right - frame::code, frame::margin, frame::code,
                  capitals(fmt::format("{}/{}/{}", plan.id, i + 1, digest))); // up to 20 characters take 21 modules
    }
}

} // namespace loomsheet
