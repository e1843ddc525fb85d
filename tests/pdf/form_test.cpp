// A fillable sheet: MuPDF and qpdf each fill it in, the other reads it back.
#include "help.hpp"
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>

using namespace loomsheet;
using help::run;
using nlohmann::json;

namespace {

// Three pages of eight rows, each with a tick, a reading and an outcome; on each page the job number.
page::Document sheet_to_fill() {
    page::Document document;
    document.title = "To fill in";
    for (int p = 1; p <= 3; ++p) {
        page::Page page;
        page.regions.push_back({page::Role::head, 12, 5, 186, 13, "head"});
        page.regions.push_back({page::Role::field, 137, 5, 30, 12.6, "job number"});
        for (int i = 1; i <= 8; ++i) {
            const double y = 10 + 25 * i;
            page.marks.emplace_back(page::Rect{20, y, 6.5, 6.5});
            page.marks.emplace_back(page::Rect{70, y, 40, 12});
            page.regions.push_back({page::Role::tick, 20, y, 6.5, 6.5, fmt::format("check c{}.{} tick", p, i)});
            page.regions.push_back({page::Role::reading, 70, y, 40, 12, fmt::format("check c{}.{} reading Tür", p, i)});
            page.regions.push_back({page::Role::outcome, 120, y, 70, 12, fmt::format("check c{}.{} outcome 1", p, i)});
        }
        page.regions.push_back({page::Role::field, 12, 240, 186, 30, fmt::format("notes {}", p)});
        document.pages.push_back(std::move(page));
    }
    return document;
}
std::string name_in_form(std::string name) {
    for (const auto& [from, to] : {std::pair<std::string, std::string>{".", "_"}, {"ü", "u00FC"}})
        for (std::size_t at = name.find(from); at != std::string::npos; at = name.find(from))
            name.replace(at, from.size(), to);
    return name;
}

std::string fillable() {
    const PdfResult made = write_pdf(sheet_to_fill(), help::faces(), Filling::on_screen);
    REQUIRE_MESSAGE(made.error.empty(), made.error);
    return help::save("fillable.pdf", made.bytes);
}

// By full name: the value, as qpdf sees it.
json fields_by_qpdf(const std::string& pdf) {
    const help::Said said = run(fmt::format("qpdf --json=2 --json-key=acroform '{}' 2>/dev/null", pdf));
    REQUIRE(said.status == 0);
    json values = json::object();
    const json all = json::parse(said.out);
    for (const json& field : all.at("acroform").at("fields"))
        values[field.at("fullname").get<std::string>()] = field.at("value");
    return values;
}

// The same by MuPDF, after `change` (JavaScript) was done to each widget `w` of number `n`; saved where `to` says so.
std::string widgets_by_mupdf(const std::string& pdf, const std::string& change, const std::string& to) {
    const std::string script = help::save("widgets.js", fmt::format(R"(var doc = new PDFDocument("{}"); var n = 0;
for (var p = 0; p < doc.countPages(); ++p) {{
  var list = doc.loadPage(p).getWidgets();
  for (var i = 0; i < list.length; ++i) {{ var w = list[i]; {}; w.update(); ++n; print(w.getLabel() + "=" + w.getValue()); }}
}}
if ("{}") doc.save("{}", "");
)",
                                                                    pdf, change, to, to));
    const help::Said said = run(fmt::format("mutool run '{}' 2>/dev/null", script));
    REQUIRE(said.status == 0);
    return said.out;
}

} // namespace

TEST_CASE("every tick, reading and field is a form field with a name of its own, in the order of the page") {
    const page::Document document = sheet_to_fill();
    const std::string pdf = fillable();
    const help::Said checked = run(fmt::format("qpdf --check '{}'", pdf));
    CHECK_MESSAGE(checked.status == 0, checked.out);
    std::vector<std::string> expected, got;
    for (const page::Page& page : document.pages)
        for (const page::Region& region : page.regions)
            if (region.role == page::Role::tick || region.role == page::Role::outcome || region.role == page::Role::reading ||
                region.role == page::Role::field)
                expected.push_back(region.name);
    REQUIRE(expected.size() > 50);
    const std::string listed = widgets_by_mupdf(pdf, "", "");
    for (std::size_t begin = 0; begin < listed.size();) {
        const std::size_t end = listed.find('\n', begin);
        const std::string line = listed.substr(begin, end - begin);
        got.push_back(line.substr(0, line.rfind('=')));
        begin = end + 1;
    }
    CHECK(got == expected);
    const json fields = fields_by_qpdf(pdf);
    CHECK(fields.size() == std::set<std::string>(expected.begin(), expected.end()).size()); // the job number is one
    for (const std::string& name : expected)
        CHECK_MESSAGE(fields.contains(name_in_form(name)), name);
}

TEST_CASE("what MuPDF fills in, qpdf reads back") {
    const std::string pdf = fillable(), filled = help::save("filled.pdf", "");
    widgets_by_mupdf(pdf, R"(if (w.getFieldType() == "text") w.setTextValue("12." + n); else if (n % 2) w.toggle())", filled);
    const json before = fields_by_qpdf(pdf), after = fields_by_qpdf(filled);
    REQUIRE(before.size() == after.size());
    std::size_t written = 0, ticked = 0, left = 0;
    for (const auto& [name, value] : after.items()) {
        const std::string words = value.is_string() ? value.get<std::string>() : "";
        if (words.find("12.") != std::string::npos) ++written;
        if (words == "/Yes") ++ticked;
        if (words == "/Off") ++left;
    }
    CHECK(written > 10);
    CHECK(ticked > 10);
    CHECK(left > 10);
    CHECK(written + ticked + left == after.size());
    CHECK(run(fmt::format("qpdf --check '{}'", filled)).status == 0);
}

TEST_CASE("what qpdf fills in, MuPDF reads back") {
    const std::string pdf = fillable(), filled = help::save("filled-by-qpdf.pdf", ""), change = help::save("change.json", "");
    const help::Said said = run(fmt::format("qpdf --json-output '{}' - 2>/dev/null", pdf));
    REQUIRE(said.status == 0);
    const json all = json::parse(said.out);
    json objects = json::object();
    for (const auto& [key, object] : all.at("qpdf").at(1).items()) {
        if (!object.contains("value") || !object.at("value").is_object() || object.at("value").value("/FT", "") != "/Tx") continue;
        objects[key] = object;
        objects[key]["value"]["/V"] = "u:0.35";
    }
    REQUIRE(objects.size() > 10);
    std::ofstream(change) << json{{"version", 2}, {"qpdf", json::array({all.at("qpdf").at(0), objects})}}.dump();
    REQUIRE(run(fmt::format("qpdf --update-from-json='{}' '{}' '{}'", change, pdf, filled)).status == 0);
    const std::string listed = widgets_by_mupdf(filled, "", "");
    std::size_t written = 0;
    for (std::size_t at = listed.find("=0.35\n"); at != std::string::npos; at = listed.find("=0.35\n", at + 1))
        ++written;
    CHECK(written >= objects.size());
}
