#include "commands/args.hpp"
#include "sheet/words/shipped.hpp"
#include <CLI/CLI.hpp>
#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <sstream>

namespace loomsheet {

namespace {
// One of a few words, and what each stands for.
template <typename Value>
using Words = std::vector<std::pair<std::string, Value>>;
const Words<std::optional<Paper>> paper_words = {{"a4", Paper::a4}, {"letter", Paper::letter}, {"a5", Paper::a5}};
const Words<Format> formats = {{"text", Format::text}, {"short", Format::brief}, {"json", Format::json}};

template <typename Value>
void add_choice(CLI::App& app, const std::string& option, Value& value, const Words<Value>& words, const char* help) {
    std::vector<std::string> names;
    for (const auto& [word, meaning] : words)
        names.push_back(word);
    app.add_option_function<std::string>(
           option,
           [&value, &words, names, option](const std::string& typed) {
               for (const auto& [word, meaning] : words)
                   if (word == typed) return void(value = meaning);
               throw CLI::ValidationError(option,
                                          fmt::format("there is no '{}', only {}", typed, fmt::join(names, ", ")));
           },
           help)
        ->type_name(fmt::format("{}", fmt::join(names, "|")));
}

// A name that ships. A path of the shop's own stands for itself where `file_ending` is given.
void add_shipped(CLI::App& app, const std::string& option, std::string& value, const std::string& ending, bool or_file,
                 const char* help) {
    const std::vector<std::string> names = shipped_names(ending);
    app.add_option_function<std::string>(
           option,
           [&value, names, option, ending, or_file](const std::string& typed) {
               const bool known = std::find(names.begin(), names.end(), typed) != names.end();
               if (known || (or_file && typed.ends_with(ending))) return void(value = typed);
               throw CLI::ValidationError(option,
                                          fmt::format("there is no '{}', only {}{}", typed, fmt::join(names, ", "),
                                                      or_file ? fmt::format(" and files that end in {}", ending) : ""));
           },
           help)
        ->type_name(fmt::format("{}", fmt::join(names, "|")));
}

void add_plans(CLI::App& app, Arguments& arguments) {
    app.add_option("PLAN", arguments.plans, "plan files; a folder stands for every .plan in it, - for standard input")
        ->type_name("")
        ->required();
    add_choice(app, "--format", arguments.format, formats, "findings for reading, one line each, or for programs");
}

ArgumentsResult refused(std::string_view why) {
    return {{}, fmt::format("loomsheet: {}\nloomsheet --help shows what can be asked of it.\n", why), false};
}

void set_labels(CLI::App& app) {
    for (const auto& [theirs, ours] : {std::pair{"OPTIONS", "options"},
                                       {"SUBCOMMAND", "COMMAND"},

                                       {"Positionals", "What it takes"},
                                       {"REQUIRED", ""}})
        app.get_formatter()->label(theirs, ours);
}
} // namespace

ArgumentsResult read_arguments(int argc, const char* const* argv) {
    Arguments arguments;
    CLI::App app("Turns plans of vehicle circuits into printed worksheets, and says what is wrong with a plan.",
                 "loomsheet");
    set_labels(app);
    app.set_version_flag("--version", "loomsheet " LOOMSHEET_VERSION, "say which version this is");
    app.set_help_flag("-h,--help", "show this help");
    app.require_subcommand(0, 1); // none, or a wrong one, is answered below in better words
    app.footer("Ends with 0 when all is well or there are only warnings, 1 when a plan has errors,\n"
               "2 when the command or a file is at fault, 3 when Loomsheet itself is.");

    CLI::App* print = app.add_subcommand("print", "print each plan as a sheet, one PDF a plan");
    add_plans(*print, arguments);
    print->add_option("-o", arguments.folder, "the folder for the sheets, made when missing (here, unless said)")
        ->type_name("FOLDER");
    add_shipped(*print, "--sheet", arguments.sheet, ".sheet", false, "which sheet is printed (workshop, unless said)");
    print
        ->add_option("--template", arguments.own_template,
                     "a sheet of the shop's own instead; grammar/SHEETS.md says how it is written")
        ->type_name("FILE");
    print->add_flag("--class", arguments.class_set, "the three sheets of a class: lab, answer and card");
    add_shipped(*print, "--words", arguments.words, ".words", true,
                "the language of the sheet, or a file of words (the template's, unless said)");
    add_choice(*print, "--paper", arguments.paper, paper_words, "what it is printed on (the template's, unless said)");
    print->add_flag("--fillable", arguments.fillable, "with form fields, to fill in on a tablet");
    CLI::App* proof = app.add_subcommand("proof", "say what is wrong with each plan, print nothing");
    add_plans(*proof, arguments);
    proof->add_flag("--matrix", arguments.matrix, "show the outcome of every check with every fault as well");
    CLI::App* predict = app.add_subcommand("predict", "say what each check must read, on a sound car or with a fault");
    add_plans(*predict, arguments);
    predict->add_option("--fault", arguments.fault, "the fault, as a plan writes it: \"joint X30.1 2.2 ohm\"")
        ->type_name("FAULT");
    CLI::App* explain = app.add_subcommand("explain", "explain a finding, with an example that has it and one cured");
    explain->add_option("CODE", arguments.code, "the code of the finding: LS204, or 204")->type_name("")->required();

    for (CLI::App* command : {print, proof, predict, explain})
        command->group("Commands");

    try {
        app.parse(argc, argv);
    } catch (const CLI::Success& help_or_version) {
        std::ostringstream out;
        app.exit(help_or_version, out, out);
        return {{}, out.str(), true};
    } catch (const CLI::ParseError& error) {
        if (app.get_subcommands().empty() && *argv[1] != '-')
            return refused(fmt::format("there is no command '{}', only print, proof, predict and explain", argv[1]));
        return refused(error.what());
    }
    if (app.get_subcommands().empty()) return {{}, app.help(), false};
    if (arguments.folder.ends_with(".pdf"))
        return refused(fmt::format("-o takes a folder, and {} looks like a file; each sheet is named after its plan",
                                   arguments.folder));
    if (arguments.class_set && (!arguments.own_template.empty() || arguments.sheet != "workshop"))
        return refused("--class prints lab, answer and card: leave --sheet and --template out");
    arguments.command = *proof     ? Command::proof
                        : *predict ? Command::predict
                        : *explain ? Command::explain
                                   : Command::print;
    return {std::move(arguments), {}, false};
}

} // namespace loomsheet
