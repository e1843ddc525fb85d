// The command line, read into plain values. The words of the help stand in args.cpp.
#pragma once
#include "sheet/sheet.hpp"
#include <optional>
#include <string>
#include <vector>

namespace loomsheet {

enum class Command : std::uint8_t { print, proof, predict, explain };
enum class Format : std::uint8_t { text, brief, json };

struct Arguments {
    Command command = Command::print;
    std::vector<std::string> plans; // as typed: files, folders, "-"
    std::string folder = ".";
    Paper paper = Paper::a4;
    SheetKind sheet = SheetKind::workshop;
    Format format = Format::text;
    bool fillable = false; // of print: form fields
    bool matrix = false;   // of proof
    std::string fault; // of predict, as a plan writes it; empty: sound
    std::string code; // of explain
};

struct ArgumentsResult {
    std::optional<Arguments> arguments;
    // Without arguments: help or version that was asked for, or what is wrong with the command line.
    std::string says;
    bool asked = false;
};
ArgumentsResult read_arguments(int argc, const char* const* argv);

} // namespace loomsheet
