#include "source/catalogue.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <utility>

namespace loomsheet {

extern const std::pair<std::string_view, std::string_view> finding_pages[]; // written by grammar/embed.cmake
extern const unsigned long finding_pages_count;

namespace {
constexpr auto error = Severity::error;
constexpr auto warning = Severity::warning;
constexpr auto note = Severity::note;

constexpr CatalogueRow rows[] = {
    // files and bytes
    {1, error, "not UTF-8 text"},
    {2, error, "a control character in the text"},
    {3, error, "a line too long to read"},
    {4, error, "a used file cannot be read"},
    {5, error, "a file uses itself"},
    {6, error, "no plan in the file"},
    // form
    {101, error, "not a statement"},
    {102, error, "a phrase that this statement does not have"},
    {103, error, "a phrase that is not finished"},
    {104, error, "a text without its closing quote"},
    {105, error, "a character that has no place here"},
    {106, error, "an indented line with no statement above"},
    {107, error, "a statement without its name"},
    {108, error, "an unknown unit"},
    {109, error, "a number without its unit"},
    {110, error, "a phrase given twice"},
    {111, error, "a decimal comma"},
    {112, error, "a phrase that does not suit this kind of part"},
    {113, error, "a second plan head"},
    {114, error, "a statement that lacks what it needs"},
    {115, error, "a word of the language used as a label"},
    // names and values
    {201, error, "an unknown name"},
    {202, error, "declared twice"},
    {203, error, "the wrong kind of thing"},
    {204, error, "an unknown pin"},
    {205, error, "a pin inside an assembly"},
    {206, error, "a unit that does not fit"},
    {207, error, "a value out of physical reach"},
    {208, error, "an unknown colour"},
    {209, error, "a joined colour code"},
    {210, error, "an unknown switch position"},
    {211, error, "an unknown label"},
    {212, error, "a trouble code that is none"},
    {213, error, "cavities that do not add up"},
    {214, warning, "declared but never used"},
    // flow
    {301, error, "a check that cannot be reached"},
    {302, error, "a verdict that cannot be reached"},
    {303, error, "a circle of checks"},
    {304, error, "an outcome that leads nowhere"},
    {305, error, "a plan without an end"},
    {306, error, "bands that overlap or leave a gap"},
    {307, error, "an outcome that this check cannot have"},
    {308, error, "a check without its limit"},
    {309, error, "a limit against a reading not yet taken"},
    {310, warning, "a look that proves nothing"},
    {311, warning, "a check that decides nothing"},
    {312, warning, "an allowance that is not needed"},
    {313, warning, "a repair that is never proved"},
    {314, error, "an outcome given twice"},
    // wiring
    {401, error, "missing ground"},
    {402, error, "no way to a supply"},
    {403, warning, "a pin that nobody wires"},
    {404, warning, "two wires in one cavity"},
    {405, error, "mated halves that do not match"},
    {406, error, "supply joined to ground with no load"},
    {407, warning, "a path from the battery with no fuse"},
    {408, warning, "a fuse larger than its wire may carry"},
    {409, warning, "a load close to its fuse"},
    {410, error, "a wire that goes nowhere"},
    // set-up and measuring
    {501, error, "a label that is no set-up"},
    {502, error, "unplugging what has no plug"},
    {503, error, "probing what the set-up hides"},
    {504, error, "the wrong half of an in-line pair"},
    {505, error, "ohms with a supply connected"},
    {506, error, "a bridge that joins supply to ground"},
    {507, error, "two points that are the same joint"},
    {508, error, "an access panel nobody declared"},
    {509, error, "a set-up that contradicts itself"},
    {511, warning, "a bridge without a fuse"},
    {512, error, "a load with nothing to lie across"},
    {513, error, "a drop across a load"},
    // readings
    {601, warning, "limits that a sound car can miss"},
    {602, error, "limits that no sound car meets"},
    {603, warning, "limits that nothing can miss"},
    {604, warning, "limits that the meter cannot resolve"},
    {605, error, "a reading between points that float"},
    {606, error, "ohms where current flows already"},
    {607, warning, "coil ohms across a diode, the wrong way"},
    {608, warning, "a cold filament held against a hot one"},
    {609, error, "more amperes than the meter carries"},
    {610, warning, "a meter in line that changes what it reads"},
    {611, warning, "a way round the part that is measured"},
    {612, error, "a drop where nothing flows"},
    {613, warning, "a ground whose own drop is not seen"},
    {614, warning, "a relay that may or may not pull in"},
    {615, error, "a circuit that chatters"},
    {616, error, "a reading that hangs on what was before"},
    {617, warning, "a wire that loses too much"},
    {618, error, "a fuse that blows in normal use"},
    {619, warning, "a reading beyond what is computed"},
    {620, error, "a check whose limit cannot be computed"},
    {621, warning, "a reading below zero"},
    // what the plan proves
    {701, warning, "a verdict that does not name all that fits"},
    {702, warning, "a verdict that blames what is cleared"},
    {703, warning, "an outcome that nothing can have"},
    {704, warning, "a check that can find nothing"},
    {705, warning, "a verdict at which nothing ends"},
    {706, warning, "a planted fault that is not found"},
    {707, warning, "a new fuse on a short"},
    {708, warning, "a gap in the plan"},
    {709, warning, "a check that passes what harms"},
    {710, error, "a complaint that a sound car has"},
    {711, warning, "a fault that changes nothing"},
    // the sheet
    {801, error, "a character that no typeface has"},
    {802, error, "a text too wide for its place"},
    // its templates and words
    {851, error, "a statement that has no place in this file"},
    {852, error, "a name that no template knows"},
    {853, error, "the same thing twice in a template"},
    {854, error, "a word without its text"},
    {855, error, "a word with the wrong places"},
    {856, error, "a type size out of bounds"},
    {857, error, "margins that do not do"},
    {858, error, "fields that do not fit"},
    {859, error, "a template that prints nothing"},
    // no meaning yet
    {901, note, "a question without marks among others that have them"},
};
} // namespace

std::span<const CatalogueRow> catalogue() { return rows; }

const CatalogueRow* find_in_catalogue(int code) {
    const auto at = std::lower_bound(std::begin(rows), std::end(rows), code,
                                     [](const CatalogueRow& row, int wanted) { return row.code < wanted; });
    return at != std::end(rows) && at->code == code ? at : nullptr;
}

std::string code_name(int code) { return fmt::format("LS{:03}", code); }

std::string_view finding_page(int code) {
    const std::string name = code_name(code) + ".md";
    for (unsigned long i = 0; i < finding_pages_count; ++i)
        if (finding_pages[i].first == name) return finding_pages[i].second;
    return {};
}

} // namespace loomsheet
