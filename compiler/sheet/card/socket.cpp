#include "sheet/card/socket.hpp"
#include "sheet/card/symbol.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr double cell_least = 9.6, number_row = 5.4, code_row = 4.2, rim = 1;

// "RD/BU", of the first wire there.
std::string code_at(const Circuit& circuit, PinId pin) {
    const std::vector<WireId> wires = circuit.wires_at(pin);
    return wires.empty() ? std::string() : circuit.wires[wires.front()].colour.code();
}

} // namespace

double socket(const Wording& say, Pen& pen, const Circuit& circuit, const Socket& seen, double x, double y, double width) {
    const std::vector<PinId>& pins = circuit.parts[seen.part].pins;
    const int columns = std::clamp(static_cast<int>((width - 2 * rim) / cell_least), 1, static_cast<int>(pins.size()));
    const int rows = (static_cast<int>(pins.size()) + columns - 1) / columns;
    const double cell = std::min((width - 2 * rim) / columns, 14.0), w = columns * cell + 2 * rim, left = x + (width - w) / 2;
    const double h = rows * (number_row + code_row) + 2 * rim;
    pen.rect(left, y, w, h, stroke::box, page::Ink::none, 1.6);
    for (std::size_t i = 0; i < pins.size(); ++i) {
        const int row = static_cast<int>(i) / columns, column = static_cast<int>(i) % columns;
        const double at = left + rim + column * cell, top = y + rim + row * (number_row + code_row);
        const bool probed =
            std::any_of(seen.probed.begin(), seen.probed.end(), [&](const Housing::Probe& probe) { return probe.cavity == pins[i]; });
        pen.rect(at + 0.6, top + 0.4, cell - 1.2, number_row - 0.6, stroke::drawing, probed ? page::Ink::black : page::Ink::none);
        pen.centre(at + cell / 2, top + number_row / 2 + pen.half_cap(type::how_bold), type::how_bold, circuit.pins[pins[i]].name,
                   probed ? page::Ink::white : page::Ink::black);
        pen.centre(at + cell / 2, top + number_row + code_row - 1, type::caption_narrow, code_at(circuit, pins[i]));
    }
    double end = y + h + 1;
    for (const Word caption : {Word::socket_of, Word::socket_numbers})
        for (const std::string& line : pen.wrap(caption == Word::socket_of ? type::how_bold : type::caption_narrow, width,
                                                say(caption, circuit.parts[seen.part].id))) {
            end += pen.leading(type::how_bold);
            pen.centre(x + width / 2, end - 0.6, caption == Word::socket_of ? type::how_bold : type::caption_narrow, line);
        }
    return end;
}

} // namespace loomsheet
