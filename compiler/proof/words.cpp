#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

std::string list_words(const std::vector<std::string>& words, std::string_view last, std::size_t most) {
    std::string text;
    const std::size_t shown = words.size() > most ? most - 1 : words.size();
    for (std::size_t i = 0; i < shown; ++i) {
        if (i > 0) text += i + 1 == words.size() ? fmt::format(" {} ", last) : ", ";
        text += words[i];
    }
    if (shown < words.size()) text += fmt::format(" {} {} more", last, words.size() - shown);
    return text;
}

std::string a_kind(PartKind kind) {
    const std::string_view word = kind_word(kind);
    return fmt::format("{} {}", std::string_view("aeiou").find(word.front()) == std::string_view::npos ? "a" : "an",
                       word);
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
        if (!word.empty() && std::find(words.begin(), words.end(), word) == words.end())
            words.push_back(std::move(word));
    }
    return words;
}

} // namespace loomsheet
