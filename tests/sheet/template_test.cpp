// Templates and words: what they say, what is wrong with them, and every shipped plan through all of them.
#include "grammar/colours.hpp"
#include "paper_rules.hpp"
#include "printed.hpp"
#include "sheet/template_read.hpp"
#include "sheet/words/shipped.hpp"
#include "source/render.hpp"
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <set>

using namespace loomsheet;

namespace {

struct Read {
    std::optional<SheetTemplate> sheet;
    std::string said; // the findings, one a line
};
Read read(MemoryDisk disk, const TemplateWishes& wishes = {}) {
    Sources sources;
    Findings findings;
    TemplateResult result = read_template(sources, disk, "own.sheet", wishes, findings);
    findings.sort();
    return {std::move(result.sheet), render_short(sources, findings, {})};
}
Read read(const std::string& text, const TemplateWishes& wishes = {}) {
    MemoryDisk disk;
    disk.files["own.sheet"] = text;
    return read(disk, wishes);
}

Wording words_of(const std::string& language) { return printed::shipped("workshop", language).words; }

SheetResult laid_out(const printed::Proved& plan, const std::string& text) {
    const Read made = read(text);
    REQUIRE_MESSAGE(made.sheet, made.said);
    return printed::sheet_of(plan, {}, *made.sheet);
}

std::set<int> places_in(const std::string& text) {
    std::set<int> places;
    int next = 0;
    for (std::size_t at = 0; (at = text.find('{', at)) != std::string::npos; ++at)
        places.insert(text[at + 1] == '}' ? next++ : text[at + 1] - '0');
    return places;
}

} // namespace

TEST_CASE("every language that ships has every word, with the same places") {
    const std::vector<std::string> languages = shipped_names(".words");
    CHECK(languages == std::vector<std::string>{"english", "german", "spanish"});
    for (const std::string& language : languages) {
        const Wording words = words_of(language);
        REQUIRE(words.texts.size() == word_rows().size());
        for (std::size_t i = 0; i < words.texts.size(); ++i) {
            CAPTURE(language);
            CAPTURE(word_rows()[i].name);
            CHECK_FALSE(words.texts[i].empty());
            CHECK(static_cast<int>(places_in(words.texts[i]).size()) == word_rows()[i].places);
        }
    }
}

TEST_CASE("a colour has its word in its row, and in every other language that ships one of its own") {
    const auto first = static_cast<std::size_t>(Word::colour_black);
    for (std::size_t i = 0; i < colours().size(); ++i) {
        CHECK(english().text(word_after(Word::colour_black, i)) == colours()[i].word);
        for (const std::string language : {"german", "spanish"})
            CHECK_MESSAGE(shipped_file(language + ".words").find(fmt::format("word {} ", word_rows()[first + i].name)) !=
                              std::string_view::npos,
                          language, " lacks ", word_rows()[first + i].name);
    }
}

TEST_CASE("tables that follow the order of words do so in English") {
    CHECK(english().text(Word::kind_battery) == "battery");
    for (unsigned kind = 0; kind < part_kinds().size(); ++kind)
        CHECK(english().text(word_after(Word::kind_battery, kind)) == kind_word(static_cast<PartKind>(kind)));
    CHECK(printed::words(
              printed::sheet(printed::plan(printed::lamp_plan("check a \"A\"\n  with key crank\n  volts X1.1 to X1.2\n  expect 11 .. 13 "
                                                              "V\n  pass -> done\n  fail -> suspects\n")))
                  .document)
              .find("Key CRANK") != std::string::npos);
}

TEST_CASE("the largest type that a template may ask for keeps the rules too") {
    const printed::Proved& plan = printed::proved("plans/cooling/fan.plan");
    SheetTemplate large = printed::shipped("workshop", "german");
    large.sizes = most_sizes;
    const SheetResult result = printed::sheet_of(plan, {}, large);
    for (const Diagnostic& finding : result.findings.list())
        FAIL_CHECK(finding.says);
    for (const std::string& broken : broken_rules(result.document, large.margins))
        FAIL_CHECK(broken);
}

TEST_CASE("on a German or Spanish page no English is left but what the plan says itself") {
    const Wording english = words_of("english");
    RealDisk disk;
    for (const std::string& path : printed::shipped_plans()) {
        const printed::Proved& plan = printed::proved(path);
        std::string written;
        REQUIRE(disk.read(std::string(LOOMSHEET_ROOT) + "/" + path, written).empty());
        for (const std::string language : {"german", "spanish"})
            for (const std::string& name : shipped_names(".sheet")) {
                CAPTURE(path);
                CAPTURE(language);
                CAPTURE(name);
                const Wording own = words_of(language);
                const std::string all = printed::words(printed::sheet_of(plan, {}, printed::shipped(name, language)).document);
                for (std::size_t i = 0; i < english.texts.size(); ++i) {
                    // Long texts, at one side of their places.
                    std::string text = english.texts[i];
                    if (const std::size_t place = text.find('{'); place != std::string::npos)
                        text = place > text.size() / 2 ? text.substr(0, place) : text.substr(text.find_last_of('}') + 1);
                    constexpr std::size_t is_long = 9;
                    if (text.size() < is_long || own.texts[i].find(text) != std::string::npos || written.find(text) != std::string::npos)
                        continue;
                    CHECK_MESSAGE(all.find(text) == std::string::npos, "in English: ", text);
                }
            }
    }
}

TEST_CASE("another order, other words and fields of the shop's own") {
    const printed::Proved& plan = printed::proved("plans/cooling/fan.plan");
    const SheetResult result = laid_out(plan, "sheet bay \"Bay sheet\"\n"
                                              "shop \"Garage at the bridge\"\n"
                                              "blocks verdicts, head, checks\n"
                                              "fields head \"Bay\" 2, vehicle 6, \"Order no.\" 4\n"
                                              "word red \"PLUS\"\nword stop \"HALT\"\nword verdict \"Findings\"\n");
    CHECK(result.findings.empty());
    const std::string first = printed::words(result.document.pages.front()), all = printed::words(result.document);
    CHECK(first.find("Bay sheet") != std::string::npos);
    CHECK(first.find("Findings") != std::string::npos);
    CHECK(first.find("Bay ") != std::string::npos);
    CHECK(all.find("Order no.") != std::string::npos);
    CHECK(all.find("Garage at the bridge") != std::string::npos);
    CHECK(all.find("PLUS") != std::string::npos);
    CHECK(all.find("RED ") == std::string::npos);
    CHECK(all.find("HALT") != std::string::npos);
    CHECK(all.find("Registration") == std::string::npos);
}

TEST_CASE("a card shows what the template lists and no more") {
    const printed::Proved& plan = printed::proved("plans/cooling/fan.plan");
    const std::string head = "sheet bay \"Bay sheet\"\nblocks checks\n";
    const std::string all = printed::words(laid_out(plan, head).document);
    for (const std::string words : {"12.3 V or more", "20 V range", "likeliest first", "Reading", "BLACK", "Set up now", "sound car: "}) {
        CAPTURE(words);
        CHECK(all.find(words) != std::string::npos);
    }
    const std::string few = printed::words(laid_out(plan, head + "check shows setup, blanks\n").document);
    CHECK(few.find("Reading") != std::string::npos);
    for (const std::string words : {"12.3 V or more", "20 V range", "likeliest first", "BLACK", "Set up now", "sound car: "}) {
        CAPTURE(words);
        CHECK(few.find(words) == std::string::npos);
    }
}

TEST_CASE("every part of a card can be left out, and the rest keeps the rules of the paper") {
    const printed::Proved& plan = printed::proved("plans/cooling/fan.plan");
    for (const Paper paper : {Paper::a4, Paper::a5})
        for (const PartRow& left_out : card_rows()) {
            CAPTURE(left_out.name);
            std::string shown;
            for (const PartRow& row : card_rows())
                if (row.name != left_out.name) shown += (shown.empty() ? "" : ", ") + std::string(row.name);
            const Read made = read("sheet bay \"Bay sheet\"\nblocks checks\nmargins left 14 mm, right 8 mm\ncheck shows " + shown + "\n");
            REQUIRE_MESSAGE(made.sheet, made.said);
            const SheetResult result = printed::sheet_of(plan, paper, *made.sheet);
            CHECK(result.findings.empty());
            for (const std::string& broken : broken_rules(result.document, made.sheet->margins))
                FAIL_CHECK(broken);
        }
}

TEST_CASE("margins and type of the template are those of the page") {
    const Plan plan =
        printed::plan(printed::lamp_plan("check a \"A\"\n  volts X1.1 to X1.2\n  expect 11 .. 13 V\n  pass -> done\n  fail -> suspects\n"));
    const Read made = read("sheet bay \"Bay sheet\"\nmargins left 10 mm, top 30 mm\ntype probing 14.5 pt\nblocks checks\n");
    REQUIRE_MESSAGE(made.sheet, made.said);
    const SheetResult result = printed::proved_sheet(plan, {}, &*made.sheet);
    double left = 100, largest = 0, highest = 300;
    for (const page::Mark& mark : result.document.pages.front().marks)
        if (const auto* text = std::get_if<page::Text>(&mark)) {
            left = std::min(left, text->x);
            if (text->utf8 == "RED") largest = std::max(largest, text->pt);
            if (text->utf8 == "A") highest = text->y;
        }
    CHECK(left == doctest::Approx(10));
    CHECK(largest == doctest::Approx(14.5));
    CHECK(highest > 32);
}

TEST_CASE("what the command line asks for counts before the template") {
    TemplateWishes wishes;
    wishes.paper = Paper::letter;
    wishes.language = LanguageName{"spanish", false, {}};
    const Read made = read("sheet bay \"Bay\"\nlanguage german\npaper A5\nmargins left 12 mm, right 8 mm\nblocks "
                           "checks\nword stop \"HALT\"\n",
                           wishes);
    REQUIRE_MESSAGE(made.sheet, made.said);
    CHECK(made.sheet->paper == Paper::letter);
    CHECK(made.sheet->words.texts[static_cast<std::size_t>(Word::black)] == "NEGRO");
    CHECK(made.sheet->words.texts[static_cast<std::size_t>(Word::stop)] == "HALT");
}

TEST_CASE("a shop's own words, beside its template") {
    MemoryDisk disk;
    disk.files["shop/own.sheet"] = "sheet bay title_workshop\nlanguage \"words/own.words\"\nblocks checks\n";
    disk.files["shop/words/own.words"] = "language english\nword title_workshop \"Bay sheet\"\nword page_of \"{1} pages, this is {0}\"\n";
    Sources sources;
    Findings findings;
    const TemplateResult result = read_template(sources, disk, "shop/own.sheet", {}, findings);
    REQUIRE_MESSAGE(result.sheet, render_text(sources, findings, {}));
    CHECK(result.sheet->title == "Bay sheet");
    CHECK(result.sheet->words(Word::page_of, 3, 12) == "12 pages, this is 3");
}

TEST_CASE("mistakes are found at their place, all in one run, with what to write instead") {
    CHECK(read("sheet bay \"Bay\"\nblocks head, verdict, checks\n").said.find("own.sheet:2:14: error LS852: there is no block `verdict`") !=
          std::string::npos);
    CHECK(read("sheet bay \"Bay\"\nblocks head, verdict\n").said.find("did you mean `verdicts`?") != std::string::npos);
    CHECK(read("sheet bay \"Bay\"\nblock head\n").said.find("LS101") != std::string::npos);
    CHECK(read("sheet bay \"Bay\"\nblocks checks\npaper A6\n").said.find("LS107") != std::string::npos);
    CHECK(read("sheet bay \"Bay\"\nblocks checks\nmargins left 18\n").said.find("LS109") != std::string::npos);
    CHECK(read("sheet bay \"Bay\"\nblocks checks\nmargins left 18 V\n").said.find("LS206") != std::string::npos);
    CHECK(read("sheet bay \"Bay\"\nblocks checks\nlanguage \"none.words\"\n").said.find("LS004") != std::string::npos);
    CHECK(read("sheet bay \"Bay\"\nblocks checks\nlanguage frensh\n").said.find("LS852") != std::string::npos);
    CHECK(read("sheet bay \"Bay\"\nblocks checks\nword pageof \"{} {}\"\n").said.find("did you mean `page_of`?") != std::string::npos);
    CHECK(read("sheet bay \"Bay\"\npaper A5\nmargins left 20 mm, right 20 mm\nblocks checks\n").said.find("LS857") != std::string::npos);
    const std::string several = read("sheet bay \"Bay\"\nblocks check\ntype probing 10 pt, captions 5 pt\nword stop \"{}\"\n").said;
    for (const std::string code : {"LS852", "LS856", "LS855"})
        CHECK(several.find(code) != std::string::npos);
    CHECK(read("").said.find("LS859") != std::string::npos);
    CHECK_FALSE(read("sheet bay \"Bay\"\n").sheet.has_value());
}

TEST_CASE("places of a word: as many as it has, numbered or not, and no other braces") {
    CHECK(wrong_places("page {} of {}", 2).empty());
    CHECK(wrong_places("{1}/{0}", 2).empty());
    CHECK(wrong_places("{0} {0} {1}", 2).empty());
    CHECK_FALSE(wrong_places("{0}", 2).empty());
    CHECK_FALSE(wrong_places("{} {0}", 2).empty());
    CHECK_FALSE(wrong_places("{", 0).empty());
    CHECK_FALSE(wrong_places("}", 0).empty());
    CHECK_FALSE(wrong_places("{:>9}", 1).empty());
    CHECK_FALSE(wrong_places("{2}", 2).empty());
}

TEST_CASE("which tools are asked for depends on the checks, not on a language that has one word for two things") {
    MemoryDisk disk;
    disk.files["shop/own.sheet"] = "sheet bay title_workshop\nlanguage \"own.words\"\nblocks tools\n";
    disk.files["shop/own.words"] = "language english\nword from_front \"at the plug\"\nword wire_side \"at the plug\"\n"
                                   "word empty_socket \"at the plug\"\n";
    Sources sources;
    Findings findings;
    const TemplateResult own = read_template(sources, disk, "shop/own.sheet", {}, findings);
    REQUIRE_MESSAGE(own.sheet, render_text(sources, findings, {}));
    const Plan plan = printed::plan(printed::lamp_plan(
        "check a \"A\"\n  with S1 pressed\n  volts X1.1 to X1.2\n  expect 11 .. 13 V\n  pass -> done\n  fail -> suspects\n"));
    const std::string words = printed::words(printed::proved_sheet(plan, {}, &*own.sheet).document);
    CHECK(words.find("Back-probe pins") != std::string::npos);
    CHECK(words.find("Test pins") == std::string::npos);
}
