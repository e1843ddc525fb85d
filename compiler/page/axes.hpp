// Where things stand across every page, and the type and line sizes by their role. Millimetres and points; the reasons
// are legibility figures (NUREG-0700, DOD-HDBK-791 and common practice, see trade data, "Paper sheet legibility").
#pragma once
#include "page/page.hpp"
#include <cstdint>

namespace loomsheet {

// Where things stand across a page, mm from its left edge; the last two are distances.
struct Axes {
    bool narrow; // on narrow paper a card has its set-up over its leads, not beside them
    double edge; // left edge: room for punched holes
    double box;  // tick boxes
    double text; // titles, text beside boxes
    double divider;
    double probe; // lead pills, reading fields
    double pin;
    double wire; // wire codes, marks of outcomes
    double limit;
    double swatch;
    double face;
    double right;
    double label, words; // rows at the foot of a card
    double second;       // from a column to the second one
    double foot;         // from the lower edge up to the baseline of the foot

    // The place on this paper that has the same share of the width as `x` has on A4.
    double across(double x) const;
};

namespace frame {
inline constexpr double clip_zone = 18;    // the clip of the board bites here
inline constexpr double margin = 4.2;      // printers leave this much white at the edge (common practice, no source)
inline constexpr double code = 16;         // side of the phone code: 3 pixels for each of 21 modules at 100 dpi
inline constexpr double code_white = 3.05; // 4 modules under it stay white (ISO/IEC 18004)
inline constexpr double wide_room = 180, least_wide = 174, least_narrow = 118; // mm between the side margins
} // namespace frame

// Millimetres of white at the edges.
struct Margins {
    double left = 18, right = 12, top = 18, bottom = 5;
};
inline constexpr Margins least_margins{5, 5, frame::clip_zone, 5};

// Computed for a page of this width, mm.
Axes axes_of(double page_width, const Margins& margins);

// The three groups of type sizes.
enum class Type : std::uint8_t { probing, text, caption };
struct Style {
    page::Face face;
    double usual; // points, with the usual sizes
    Type type = Type::probing;
};
// The size of each group, in points; least and most are limits of the rules for paper.
struct TypeSizes {
    double probing = 13, text = 10.5, caption = 9;

    double pt(const Style& style) const;
    double leading(const Style& style) const; // from baseline to baseline, mm
    // Below the middle line of capitals to their baseline, mm: capitals are 0.688 em high.
    double half_cap(const Style& style) const;
};
inline constexpr TypeSizes usual_sizes{}, least_sizes{13, 9, 8}, most_sizes{15, 12, 10};

namespace type {
using page::Face;
inline constexpr Style sheet_title{Face::SB, 26};
inline constexpr Style number{Face::SB, 26}, number_wide{Face::NB, 26};
inline constexpr Style pin{Face::SB, 20};
inline constexpr Style wire_code{Face::NB, 18};
inline constexpr Style destination{Face::SB, 18}, destination_wide{Face::NB, 18};
inline constexpr Style limit{Face::NB, 16}, check_title{Face::SB, 16}, unit{Face::SB, 16}, plan_id{Face::SB, 16};
inline constexpr Style main{Face::NB, 13}, words{Face::N, 13}, block{Face::SB, 13}, block_narrow{Face::NB, 13};
inline constexpr Style text{Face::S, 12, Type::text}, lead_in{Face::NB, 12, Type::text}, plain{Face::N, 12, Type::text};
inline constexpr Style how{Face::N, 10.5, Type::text}, how_bold{Face::NB, 10.5, Type::text}, run_head{Face::SB, 10.5, Type::text},
    minutes{Face::S, 10.5, Type::text};
inline constexpr Style note{Face::S, 9.5, Type::text};
inline constexpr Style caption{Face::S, 9, Type::caption}, caption_bold{Face::SB, 9, Type::caption},
    caption_narrow{Face::NB, 9, Type::caption};
} // namespace type

namespace stroke { // points; a worn copy loses rules under 1 pt
inline constexpr double drawing = 0.75, rule = 1.0, box = 1.25, mark = 1.5, heavy = 2.0;
}

} // namespace loomsheet
