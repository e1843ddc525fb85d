#include "commands/each_plan.hpp"
#include "commands/gather.hpp"
#include "pdf/write.hpp"
#include "sheet/template_read.hpp"
#include "source/render.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <ostream>
#include <stdexcept>

namespace loomsheet {

namespace {
// The teacher's sheets ask what each planted fault does.
bool asks_for_plants(const SheetTemplate& sheet) {
    return sheet.card.has(CardPart::planted) ||
           std::any_of(sheet.blocks.begin(), sheet.blocks.end(), [](const BlockRow* block) { return block->name == "cards"; });
}

Done print_one(const std::string& path, const Analysis& plan, const Faces& faces, const std::vector<SheetTemplate>& sheets,
               const Arguments& arguments, Disk& disk) {
    std::vector<PlantedCar> planted;
    if (std::any_of(sheets.begin(), sheets.end(), asks_for_plants)) planted = planted_cars(*plan.plan, *plan.sound);
    std::vector<SheetResult> made;
    Done done;
    for (const SheetTemplate& each : sheets) {
        made.push_back(lay_out(*plan.plan, faces, {std::nullopt, plan.diagnosis.get(), plan.prediction.get(), &each, &planted}));
        done.findings.add(std::move(made.back().findings));
    }
    if (done.findings.has_errors()) return done;
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        const std::string file = sheet_path(arguments.folder, path, sheets[i].name);
        const std::size_t pages = made[i].document.pages.size();
        if (pages == 0) {
            done.says += fmt::format("{} is not made: the plan has nothing for it\n", file);
            continue;
        }
        const PdfResult pdf = write_pdf(made[i].document, faces, arguments.fillable ? Filling::on_screen : Filling::by_pen);
        if (!pdf.error.empty()) throw std::runtime_error("its PDF was not made: " + pdf.error);
        if (done.error = disk.write_whole(file, pdf.bytes); !done.error.empty()) return done;
        done.says += fmt::format("{}, {} page{}\n", file, pages, pages == 1 ? "" : "s");
    }
    return done;
}

struct TemplatesRead {
    std::vector<SheetTemplate> sheets; // none: it went wrong
    Exit exit = Exit::clean;
};
TemplatesRead templates_for(const Arguments& arguments, const Surroundings& around) {
    TemplatesRead read;
    TemplateWishes wishes;
    wishes.paper = arguments.paper;
    if (!arguments.words.empty()) wishes.language = LanguageName{arguments.words, arguments.words.ends_with(".words"), {}};
    Sources sources;
    Findings findings;
    const std::vector<std::string> names =
        arguments.class_set ? std::vector<std::string>{"lab", "answer", "card"} : std::vector{arguments.sheet};
    for (const std::string& name : names) {
        TemplateResult result = arguments.own_template.empty()
                                    ? shipped_template(sources, around.disk, name, wishes, findings)
                                    : read_template(sources, around.disk, arguments.own_template, wishes, findings);
        if (!result.unreadable.empty()) return {{}, complain(around, result.unreadable)};
        if (result.sheet) read.sheets.push_back(std::move(*result.sheet));
    }
    findings.sort();
    around.err << rendered(sources, findings, {around.err, around.err_colour, arguments.format});
    if (read.sheets.size() == names.size()) return read;
    if (arguments.format == Format::json) around.err << render_json(sources, findings);
    return {{}, Exit::errors};
}
} // namespace

Exit print(const Arguments& arguments, const Surroundings& around) {
    const auto [plans, no_plans] = gather(around.disk, arguments.plans);
    if (!no_plans.empty()) return complain(around, no_plans);
    const TemplatesRead read = templates_for(arguments, around);
    if (read.sheets.empty()) return read.exit;
    for (const SheetTemplate& each : read.sheets)
        if (const std::string two = clash(arguments.folder, plans, each.name); !two.empty()) return complain(around, two);
    if (const DiskError error = around.disk.make_directory(arguments.folder); !error.empty()) return complain(around, error);
    std::string no_faces;
    const std::optional<Faces> faces = Faces::load(no_faces);
    if (!faces) return complain(around, no_faces);

    const Tally tally = each_plan(
        plans, around, {around.err, around.err_colour, arguments.format}, {{}, {}, Until::walked},
        [&](const std::string& path, const Analysis& plan) { return print_one(path, plan, *faces, read.sheets, arguments, around.disk); });
    around.err << tally.json;
    if (arguments.format == Format::text && tally.well < plans.size()) {
        const std::string why = tally.findings.empty() ? std::string{} : ": " + summary(tally.findings);
        around.err << fmt::format("{} of {} plans printed{}\n", tally.well, plans.size(), why);
    }
    return tally.exit;
}

} // namespace loomsheet
