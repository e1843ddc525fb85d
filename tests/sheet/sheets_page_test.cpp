// The reference page of templates: its examples are read, its tables are those of the program.
#include "printed.hpp"
#include "proof/page_blocks.hpp"
#include "sheet/block_rows.hpp"
#include "sheet/template_read.hpp"
#include "sheet/words/shipped.hpp"
#include "source/render.hpp"
#include <doctest/doctest.h>
#include <fmt/format.h>

using namespace loomsheet;

namespace {

const std::string page_path = "grammar/SHEETS.md";

Findings read(Sources& sources, const std::string& file, const std::string& text) {
    MemoryDisk disk;
    disk.files[file] = text;
    const bool words = file.ends_with(".words");
    if (words) disk.files["example.sheet"] = "sheet example \"Example\"\nlanguage \"" + file + "\"\nblocks checks\n";
    Findings findings;
    read_template(sources, disk, words ? "example.sheet" : file, {}, findings);
    findings.sort();
    return findings;
}

std::string row_of(const PartRow& row) { return fmt::format("| `{}` | {} |\n", row.name, row.meaning); }

std::string length(double mm) { return fmt::format("{} mm", mm); }

} // namespace

TEST_CASE("the examples of the templates' page are right, and the wrong one is wrong as it says") {
    int examples = 0;
    for (const auto& block : pages::blocks(pages::read(page_path))) {
        if (block.kind == "text") continue;
        ++examples;
        Sources sources;
        const std::string file = block.kind == "words" ? "own.words" : "bay.sheet";
        const Findings findings = read(sources, file, block.text);
        if (block.kind == "sheet wrong")
            pages::hold_block_after(page_path, block.text, render_text(sources, findings, {}));
        else
            CHECK_MESSAGE(findings.empty(), page_path, ":", block.line, "\n", render_text(sources, findings, {}));
    }
    CHECK(examples >= 6);
}

TEST_CASE("the first template of the page prints what it says it prints") {
    const std::string text = pages::blocks(pages::read(page_path)).front().text;
    MemoryDisk disk;
    disk.files["bay.sheet"] = text;
    Sources sources;
    Findings findings;
    const TemplateResult read = read_template(sources, disk, "bay.sheet", {}, findings);
    REQUIRE(read.sheet);
    const page::Document document = printed::proved_sheet(printed::plan_file("plans/cooling/fan.plan"), {}, &*read.sheet).document;
    const std::string all = printed::words(document);
    for (const std::string words :
         {"Bay sheet", "Garage at the bridge", "Order no.", "Finding", "HALT", "Does not fit: call the foreman."}) {
        CAPTURE(words);
        CHECK(all.find(words) != std::string::npos);
    }
    CHECK(all.find("Finding") < all.find("Battery at rest "));
}

TEST_CASE("the tables of the templates' page are those of the program") {
    std::string table = "| statement | for instance | what it says |\n|---|---|---|\n";
    for (const StatementRow& row : sheet_vocabulary().statements)
        table += fmt::format("| `{}` | `{}` | {} |\n", row.word, row.example, row.meaning);
    pages::hold_table(page_path, "statements", table);

    table = "| block | what it is |\n|---|---|\n";
    for (const BlockRow& row : block_rows())
        table += fmt::format("| `{}` | {} |\n", row.name, row.meaning);
    pages::hold_table(page_path, "blocks", table);

    table = "| part | what it is |\n|---|---|\n";
    for (const PartRow& row : card_rows())
        table += row_of(row);
    pages::hold_table(page_path, "card", table);
    table = "| part | what it is |\n|---|---|\n";
    for (const PartRow& row : page_rows())
        table += row_of(row);
    pages::hold_table(page_path, "page", table);

    table = "| field | its caption in English | |\n|---|---|---|\n";
    for (const FieldRow& row : field_rows())
        table += fmt::format("| `{}` | {} | {} |\n", row.name, english().text(row.caption), row.filled ? "the plan fills it" : "");
    pages::hold_table(page_path, "fields", table);

    const Margins usual;
    table = "| what | least | usual | most |\n|---|---|---|---|\n";
    const auto margin = [&](std::string_view name, double Margins::*mm) {
        table += fmt::format("| `{}` | {} | {} | 60 mm |\n", name, length(least_margins.*mm), length(usual.*mm));
    };
    margin("left", &Margins::left), margin("right", &Margins::right), margin("top", &Margins::top), margin("bottom", &Margins::bottom);
    const auto size = [&](std::string_view name, double TypeSizes::*pt, std::string_view what) {
        table += fmt::format("| `{}`: {} | {} pt | {} pt | {} pt |\n", name, what, least_sizes.*pt, usual_sizes.*pt, most_sizes.*pt);
    };
    size("probing", &TypeSizes::probing, "what is read while probing"), size("text", &TypeSizes::text, "supporting text"),
        size("captions", &TypeSizes::caption, "captions of fields");
    pages::hold_table(page_path, "sizes", table);

    table.clear();
    for (const std::string& name : shipped_names(".words"))
        table += fmt::format("- `{}`\n", name);
    pages::hold_table(page_path, "languages", table);

    table = "| word | in English |\n|---|---|\n";
    for (std::size_t i = 0; i < word_rows().size(); ++i)
        table += fmt::format("| `{}` | `{}` |\n", word_rows()[i].name, english().text(static_cast<Word>(i)));
    pages::hold_table(page_path, "words", table);
}
