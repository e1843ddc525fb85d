#include "commands/each_plan.hpp"
#include "commands/gather.hpp"
#include "pdf/write.hpp"
#include "source/render.hpp"
#include <fmt/format.h>
#include <ostream>
#include <stdexcept>

namespace loomsheet {

namespace {
Done print_one(const std::string& path, Compiled& compiled, const Faces& faces, const Arguments& arguments,
               Disk& disk) {
    const Predictor sound(compiled.plan.circuit, system_volts(compiled.plan));
    const Diagnosis diagnosis = diagnose(compiled.plan, sound, compiled.prediction);
    SheetResult sheet = lay_out(compiled.plan, faces, {arguments.paper, &diagnosis, &compiled.prediction, arguments.sheet});
    compiled.findings.add(std::move(sheet.findings));
    if (!compiled.usable()) return {};
    const PdfResult pdf = write_pdf(sheet.document, faces, arguments.fillable ? Filling::on_screen : Filling::by_pen);
    if (!pdf.error.empty()) throw std::runtime_error("its PDF was not made: " + pdf.error);
    const std::string file = sheet_path(arguments.folder, path, arguments.sheet);
    DiskError error = disk.write_whole(file, pdf.bytes);
    if (!error.empty()) return {std::move(error), {}};
    const std::size_t pages = sheet.document.pages.size();
    return {{}, fmt::format("{}, {} page{}\n", file, pages, pages == 1 ? "" : "s")};
}
} // namespace

Exit print(const Arguments& arguments, const Surroundings& around) {
    const auto [plans, no_plans] = gather(around.disk, arguments.plans);
    if (!no_plans.empty()) return complain(around, no_plans);
    if (const std::string two = clash(arguments.folder, plans, arguments.sheet); !two.empty()) return complain(around, two);
    if (const DiskError error = around.disk.make_directory(arguments.folder); !error.empty())
        return complain(around, error);
    std::string no_faces;
    const std::optional<Faces> faces = Faces::load(no_faces);
    if (!faces) return complain(around, no_faces);

    const Tally tally = each_plan(plans, around, {around.err, around.err_colour, arguments.format},
                                  [&](const std::string& path, Compiled& compiled) {
                                      return print_one(path, compiled, *faces, arguments, around.disk);
                                  });
    around.err << tally.json;
    if (arguments.format == Format::text && tally.well < plans.size()) {
        const std::string why = tally.findings.empty() ? std::string{} : ": " + summary(tally.findings);
        around.err << fmt::format("{} of {} plans printed{}\n", tally.well, plans.size(), why);
    }
    return tally.exit;
}

} // namespace loomsheet
