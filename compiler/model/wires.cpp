#include "grammar/colours.hpp"
#include "model/builder.hpp"
#include "model/wire_size.hpp"
#include "syntax/complain.hpp"
#include <algorithm>
#include <cctype>
#include <fmt/format.h>

namespace loomsheet {

namespace {
std::string upper(std::string_view word) {
    std::string made(word);
    std::transform(made.begin(), made.end(), made.begin(), [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return made;
}
} // namespace

void Builder::fill_wire(Entry& entry) {
    if (entry.made == none) return;
    auto& wire = circuit_.wires[static_cast<std::size_t>(entry.made)];
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        auto [row, read, at] = open(entry, entry.statement->first_phrase + i);
        switch (row->form) {
        case Form::route: {
            const Span from = read.take();
            read.skip_words();
            const Span to = read.take();
            wire.from = wire_end(from);
            wire.to = wire_end(to);
            break;
        }
        case Form::area: {
            wire.area = read.quantity();
            wire.gauge = wire.area->written;
            reach(*wire.area, "cross-section");
            break;
        }
        case Form::awg: {
            read.skip_words();
            const Span size = read.take();
            wire.gauge = fmt::format("AWG {}", text(size));
            Quantity area;
            area.at = size;
            area.unit = find_unit("mm2");
            area.si = awg_area(text(size));
            area.written = wire.gauge;
            if (area.si == 0)
                findings_.add(finding::out_of_physical_reach, size, fmt::format("AWG {} is no size", text(size)),
                              "ASTM B258 has 4/0, 3/0, 2/0, 1/0 and 1 to 40");
            else
                wire.area = area;
            break;
        }
        case Form::colour: wire.colour = colour(read.take()); break;
        case Form::length: wire.length = read.quantity(); break;
        case Form::rated: wire.rated = value(read, "wire current"); break;
        case Form::unfused: wire.unfused = true; break;
        case Form::note: wire.notes.push_back(words(read)); break;
        case Form::allow: wire.allows.push_back(allow(read)); break;
        case Form::likely:
            read.skip_words();
            wire.likely = read.number();
            break;
        default: break;
        }
    }
    constexpr double widest = 0.13; // 120 mm² is the largest size of ISO 6722-1 (from memory)
    if (wire.gauge.empty() && wire.length && wire.length->unit->written == "mm" && wire.length->si < widest)
        findings_.add(finding::out_of_physical_reach, wire.length->at,
                      fmt::format("`{}` is a length, and {} has no cross-section", said(wire.length->at), wire.id),
                      fmt::format("did you mean `{}2`?", said(wire.length->at)));
    else if (wire.length)
        reach(*wire.length, "length");
    const auto has_route = [&] {
        for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i)
            if (phrases()[entry.tree->phrases[entry.statement->first_phrase + i].row].form == Form::route) return true;
        return false;
    };
    if (!entry.statement->broken && !has_route()) lacks(entry, "from where to where it runs", "G1.+ -> F1.1");
}

// `BU/WH`, `GNYE`, `blue/white`, or a code of the shop's own.
Colour Builder::colour(Span at) {
    const auto written = text(at);
    const auto slash = written.find('/');
    const std::string_view parts[2] = {written.substr(0, slash),
                                       slash == std::string_view::npos ? std::string_view{} : written.substr(slash + 1)};
    std::string codes[2];
    std::string better;
    for (int i = 0; i < 2; ++i) {
        const auto part = parts[i];
        if (part.empty()) continue;
        const auto own = [&](std::string_view code) {
            return std::any_of(circuit_.own_colours.begin(), circuit_.own_colours.end(), [code](const auto& c) { return c.first == code; });
        };
        if (find_colour_code(part) != nullptr || own(part)) {
            codes[i] = part;
        } else if (const auto* word = find_colour_word(part)) {
            codes[i] = word->code;
        } else if (const auto big = upper(part); find_colour_code(big) != nullptr || own(big)) {
            better = upper(written);
            codes[i] = big;
        } else if (part.size() == 4 && slash == std::string_view::npos && find_colour_code(part.substr(0, 2)) != nullptr &&
                   find_colour_code(part.substr(2)) != nullptr) {
            findings_.add(finding::joined_colour_code, at,
                          fmt::format("`{}` does not say which colour is the base and which the stripe", part),
                          fmt::format("write `{}/{}` or `{}/{}`: the joined code of IEC 60757 is in table order only", part.substr(0, 2),
                                      part.substr(2), part.substr(2), part.substr(0, 2)));
            return {};
        } else {
            std::vector<std::string_view> known;
            for (const auto& row : colours())
                known.push_back(part.size() <= 3 ? row.code : row.word);
            auto help = meant(part, known);
            if (help.empty())
                help =
                    fmt::format("the codes are those of IEC 60757; a shop's own is declared: colour {} \"tan\"", upper(part).substr(0, 2));
            findings_.add(finding::unknown_colour, at, fmt::format("`{}` is no colour that is known here", part), help);
            return {};
        }
    }
    if (slash != std::string_view::npos && parts[1].find('/') != std::string_view::npos)
        findings_.add(finding::unknown_colour, at, "a wire has a base and one stripe", "write BASE/STRIPE");
    if (!better.empty())
        findings_.add(finding::unknown_colour, at, fmt::format("colour codes are written in capitals, not `{}`", written),
                      fmt::format("write `{}`", better));
    return {codes[0], codes[1]};
}

void Builder::fill_colour(Entry& entry) {
    auto read = head(entry);
    const Span at = read.take();
    const std::string code(text(at));
    const auto meaning = read.text();
    const bool letters = code.size() == 2 && std::all_of(code.begin(), code.end(), [](unsigned char c) { return std::isupper(c); });
    if (!letters)
        findings_.add(finding::unknown_colour, at, fmt::format("a colour code is two capitals, not `{}`", code),
                      "for instance: colour TN \"tan\"");
    else if (const auto* known = find_colour_code(code))
        findings_.add(finding::declared_twice, at, fmt::format("`{}` is {} in IEC 60757 already", code, known->word),
                      "take two other letters");
    else if (std::any_of(circuit_.own_colours.begin(), circuit_.own_colours.end(), [&](const auto& c) { return c.first == code; }))
        findings_.add(finding::declared_twice, at, fmt::format("the colour `{}` is declared twice", code), "keep one of the two");
    else
        circuit_.own_colours.emplace_back(code, meaning);
}

void Builder::fill_cable(Entry& entry) {
    if (entry.made == none) return;
    auto& cable = circuit_.cables[static_cast<std::size_t>(entry.made)];
    auto read_head = head(entry);
    read_head.take();
    if (read_head.is(Atom::text)) cable.name = read_head.text();
    const auto before = findings_.list().size();
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        auto [row, read, at] = open(entry, entry.statement->first_phrase + i);
        if (row->form == Form::twisted) {
            cable.twisted = true;
        } else if (row->form == Form::wire_name) {
            const std::string name(read.take_text());
            const auto found = wires_.find(name);
            if (found == wires_.end()) {
                findings_.add(finding::unknown_name, at, fmt::format("no wire is called `{}`", name),
                              "a cable lists wires that are declared");
                continue;
            }
            auto& wire = circuit_.wires[static_cast<std::size_t>(found->second.id)];
            if (!wire.cable.empty())
                findings_.add(finding::declared_twice, at, fmt::format("{} runs in cable {} already", name, wire.cable),
                              "a wire runs in one cable");
            wire.cable = cable.id;
            cable.wires.push_back(found->second.id);
        }
    }
    if (!entry.statement->broken && findings_.list().size() == before && cable.wires.empty())
        lacks(entry, "its wires", "cable C1 W61 W62 twisted");
}

void Builder::fill_panel(Entry& entry) {
    if (entry.made == none) return;
    auto& panel = circuit_.panels[static_cast<std::size_t>(entry.made)];
    auto read_head = head(entry);
    read_head.take();
    if (read_head.is(Atom::text)) panel.name = read_head.text();
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        auto [row, read, at] = open(entry, entry.statement->first_phrase + i);
        if (row->form == Form::minutes)
            panel.time = value(read, "check time");
        else
            read.skip_words(), panel.how = read.text();
    }
}

void Builder::fill_meter(Entry& entry) {
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        auto [row, read, at] = open(entry, entry.statement->first_phrase + i);
        MeterRow made;
        made.function = read.any_word();
        made.within = read.quantity();
        made.at = at;
        const auto dimension = made.within.unit->dimension;
        const auto wanted = row_of(*meter_function(made.function)).dimension;
        if (dimension != wanted && dimension != Dimension::percent)
            findings_.add(finding::unit_does_not_fit, made.within.at,
                          fmt::format("`{}` is {}; a meter of {} is within {}", said(made.within.at), row_of(dimension).word, made.function,
                                      row_of(wanted).word),
                          "for instance: clamp ±10 mA, or volts ±0.5 %");
        else
            circuit_.meters.push_back(std::move(made));
    }
}

} // namespace loomsheet
