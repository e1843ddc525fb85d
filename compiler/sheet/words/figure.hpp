// Numbers and names as they are printed.
#pragma once
#include "model/plan.hpp"
#include "sheet/words/words.hpp"
#include <string>

namespace loomsheet {

// Six figures at most, no trailing zeros, a true minus sign.
std::string number(double value);
// In the unit it was written in: "0.3", "V", "0.3 V".
std::string figure(const Quantity& quantity);
std::string unit(const Wording& say, const Quantity& quantity);
std::string amount(const Wording& say, const Quantity& quantity);
// With its tolerance: "85 Ω ±10 %".
std::string rating(const Wording& say, const Quantity& quantity);
// "12 min", whatever it was written in.
std::string minutes(const Wording& say, const Quantity& time);

// A true minus sign where a pin is called "-".
std::string pin_words(const Circuit& circuit, PinId pin);
// "mΩ" where "mohm" was typed.
std::string ohms_printed(std::string words);

// What a point is called: "X21.1", "K5.30/87", "W4", "XE1"; the body is "body".
std::string point_words(const Wording& say, const Circuit& circuit, const PointRef& point);
// The same with the part of the point that is meant: "joint X30.1", "part M3.1".
std::string told_point(const Wording& say, const Circuit& circuit, const PointRef& point);
// "fuse", "control unit"
std::string kind_of(const Wording& say, const Part& part);
// "blue, white stripe"; a shop's own colours by their word.
std::string colour_words(const Wording& say, const Circuit& circuit, const Colour& colour);
// "ON", "ZÜNDUNG": capitals of ASCII and Latin-1.
std::string upper(std::string_view words);
// "Fan relay", or the word for its kind when it has no name.
std::string part_words(const Wording& say, const Part& part);
// "Fan relay, engine bay box, place 5"
std::string part_and_place(const Wording& say, const Circuit& circuit, PartId part);
// With no break at its blanks and slashes: "W6 RD/BU" stays in one line.
std::string hold_together(std::string_view words);
// "a, b, c", or with another mark between.
std::string join(const std::vector<std::string>& list, std::string_view between = ", ");
// "key on · F7 pulled": lines break at the dots, and inside long words only.
std::string listed(const Wording& say, std::vector<std::string> list);

} // namespace loomsheet
