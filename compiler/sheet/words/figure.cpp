#include "sheet/words/figure.hpp"
#include "grammar/colours.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

std::string number(double value) {
    std::string text = fmt::format("{:.6g}", value);
    if (text == "-0") return "0";
    if (text.front() == '-') text.replace(0, 1, "−");
    return text;
}

std::string figure(const Quantity& quantity) { return number(quantity.unit ? quantity.si / quantity.unit->factor : quantity.si); }

std::string unit(const Wording& say, const Quantity& quantity) {
    if (!quantity.unit) return "";
    return quantity.unit->dimension == Dimension::speed ? say(Word::unit_rpm) : std::string(quantity.unit->printed);
}

std::string amount(const Wording& say, const Quantity& quantity) { return fmt::format("{} {}", figure(quantity), unit(say, quantity)); }

std::string rating(const Wording& say, const Quantity& quantity) {
    return quantity.written.empty() ? amount(say, quantity) : quantity.written;
}

std::string minutes(const Wording& say, const Quantity& time) { return say(Word::minutes, number(time.si / 60)); }

std::string pin_words(const Circuit& circuit, PinId pin) {
    std::string name = circuit.pin_name(pin);
    if (name.size() > 2 && name.ends_with(".-")) name.replace(name.size() - 1, 1, "−");
    return name;
}

std::string point_words(const Wording& say, const Circuit& circuit, const PointRef& point) {
    if (point.metal == Metal::body) return say(Word::body);
    if (point.wire != none) return circuit.wires[point.wire].id;
    if (point.pins.size() > 1) {
        std::string name = pin_words(circuit, point.pins.front());
        for (std::size_t i = 1; i < point.pins.size(); ++i)
            name += "/" + circuit.pins[point.pins[i]].name;
        return name;
    }
    if (point.pin != none) return pin_words(circuit, point.pin);
    return point.part != none ? circuit.parts[point.part].id : "";
}

std::string ohms_printed(std::string words) {
    constexpr std::string_view typed = "ohm";
    for (std::size_t at = 0; (at = words.find(typed, at)) != std::string::npos;)
        words.replace(at, typed.size(), "Ω");
    return words;
}

std::string told_point(const Wording& say, const Circuit& circuit, const PointRef& point) {
    std::string name = point_words(say, circuit, point);
    const bool one_pin = point.pin != none && point.pins.empty() && point.wire == none;
    if (one_pin && point.metal == Metal::joint) return say(Word::point_joint, name);
    if (one_pin && point.metal == Metal::part) return say(Word::point_part, name);
    return name;
}

static_assert(static_cast<std::size_t>(Word::kind_part) - static_cast<std::size_t>(Word::kind_battery) + 1 == part_kind_count);
std::string kind_of(const Wording& say, const Part& part) {
    return say(word_after(Word::kind_battery, static_cast<std::size_t>(part.kind)));
}

std::string colour_words(const Wording& say, const Circuit& circuit, const Colour& colour) {
    const auto word = [&](const std::string& code) {
        if (const ColourRow* row = find_colour_code(code))
            return say(word_after(Word::colour_black, static_cast<std::size_t>(row - colours().data())));
        const auto own =
            std::find_if(circuit.own_colours.begin(), circuit.own_colours.end(), [&](const auto& each) { return each.first == code; });
        return own == circuit.own_colours.end() ? code : own->second;
    };
    if (colour.empty()) return {};
    return colour.stripe.empty() ? word(colour.base) : say(Word::colour_striped, word(colour.base), word(colour.stripe));
}

std::string upper(std::string_view words) {
    std::string made;
    for (const char letter : words) {
        const auto byte = static_cast<unsigned char>(letter);
        const bool latin = !made.empty() && made.back() == '\xC3' && byte >= 0xA0 && byte <= 0xBE && byte != 0xB7;
        const bool small = (letter >= 'a' && letter <= 'z') || latin;
        made += small ? static_cast<char>(byte - 0x20) : letter;
    }
    return made;
}

std::string part_words(const Wording& say, const Part& part) { return part.name.empty() ? kind_of(say, part) : part.name; }

std::string part_and_place(const Wording& say, const Circuit& circuit, PartId part) {
    const std::string place = circuit.place_of(part);
    return place.empty() ? part_words(say, circuit.parts[part]) : fmt::format("{}, {}", part_words(say, circuit.parts[part]), place);
}

std::string hold_together(std::string_view words) {
    std::string held;
    for (std::string_view rest = words; !rest.empty();) {
        const char letter = rest.front();
        rest.remove_prefix(1);
        if (letter == ' ')
            held += "\u00A0";
        else
            held += letter;
        if (letter == '/' && !rest.starts_with("\u2060")) held += "\u2060";
    }
    return held;
}

std::string join(const std::vector<std::string>& list, std::string_view between) { return fmt::format("{}", fmt::join(list, between)); }

std::string listed(const Wording& say, std::vector<std::string> list) {
    constexpr std::size_t is_long = 24; // bytes
    for (std::string& words : list)
        if (words.size() <= is_long) words = hold_together(words);
    return join(list, say(Word::dot));
}

} // namespace loomsheet
