// How much room words and signs ask for; a letter is 2 mm wide.
#include "drawing/scheme/measures.hpp"
#include "hand.hpp"
#include <doctest/doctest.h>
#include <numeric>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

const Circuit& wires() {
    static const Circuit made = hand::circuit("lamp E1 1/2 5 W\nlamp E2 1/2 5 W\nwire W1 E1.1 -> E2.1 1.5 mm2 RD/BU\n"
                                              "wire W2 E1.2 -> E2.2\n");
    return made;
}
Ruler ruler(Manner manner = {}) { return {wires(), hand::measure(), manner}; }
std::vector<int> first(int count) {
    std::vector<int> list(static_cast<std::size_t>(count));
    std::iota(list.begin(), list.end(), 1);
    return list;
}
using Rows = std::vector<std::vector<std::string>>;

drawing::Node cavity(const std::string& name) {
    drawing::Node node = hand::node(NodeKind::cavity);
    for (Port& port : node.ports)
        port.name = name;
    return node;
}

} // namespace

TEST_CASE("the words of a wire: colour over number and size, or both on one line; a bare wire has its number") {
    const WireWords over = wire_words(ruler(), hand::edge(0, 1, 0));
    CHECK(over.colour == "RD/BU");
    CHECK(over.size == "W1  1.5");
    CHECK(over.size_x == 0);
    CHECK(over.width == doctest::Approx(14));
    CHECK(over.height == doctest::Approx(mm::colour_line + mm::size_line));
    const WireWords beside = wire_words(ruler({true, false, false}), hand::edge(0, 1, 0));
    CHECK(beside.size_x == doctest::Approx(10 + 1.4));
    CHECK(beside.width == doctest::Approx(10 + 1.4 + 14));
    CHECK(beside.height == doctest::Approx(mm::colour_line));
    const WireWords bare = wire_words(ruler(), hand::edge(0, 1, 1));
    CHECK(bare.size == "W2");
    CHECK(bare.height == doctest::Approx(mm::size_line));
}

TEST_CASE("numbers of checks: one in a circle, three a row, from seven on four, from seventeen on eight and in runs") {
    CHECK(probe_mark(ruler(), {7}).rows == Rows{{"7"}});
    CHECK(probe_mark(ruler(), {7}).width == doctest::Approx(mm::probe));
    CHECK(probe_mark(ruler(), {7}).height == doctest::Approx(mm::probe));
    CHECK(probe_mark(ruler(), {1234}).width == doctest::Approx(8 + 3 - 2)); // too wide for a circle
    CHECK(probe_mark(ruler(), {1, 2, 3}).rows == Rows{{"1", "2", "3"}});
    CHECK(probe_mark(ruler(), {1, 2, 3}).width == doctest::Approx(3 * 2 + 2 * 1.6 + 3));
    CHECK(probe_mark(ruler(), first(6)).rows.size() == 2);
    CHECK(probe_mark(ruler(), first(6)).height == doctest::Approx(mm::probe + 4.4));
    CHECK(probe_mark(ruler(), first(7)).rows == Rows{{"1", "2", "3", "4"}, {"5", "6", "7"}});
    CHECK(probe_mark(ruler(), first(16)).rows.size() == 4);
    CHECK(probe_mark(ruler(), first(17)).rows == Rows{{"1–17"}});
    std::vector<int> odd;
    for (int i = 0; i < 17; ++i)
        odd.push_back(2 * i + 1);
    CHECK(probe_mark(ruler(), odd).rows.size() == 3); // eight in a row
    std::vector<int> mixed = odd;
    mixed.push_back(34), mixed.push_back(35);
    CHECK(probe_mark(ruler(), mixed).rows.back().back() == "33–35"); // three are a run
    mixed.pop_back();
    CHECK(probe_mark(ruler(), mixed).rows.back().back() == "34"); // two are not
}

TEST_CASE("upright, up to three numbers stand one above the other") {
    CHECK(probe_mark(ruler({false, false, true}), {1, 2, 3}).rows == Rows{{"1"}, {"2"}, {"3"}});
    CHECK(probe_mark(ruler({false, false, true}), first(4)).rows == Rows{{"1", "2", "3"}, {"4"}});
}

TEST_CASE("beside a port: numbers left, name and the wire's words right; or names left as well") {
    Scheme scheme;
    scheme.edges = {hand::edge(0, 1, 0)};
    drawing::Node node = hand::node(NodeKind::ground);
    node.ports.pop_back();
    node.ports[0].name = "abc";
    node.ports[0].label = 0;
    node.ports[0].checks = {5};
    const Sizes right = sizes_of(ruler(), scheme, node);
    CHECK(right.extents[0].right[0] == doctest::Approx(mm::beside + 14));
    CHECK(right.extents[0].left[0] == doctest::Approx(mm::beside + mm::probe));
    CHECK(right.heights.label_above == doctest::Approx(9.1));
    CHECK(right.heights.lead_above == doctest::Approx(mm::lead));
    CHECK(right.heights.lead_below == 0);
    const Sizes left = sizes_of(ruler({false, true, false}), scheme, node);
    CHECK(left.extents[0].left[0] == doctest::Approx(mm::beside + 6 + 0.8 + mm::probe));
    CHECK(left.extents[0].right[0] == doctest::Approx(mm::beside + 14));
    CHECK(left.heights.label_above == 0);
    CHECK(left.heights.lead_above == doctest::Approx(9.1));
    node.ports[0].plug = true;
    const Sizes plug = sizes_of(ruler(), scheme, node);
    CHECK(plug.extents[0].left[0] == doctest::Approx(mm::beside + mm::plug_radius + mm::probe));
    CHECK(plug.heights.lead_above == doctest::Approx(mm::plug_lead));
}

TEST_CASE("a lower port asks for room below the band") {
    Scheme scheme;
    scheme.edges = {hand::edge(0, 1, 0)};
    drawing::Node node = hand::node(NodeKind::from_page);
    node.ports.erase(node.ports.begin());
    node.ports[0].label = 0;
    const Sizes sizes = sizes_of(ruler(), scheme, node);
    CHECK(sizes.extents[0].right[2] == doctest::Approx(mm::beside + 14));
    CHECK(sizes.heights.label_below == doctest::Approx(9.1));
    CHECK(sizes.heights.label_above == 0);
}

TEST_CASE("bands: cavities, grounds, marks of pages, points and dummies") {
    drawing::Node titled = hand::node(NodeKind::ground);
    titled.title = {title_line(hand::measure(), Type::small, "ten letter")};
    const double line = pitch_of(Type::small);
    CHECK(band_height(cavity("1")) == doctest::Approx(mm::cavity));
    CHECK(band_height(titled) == doctest::Approx(mm::ground + line + 0.6));
    titled.kind = NodeKind::to_page;
    CHECK(band_height(titled) == doctest::Approx(3.6 + line));
    titled.kind = NodeKind::point;
    CHECK(band_height(titled) == doctest::Approx(line + 0.4));
    titled.topmost = true;
    CHECK(band_height(titled) == 0);
    CHECK(band_height(hand::node(NodeKind::dummy)) == 0);
    CHECK(band_height(hand::node(NodeKind::turn)) == 0);
    Scheme scheme;
    const Sizes ground = sizes_of(ruler(), scheme, [&] {
        titled.kind = NodeKind::ground;
        return titled;
    }());
    CHECK(ground.extents[0].left[1] == doctest::Approx(10)); // half of its words
    CHECK(sizes_of(ruler(), scheme, hand::node(NodeKind::ground)).extents[0].right[1] == doctest::Approx(mm::ground_half));
}

TEST_CASE("a point's name stands left of it; of a topmost one, below") {
    Scheme scheme;
    drawing::Node point = hand::node(NodeKind::point);
    point.title = {title_line(hand::measure(), Type::small_bold, "J12")};
    CHECK(sizes_of(ruler(), scheme, point).extents[0].left[1] == doctest::Approx(mm::beside + 6));
    point.topmost = true;
    const Sizes topmost = sizes_of(ruler(), scheme, point);
    CHECK(topmost.extents[0].left[2] == doctest::Approx(mm::beside + 6));
    CHECK(topmost.extents[0].left[1] == 0);
    CHECK(topmost.heights.lead_below == doctest::Approx(pitch_of(Type::small_bold) + 0.4));
}

TEST_CASE("a cavity's names stand right of its plug, numbers left, one mark above and one below") {
    Scheme scheme;
    drawing::Node node = cavity("X1.1");
    const Sizes plain = sizes_of(ruler(), scheme, node);
    CHECK(plain.extents[0].right[1] == doctest::Approx(mm::plug_radius + mm::beside + 8));
    CHECK(plain.extents[0].left[1] == doctest::Approx(mm::plug_radius));
    CHECK(plain.heights.band == doctest::Approx(mm::cavity));
    node.ports[0].checks = {3};
    const Sizes marked = sizes_of(ruler(), scheme, node);
    CHECK(marked.extents[0].left[1] == doctest::Approx(mm::plug_radius + mm::beside + mm::probe));
    CHECK(marked.heights.band == doctest::Approx(2 * mm::probe + 0.5));
}

TEST_CASE("a dummy with words asks for their room, and for that of its clamp") {
    Scheme scheme;
    scheme.edges = {hand::edge(0, 1, 0)};
    drawing::Node node = hand::node(NodeKind::dummy);
    node.ports[0].label = 0;
    const Sizes words = sizes_of(ruler(), scheme, node);
    CHECK(words.extents[0].right[1] == doctest::Approx(mm::beside + 14));
    CHECK(words.extents[0].left[1] == 0);
    CHECK(words.heights.band == doctest::Approx(9.1 + 0.8));
    scheme.edges[0].checks = {4};
    CHECK(sizes_of(ruler(), scheme, node).extents[0].left[1] == doctest::Approx(mm::beside + mm::probe));
    scheme.edges[0].checks = first(9); // three rows of numbers
    CHECK(sizes_of(ruler(), scheme, node).heights.band == doctest::Approx(mm::probe + 2 * 4.4 + 0.6));
}

TEST_CASE("a box is as wide as its title and at least 12 mm high; names inside take a line each side") {
    Scheme scheme;
    drawing::Node box = hand::node(NodeKind::box);
    box.columns = 2, box.ports[1].column = 1;
    box.title = {title_line(hand::measure(), Type::designator, "U1")};
    CHECK(band_height(box) == doctest::Approx(12));
    box.ports[0].inside = "relay", box.ports[1].inside = "lamp";
    CHECK(band_height(box) == doctest::Approx(2 * mm::box_line + pitch_of(Type::designator) + 3));
    const Sizes sizes = sizes_of(ruler(), scheme, box);
    CHECK(sizes.least_width == doctest::Approx(4 + 4));
    CHECK(sizes.extents[0].left[1] == doctest::Approx(5 + 1.2));
    box.ports[0].inside = box.ports[1].inside = "";
    CHECK(sizes_of(ruler(), scheme, box).extents[0].left[1] == doctest::Approx(mm::box_margin));
}

TEST_CASE("a part reaches as far as its signs, labels and title; its outline adds to both sides") {
    Scheme scheme;
    drawing::Node part = hand::node(NodeKind::part);
    Cell lamp, fuse;
    lamp.sign = Sign::lamp, lamp.top = 0, lamp.bottom = 1;
    fuse.sign = Sign::fuse, fuse.top = 0, fuse.bottom = 1;
    fuse.label = {"on"};
    part.grid = lay_grid({lamp, fuse}, {{0, true}, {1, false}}, 2);
    part.columns = 2;
    const double lamp_half = half_width_of(Sign::lamp), fuse_reach = half_width_of(Sign::fuse) + 0.8 + 4;
    CHECK(overhang_of(part, hand::measure()).left == doctest::Approx(lamp_half));
    CHECK(overhang_of(part, hand::measure()).right == doctest::Approx(fuse_reach));
    const Sizes plain = sizes_of(ruler(), scheme, part);
    CHECK(plain.pitch[0] == doctest::Approx(lamp_half + half_width_of(Sign::fuse) + 1.6));
    CHECK(plain.heights.band == doctest::Approx(part.grid.height()));
    part.outlined = true;
    part.title = {title_line(hand::measure(), Type::designator, "K1")};
    const Sizes outlined = sizes_of(ruler(), scheme, part);
    CHECK(outlined.extents[0].left[1] == doctest::Approx(lamp_half + mm::outline));
    CHECK(outlined.extents[1].right[1] == doctest::Approx(fuse_reach + mm::outline + mm::title + 4));
    CHECK(outlined.heights.band == doctest::Approx(part.grid.height() + 2.4));
    Cell throws;
    throws.sign = Sign::change_over, throws.top = 0, throws.bottom = 1, throws.side = 2;
    part.grid = lay_grid({throws}, {{0, true}, {1, false}, {2, false}}, 3);
    part.columns = part.grid.columns;
    CHECK(sizes_of(ruler(), scheme, part).pitch[0] == doctest::Approx(mm::contact_pitch));
}

TEST_CASE("a rating beside its designator takes no line of its own") {
    drawing::Node part = hand::node(NodeKind::part);
    part.title = {title_line(hand::measure(), Type::designator, "F1"), title_line(hand::measure(), Type::small, "40 A")};
    part.title[1].x = 5.6, part.title[1].y = -1;
    CHECK(title_width(part) == doctest::Approx(5.6 + 8));
    CHECK(title_height(part) == doctest::Approx(pitch_of(Type::designator)));
}

TEST_CASE("colours have capitals of 3 mm, nothing is below 9 pt") {
    CHECK(drawing::height_of(Type::colour) >= 3);
    for (const Type type : {Type::designator, Type::number, Type::small, Type::small_bold})
        CHECK(size_of(type) >= 9);
}
