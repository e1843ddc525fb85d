// The English of messages: articles and lists.
#pragma once
#include <fmt/format.h>
#include <string>
#include <string_view>
#include <vector>

namespace loomsheet {

inline std::string_view article(std::string_view word) {
    return std::string_view("aeiou").find(word.front()) == std::string_view::npos ? "a" : "an";
}
// "a fuse", "an assembly"
inline std::string with_article(std::string_view word) { return fmt::format("{} {}", article(word), word); }

// "M3", "M3 and M4", "M3, M4 and M5"; of more than `most`: "M3, M4 and 7 more". `last` stands before the last one.
template <class Words>
std::string list_words(const Words& words, std::string_view last = "and", std::size_t most = 4) {
    std::string text;
    const std::size_t shown = words.size() > most ? most - 1 : words.size();
    for (std::size_t i = 0; i < shown; ++i) {
        if (i > 0) text += i + 1 == words.size() ? fmt::format(" {} ", last) : ", ";
        text += words[i];
    }
    if (shown < words.size()) text += fmt::format(" {} {} more", last, words.size() - shown);
    return text;
}
template <class Words>
std::string list_all(const Words& words, std::string_view last) {
    return list_words(words, last, words.size());
}
// "`dark`, `dim` or `lit`"
template <class Words>
std::string list_quoted(const Words& words, std::string_view last = "or") {
    std::vector<std::string> quoted;
    for (const auto& word : words)
        quoted.push_back(fmt::format("`{}`", word));
    return list_all(quoted, last);
}

} // namespace loomsheet
