#include "commands/args.hpp"
#include "commands/options.hpp"
#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <sstream>

namespace loomsheet {

namespace {

void add_option(CLI::App& app, const OptionRow& row, Arguments& arguments) {
    const std::string name(row.name), help(row.help);
    const auto take = [&row, &arguments, name](const std::string& typed) {
        if (const std::string wrong = row.take(arguments, typed); !wrong.empty()) throw CLI::ValidationError(name, wrong);
    };
    CLI::Option* made = nullptr;
    switch (row.takes) {
    case Takes::nothing:
        made = app.add_flag_function(
            name, [take](std::int64_t) { take({}); }, help);
        break;
    case Takes::a_word: made = app.add_option_function<std::string>(name, take, help); break;
    case Takes::words:
        made = app.add_option_function<std::vector<std::string>>(
            name,
            [take](const std::vector<std::string>& all) {
                for (const std::string& typed : all)
                    take(typed);
            },
            help);
        break;
    }
    if (row.takes != Takes::nothing) made->type_name(row.value ? row.value() : std::string());
    if (row.stands_free()) made->required();
}

ArgumentsResult refused(std::string_view why) {
    return {{}, fmt::format("loomsheet: {}\nloomsheet --help shows what can be asked of it.\n", why), false};
}

std::string all_commands() { // "print, proof and explain"
    std::string list;
    const auto rows = command_rows();
    for (std::size_t i = 0; i < rows.size(); ++i)
        list += fmt::format("{}{}", i == 0 ? "" : i + 1 < rows.size() ? ", " : " and ", rows[i].name);
    return list;
}

// What options say against one another; empty: nothing.
std::string contradiction(const Arguments& arguments) {
    if (arguments.folder.ends_with(".pdf"))
        return fmt::format("-o takes a folder, and {} looks like a file; each sheet is named after its plan", arguments.folder);
    if (arguments.class_set && (!arguments.own_template.empty() || arguments.sheet != "workshop"))
        return "--class prints lab, answer and card: leave --sheet and --template out";
    return {};
}

void set_up(CLI::App& app, Arguments& arguments) {
    for (const auto& [theirs, ours] :
         {std::pair{"OPTIONS", "options"}, {"SUBCOMMAND", "COMMAND"}, {"Positionals", "What it takes"}, {"REQUIRED", ""}})
        app.get_formatter()->label(theirs, ours);
    app.set_version_flag("--version", "loomsheet " LOOMSHEET_VERSION, "say which version this is");
    app.set_help_flag("-h,--help", "show this help");
    app.require_subcommand(0, 1); // none, or a wrong one, is answered below in better words
    app.footer("Ends with 0 when all is well or there are only warnings, 1 when a plan has errors,\n"
               "2 when the command or a file is at fault, 3 when Loomsheet itself is.");
    for (const CommandRow& command : command_rows()) {
        CLI::App* own = app.add_subcommand(std::string(command.name), std::string(command.help))->group("Commands");
        own->callback([&command, &arguments] { arguments.command = &command; });
        for (const OptionRow& option : option_rows())
            if (option.belongs_to(command.name)) add_option(*own, option, arguments);
    }
}
} // namespace

ArgumentsResult read_arguments(int argc, const char* const* argv) {
    Arguments arguments;
    CLI::App app("Turns plans of vehicle circuits into printed worksheets, and says what is wrong with a plan.", "loomsheet");
    set_up(app, arguments);
    try {
        app.parse(argc, argv);
    } catch (const CLI::Success& help_or_version) {
        std::ostringstream out;
        app.exit(help_or_version, out, out);
        return {{}, out.str(), true};
    } catch (const CLI::ParseError& error) {
        if (app.get_subcommands().empty() && *argv[1] != '-')
            return refused(fmt::format("there is no command '{}', only {}", argv[1], all_commands()));
        return refused(error.what());
    }
    if (!arguments.command) return {{}, app.help(), false};
    if (const std::string wrong = contradiction(arguments); !wrong.empty()) return refused(wrong);
    return {std::move(arguments), {}, false};
}

} // namespace loomsheet
