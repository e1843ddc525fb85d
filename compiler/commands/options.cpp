#include "commands/options.hpp"
#include "sheet/words/shipped.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <vector>

namespace loomsheet {
namespace {

constexpr CommandRow command_table[] = {
    {"print", "print each plan as a sheet, one PDF a plan", print},
    {"proof", "say what is wrong with each plan, print nothing", proof},
    {"predict", "say what each check must read, on a sound car or with a fault", predict},
    {"explain", "explain a finding, with an example that has it and one cured", explain},
};

// --- one of a few words, and what each stands for
template <class Value>
struct Choice {
    std::string_view word;
    Value value;
};
constexpr Choice<Paper> papers_to_choose[] = {{"a4", Paper::a4}, {"letter", Paper::letter}, {"a5", Paper::a5}};
constexpr Choice<Format> formats[] = {{"text", Format::text}, {"short", Format::brief}, {"json", Format::json}};

std::string only(const std::string& typed, const std::vector<std::string>& names, std::string_view more = "") {
    return fmt::format("there is no '{}', only {}{}", typed, fmt::join(names, ", "), more);
}
template <class Value, std::size_t count>
std::vector<std::string> words_of(const Choice<Value> (&choices)[count]) {
    std::vector<std::string> words;
    for (const auto& choice : choices)
        words.emplace_back(choice.word);
    return words;
}
template <class Value, std::size_t count, class To>
std::string choose(const Choice<Value> (&choices)[count], const std::string& typed, To& to) {
    for (const auto& choice : choices)
        if (choice.word == typed) return to = choice.value, std::string();
    return only(typed, words_of(choices));
}
std::string shown(const std::vector<std::string>& words) { return fmt::format("{}", fmt::join(words, "|")); }

// --- a name that ships
bool ships(std::string_view ending, const std::string& typed) {
    const std::vector<std::string> names = shipped_names(ending);
    return std::find(names.begin(), names.end(), typed) != names.end();
}
std::string take_sheet(Arguments& to, const std::string& typed) {
    if (!ships(".sheet", typed)) return only(typed, shipped_names(".sheet"));
    return to.sheet = typed, std::string();
}
std::string take_language(Arguments& to, const std::string& typed) {
    if (!ships(".words", typed) && !typed.ends_with(".words")) return only(typed, shipped_names(".words"), " and files that end in .words");
    return to.words = typed, std::string();
}

template <std::string Arguments::*field>
std::string take_text(Arguments& to, const std::string& typed) {
    return to.*field = typed, std::string();
}
template <bool Arguments::*field>
std::string take_flag(Arguments& to, const std::string&) {
    return to.*field = true, std::string();
}
std::string take_plan(Arguments& to, const std::string& typed) { return to.plans.push_back(typed), std::string(); }

constexpr OptionRow option_table[] = {
    {"PLAN", "print proof predict", Takes::words, nullptr, "plan files; a folder stands for every .plan in it, - for standard input",
     take_plan},
    {"CODE", "explain", Takes::a_word, nullptr, "the code of the finding: LS204, or 204", take_text<&Arguments::code>},
    {"--format", "print proof predict", Takes::a_word, [] { return shown(words_of(formats)); },
     "findings for reading, one line each, or for programs",
     [](Arguments& to, const std::string& typed) { return choose(formats, typed, to.format); }},
    {"-o", "print", Takes::a_word, [] { return std::string("FOLDER"); }, "the folder for the sheets, made when missing (here, unless said)",
     take_text<&Arguments::folder>},
    {"--sheet", "print", Takes::a_word, [] { return shown(shipped_names(".sheet")); }, "which sheet is printed (workshop, unless said)",
     take_sheet},
    {"--template", "print", Takes::a_word, [] { return std::string("FILE"); },
     "a sheet of the shop's own instead; grammar/SHEETS.md says how it is written", take_text<&Arguments::own_template>},
    {"--class", "print", Takes::nothing, nullptr, "the three sheets of a class: lab, answer and card", take_flag<&Arguments::class_set>},
    {"--words", "print", Takes::a_word, [] { return shown(shipped_names(".words")); },
     "the language of the sheet, or a file of words (the template's, unless said)", take_language},
    {"--paper", "print", Takes::a_word, [] { return shown(words_of(papers_to_choose)); },
     "what it is printed on (the template's, unless said)",
     [](Arguments& to, const std::string& typed) { return choose(papers_to_choose, typed, to.paper); }},
    {"--fillable", "print", Takes::nothing, nullptr, "with form fields, to fill in on a tablet", take_flag<&Arguments::fillable>},
    {"--matrix", "proof", Takes::nothing, nullptr, "show the outcome of every check with every fault as well",
     take_flag<&Arguments::matrix>},
    {"--fault", "predict", Takes::a_word, [] { return std::string("FAULT"); }, "the fault, as a plan writes it: \"joint X30.1 2.2 ohm\"",
     take_text<&Arguments::fault>},
};

} // namespace

std::span<const CommandRow> command_rows() { return command_table; }
std::span<const OptionRow> option_rows() { return option_table; }

bool OptionRow::belongs_to(std::string_view command) const {
    for (std::size_t at = 0; at < of.size();) {
        const std::size_t end = std::min(of.find(' ', at), of.size());
        if (of.substr(at, end - at) == command) return true;
        at = end + 1;
    }
    return false;
}

} // namespace loomsheet
