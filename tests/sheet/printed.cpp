#include "printed.hpp"
#include "analysis/analysis.hpp"
#include "sheet/template_read.hpp"
#include "source/render.hpp"
#include <doctest/doctest.h>
#include <map>

using namespace loomsheet;

namespace printed {
namespace {

Plan compiled(Disk& disk, const std::string& path) {
    Sources sources;
    Analysis result = analyse(sources, disk, {path});
    REQUIRE_MESSAGE(result.unreadable.empty(), result.unreadable);
    Findings& findings = result.findings; // what a check must read is no matter for how it is printed
    std::erase_if(findings.list(), [](const Diagnostic& finding) { return finding.code / 100 == 6; });
    REQUIRE_MESSAGE(!findings.has_errors(), render_text(sources, findings, {}));
    return *result.plan;
}

} // namespace

const Faces& faces() {
    static std::string error;
    static const std::optional<Faces> loaded = Faces::load(error);
    REQUIRE_MESSAGE(loaded.has_value(), error);
    return *loaded;
}

Plan plan(const std::string& text) {
    MemoryDisk disk;
    disk.files["test.plan"] = text;
    return compiled(disk, "test.plan");
}

Plan plan_file(const std::string& path) {
    RealDisk disk;
    return compiled(disk, std::string(LOOMSHEET_ROOT) + "/" + path);
}

std::vector<std::string> shipped_plans() {
    RealDisk disk;
    const std::string root = std::string(LOOMSHEET_ROOT) + "/";
    std::vector<std::string> paths = disk.list(root + "plans", ".plan");
    for (std::string& path : paths)
        path.erase(0, root.size());
    return paths;
}

SheetResult sheet(const Plan& plan, std::optional<Paper> paper) { return lay_out(plan, faces(), {paper}); }

const SheetTemplate& shipped(const std::string& name, const std::string& language) {
    static std::map<std::string, SheetTemplate> made;
    const std::string key = name + " " + language;
    if (made.find(key) == made.end()) {
        Sources sources;
        MemoryDisk disk;
        Findings findings;
        TemplateWishes wishes;
        wishes.language = LanguageName{language, false, {}};
        TemplateResult result = shipped_template(sources, disk, name, wishes, findings);
        REQUIRE_MESSAGE(result.sheet.has_value(), render_text(sources, findings, {}));
        made.emplace(key, std::move(*result.sheet));
    }
    return made.at(key);
}

const Proved& proved(const std::string& path) {
    static std::map<std::string, Proved> made;
    const auto known = made.find(path);
    if (known != made.end()) return known->second;
    Proved& one = made[path];
    one.plan = plan_file(path);
    const Predictor sound(one.plan.circuit, system_volts(one.plan));
    one.prediction = predict(one.plan, sound);
    one.diagnosis = diagnose(one.plan, sound, one.prediction);
    one.planted = planted_cars(one.plan, sound);
    return one;
}

SheetResult sheet_of(const Proved& proved, std::optional<Paper> paper, const SheetTemplate& sheet) {
    return lay_out(proved.plan, faces(), {paper, &proved.diagnosis, &proved.prediction, &sheet, &proved.planted});
}

SheetResult proved_sheet(const Plan& plan, std::optional<Paper> paper, const SheetTemplate* sheet) {
    const Predictor sound(plan.circuit, system_volts(plan));
    const Prediction prediction = predict(plan, sound);
    const Diagnosis diagnosis = diagnose(plan, sound, prediction);
    return lay_out(plan, faces(), {paper, &diagnosis, &prediction, sheet});
}

std::string plain(std::string text) {
    for (std::size_t at = 0; (at = text.find("\u00A0", at)) != std::string::npos;)
        text.replace(at, 2, " ");
    return text;
}

std::string words(const page::Page& page) {
    std::string all;
    for (const page::Mark& mark : page.marks)
        if (const auto* text = std::get_if<page::Text>(&mark)) all += text->utf8 + " ";
    return plain(all);
}

std::string words(const page::Document& document) {
    std::string all;
    for (const page::Page& page : document.pages)
        all += words(page);
    return all;
}

std::string lamp_plan(const std::string& checks, const std::string& head) {
    return "plan LAMP-01 \"Lamp stays dark\"\n"
           "  vehicle \"Tarn 1.6 hatch\"\n"
           "  complaint \"The lamp stays dark\": E1 dark\n"
           "  with S1 pressed\n"
           "  revision 2 2026-11-24\n"
           "  system 12 V\n" +
           head +
           "battery G1 \"Battery\", 12.6 V, inner 8 mohm, at \"engine bay, left\"\n"
           "ground XE1 \"Left wing\", at \"below the battery tray\"\n"
           "fuse F1 \"Lamp\", 10 A, type C, at \"dash box, slot 1\"\n"
           "switch S1 \"Lamp switch\", at \"dash\"\n"
           "  at rest 3/4\n"
           "  at pressed 1/2\n"
           "  sprung\n"
           "access cover \"Lamp cover\", 5 min, how \"2 clips\"\n"
           "lamp E1 \"Lamp\", 1/2 21 W at 12 V, at \"rear left\", behind cover\n"
           "connector X1 \"Lamp plug\", 2 pins, on E1, lock \"at 3 o'clock\", face 1 x 2\n"
           "wire W1 G1.+ -> F1.1 4 mm2 RD 0.3 m unfused\n"
           "wire W2 F1.2 -> S1.1 1.5 mm2 RD/BU 1 m\n"
           "wire W3 S1.2 -> X1.1 1.5 mm2 BU/WH 1 m\n"
           "wire W4 X1.2 -> XE1 1.5 mm2 BN 1 m\n"
           "wire W5 G1.- -> XE1 16 mm2 BK 0.5 m unfused\n" +
           checks;
}

} // namespace printed
