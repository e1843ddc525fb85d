// Every command and every option, one row each. Parsing, help and what is said of a wrong command line read these rows.
#pragma once
#include "commands/commands.hpp"
#include <span>
#include <string>
#include <string_view>

namespace loomsheet {

struct CommandRow {
    std::string_view name, help;
    Exit (*run)(const Arguments&, const Surroundings&);
};
std::span<const CommandRow> command_rows();

enum class Takes : std::uint8_t { nothing, a_word, words }; // words: one at least
struct OptionRow {
    std::string_view name; // without a dash: what stands free, and must
    std::string_view of;   // the commands that have it, with a blank between them
    Takes takes;
    std::string (*value)(); // what it takes, as help shows it; null: nothing to show
    std::string_view help;
    std::string (*take)(Arguments&, const std::string& typed); // what is wrong with it; empty: taken
    bool belongs_to(std::string_view command) const;
    bool stands_free() const { return !name.starts_with('-'); }
};
std::span<const OptionRow> option_rows(); // in the order of the help

} // namespace loomsheet
