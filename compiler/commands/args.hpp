// The command line, read into plain values. Commands and options are rows in options.hpp.
#pragma once
#include "sheet/sheet.hpp"
#include <optional>
#include <string>
#include <vector>

namespace loomsheet {

enum class Format : std::uint8_t { text, brief, json };

struct CommandRow;

struct Arguments {
    const CommandRow* command = nullptr;
    std::vector<std::string> plans; // as typed: files, folders, "-"
    std::string folder = ".";
    std::optional<Paper> paper;     // else the template's
    std::string sheet = "workshop"; // one that ships
    std::string own_template;       // a file, instead of `sheet`
    bool class_set = false;         // the three sheets of a class, instead of `sheet`
    std::string words;              // a language that ships, or a file that ends in .words; empty: the template's
    Format format = Format::text;
    bool fillable = false; // of print: form fields
    bool matrix = false;   // of proof
    std::string fault;     // of predict, as a plan writes it; empty: sound
    std::string code;      // of explain
};

struct ArgumentsResult {
    std::optional<Arguments> arguments;
    // Without arguments: help or version that was asked for, or what is wrong with the command line.
    std::string says;
    bool asked = false;
};
ArgumentsResult read_arguments(int argc, const char* const* argv);

} // namespace loomsheet
