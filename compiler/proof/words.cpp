#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

namespace {
// Characters on the screen: those that begin in UTF-8.
std::size_t width(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return (c & 0xC0) != 0x80; }));
}
} // namespace

std::string laid_out(const std::vector<std::vector<std::string>>& lines) {
    std::vector<std::size_t> widths(lines.empty() ? 0 : lines.front().size());
    for (const auto& line : lines)
        for (std::size_t i = 0; i < widths.size(); ++i)
            widths[i] = std::max(widths[i], width(line[i]));
    std::string text;
    for (const auto& line : lines) {
        std::string out;
        for (std::size_t i = 0; i < widths.size(); ++i)
            out += line[i] + std::string(widths[i] - width(line[i]) + 2, ' ');
        out.erase(out.find_last_not_of(' ') + 1);
        text += out + "\n";
    }
    return text;
}

std::string number_words(double number) {
    std::string text = fmt::format("{:.2f}", number);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::vector<std::string> way_words(const Circuit& circuit, const Graph& graph, const std::vector<int>& way) {
    std::vector<std::string> words;
    for (const int index : way) {
        const Edge& edge = graph.edges[index];
        std::string word;
        if (edge.wire != none)
            word = circuit.wires[edge.wire].id;
        else if (edge.part != none && edge.kind != EdgeKind::joint)
            word = circuit.parts[edge.part].id;
        if (!word.empty() && std::find(words.begin(), words.end(), word) == words.end()) words.push_back(std::move(word));
    }
    return words;
}

std::string suspect_words(const Circuit& circuit, const Suspect& suspect) {
    std::string name = suspect_name(circuit, suspect);
    if (suspect.wire == none) return name;
    const Wire& wire = circuit.wires[suspect.wire];
    return fmt::format("{}, {} to {}", name, circuit.pin_name(wire.from), circuit.pin_name(wire.to));
}

std::string of_hundred(double share) {
    if (share > no_share && share < 0.005) return "less than 1";
    if (share < 1 - no_share && share > 0.995) return "99";
    return fmt::format("{:.0f}", share * 100);
}

} // namespace loomsheet
