// Where things stand across every page, and the type and line sizes by their role. Millimetres and points; the reasons
// are legibility figures (NUREG-0700, DOD-HDBK-791 and common practice, see trade data, "Paper sheet legibility").
#pragma once
#include "page/page.hpp"
#include <cstdint>

namespace loomsheet {

// The places are those of the sheet that this thread is laying out: `set_axes` gives them for a paper and its margins.
// On narrow paper a card has its set-up over its leads, not beside them.
namespace axis {
constinit inline thread_local bool narrow = false;
constinit inline thread_local double edge = 18;   // left edge: room for punched holes
constinit inline thread_local double box = 22.5;  // tick boxes
constinit inline thread_local double text = 32.5; // titles, text beside boxes
constinit inline thread_local double divider = 72.2;
constinit inline thread_local double probe = 75; // lead pills, reading fields
constinit inline thread_local double pin = 95;
constinit inline thread_local double wire = 124; // wire codes, marks of outcomes
constinit inline thread_local double limit = 136;
constinit inline thread_local double swatch = 144.5;
constinit inline thread_local double face = 168;
constinit inline thread_local double right = 198;
constinit inline thread_local double second = 91.25;           // a second column stands so much further right
constinit inline thread_local double label = 32.5, words = 75; // rows at the foot of a card

inline constexpr double wide_room = 180, least_wide = 174, least_narrow = 118; // mm between the edges
// The place on this paper that has the same share of the width as `x` has on A4.
inline double across(double x) { return edge + (x - 18) * (right - edge) / wide_room; }
} // namespace axis

namespace frame {
inline constexpr double clip_zone = 18;    // the clip of the board bites here
inline constexpr double margin = 4.2;      // printers leave so much white at the edge (common practice, no source)
inline constexpr double code = 16;         // side of the phone code: 3 pixels for each of 21 modules at 100 dpi
inline constexpr double code_white = 3.05; // 4 modules under it stay white (ISO/IEC 18004)
constinit inline thread_local double foot = 5.7; // baseline of the foot, above the lower edge
} // namespace frame

// Millimetres of white at the edges.
struct Margins {
    double left = 18, right = 12, top = 18, bottom = 5;
};
inline constexpr Margins least_margins{5, 5, frame::clip_zone, 5};

// What a type size is for; the least of each by the rules of the paper, in points.
enum class Type : std::uint8_t { probing, text, caption };
struct TypeSizes {
    double probing = 13, text = 10.5, caption = 9;
};
inline constexpr TypeSizes usual_sizes{}, least_sizes{13, 9, 8}, most_sizes{15, 12, 10};
constinit inline thread_local TypeSizes type_sizes;

// Sets the places above for a page so wide.
void set_axes(double page_width, const Margins& margins);

struct Style {
    page::Face face;
    double usual; // points, with the usual sizes
    Type type = Type::probing;
    double pt() const; // on this sheet
};
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
inline constexpr Style how{Face::N, 10.5, Type::text}, how_bold{Face::NB, 10.5, Type::text},
    run_head{Face::SB, 10.5, Type::text}, minutes{Face::S, 10.5, Type::text};
inline constexpr Style note{Face::S, 9.5, Type::text};
inline constexpr Style caption{Face::S, 9, Type::caption}, caption_bold{Face::SB, 9, Type::caption},
    caption_narrow{Face::NB, 9, Type::caption};
} // namespace type

namespace stroke { // points; a worn copy loses rules under 1 pt
inline constexpr double drawing = 0.75, rule = 1.0, box = 1.25, mark = 1.5, heavy = 2.0;
}

// From baseline to baseline, mm.
inline double leading(Style style) { return style.pt() * 25.4 / 72.0 * 1.12; }
// Below the middle line of capitals to their baseline, mm (capitals are 0.688 em high).
inline double half_cap(Style style) { return style.pt() * 25.4 / 72.0 * 0.688 / 2; }

} // namespace loomsheet
