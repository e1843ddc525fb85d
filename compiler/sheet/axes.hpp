// Where things stand across every page, and the type and line sizes by their role. Millimetres and points; the reasons
// are legibility figures (NUREG-0700, DOD-HDBK-791 and common practice, see trade data, "Paper sheet legibility").
#pragma once
#include "sheet/page.hpp"

namespace loomsheet {

namespace axis {
inline constexpr double edge = 18;   // left edge: room for punched holes
inline constexpr double box = 22.5;  // tick boxes
inline constexpr double text = 32.5; // titles, text beside boxes
inline constexpr double divider = 72.2;
inline constexpr double probe = 75; // lead pills, reading fields
inline constexpr double pin = 95;
inline constexpr double wire = 124; // wire codes, marks of outcomes
inline constexpr double limit = 136;
inline constexpr double swatch = 144.5;
inline constexpr double face = 168;
inline constexpr double right = 198;
inline constexpr double second = 91.25; // a second column stands so much further right
} // namespace axis

namespace frame {
inline constexpr double clip_zone = 18; // the clip of the board bites here
inline constexpr double top = 20;       // first content
inline constexpr double margin = 4.2;   // printers leave so much white at the edge (common practice, no source)
inline constexpr double code = 13.2;    // side of the phone code: 4 of its 21 modules stay white above `top`
} // namespace frame

struct Style {
    page::Face face;
    double pt;
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
inline constexpr Style text{Face::S, 12}, lead_in{Face::NB, 12}, plain{Face::N, 12};
inline constexpr Style how{Face::N, 10.5}, how_bold{Face::NB, 10.5}, run_head{Face::SB, 10.5}, minutes{Face::S, 10.5};
inline constexpr Style note{Face::S, 9.5};
inline constexpr Style caption{Face::S, 9}, caption_bold{Face::SB, 9}, caption_narrow{Face::NB, 9};
} // namespace type

namespace stroke { // points; a worn copy loses rules under 1 pt
inline constexpr double drawing = 0.75, rule = 1.0, box = 1.25, mark = 1.5, heavy = 2.0;
}

// From baseline to baseline, mm.
constexpr double leading(Style style) { return style.pt * 25.4 / 72.0 * 1.12; }
// Below the middle line of capitals to their baseline, mm (capitals are 0.688 em high).
constexpr double half_cap(Style style) { return style.pt * 25.4 / 72.0 * 0.688 / 2; }

} // namespace loomsheet
