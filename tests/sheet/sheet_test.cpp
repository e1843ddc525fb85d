// Whole sheets: the goldens of the shipped plans, the rules of the paper on them and on plans that strain it.
#include "paper_rules.hpp"
#include "printed.hpp"
#include "sheet/layout/order.hpp"
#include <cstdlib>
#include <doctest/doctest.h>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

using namespace loomsheet;

namespace {

std::string golden_of(const std::string& path, const std::string& kind = "") {
    return std::string(LOOMSHEET_ROOT) + "/tests/sheet/goldens/" + std::filesystem::path(path).stem().string() + kind + ".txt";
}

std::string read(const std::string& path) {
    std::ostringstream text;
    text << std::ifstream(path, std::ios::binary).rdbuf();
    return text.str();
}

// The first lines that differ, not both files whole.
std::string first_difference(const std::string& is, const std::string& was) {
    std::istringstream a(is), b(was);
    std::string line_a, line_b;
    for (int number = 1;; ++number) {
        const bool more_a = static_cast<bool>(std::getline(a, line_a)), more_b = static_cast<bool>(std::getline(b, line_b));
        if (!more_a && !more_b) return "nothing";
        if (more_a != more_b || line_a != line_b)
            return fmt::format("line {}\n  is  {}\n  was {}", number, more_a ? line_a : "(end)", more_b ? line_b : "(end)");
    }
}

void keeps_the_rules(const SheetResult& result) {
    for (const std::string& broken : broken_rules(result.document))
        FAIL_CHECK(broken);
}

std::multiset<std::string> cards_of(const page::Document& document) {
    std::multiset<std::string> cards;
    for (const page::Page& page : document.pages)
        for (const page::Region& region : page.regions)
            if (region.role == page::Role::card) cards.insert(region.name);
    return cards;
}

// The text mark with exactly these words, largest first; 0 when there is none.
double largest(const page::Document& document, const std::string& words) {
    double pt = 0;
    for (const page::Page& page : document.pages)
        for (const page::Mark& mark : page.marks)
            if (const auto* text = std::get_if<page::Text>(&mark); text && printed::plain(text->utf8) == words) pt = std::max(pt, text->pt);
    return pt;
}

std::string chain_plan(int count, const std::string& title) {
    std::string checks;
    for (int i = 1; i <= count; ++i)
        checks += fmt::format("check c{} \"{}\"\n  volts G1.+ to G1.-\n  expect 12 .. 13 V\n  pass -> {}\n  fail -> bad\n", i, title,
                              i == count ? "done" : fmt::format("c{}", i + 1));
    return printed::lamp_plan(checks + "verdict bad \"Bad\"\n  blames G1\n  repair \"Charge\"\n");
}

const std::string sixty = "A name of sixty letters that a shop may well give to a check";

} // namespace

TEST_CASE("the pages of the shipped plans are as agreed") {
    const bool refresh = std::getenv("LOOMSHEET_REFRESH") != nullptr;
    for (const std::string& path : printed::shipped_plans()) {
        const std::string is = page::dump(printed::proved_sheet(printed::plan_file(path)).document);
        if (refresh) std::ofstream(golden_of(path), std::ios::binary) << is;
        const std::string was = read(golden_of(path));
        INFO("a wanted change is taken over with LOOMSHEET_REFRESH=1, then read the difference: " << path);
        CHECK_MESSAGE(is == was, first_difference(is, was));
    }
}

TEST_CASE("the proof sheet of the fan plan is as agreed") {
    const std::string path = "plans/cooling/fan.plan";
    const std::string is = page::dump(printed::proved_sheet(printed::plan_file(path), Paper::a4, &printed::shipped("proof")).document);
    if (std::getenv("LOOMSHEET_REFRESH") != nullptr) std::ofstream(golden_of(path, "-proof"), std::ios::binary) << is;
    const std::string was = read(golden_of(path, "-proof"));
    CHECK_MESSAGE(is == was, first_difference(is, was));
}

TEST_CASE("proof sheets keep the rules of the paper, say the answer first, and have nothing to tick") {
    for (const std::string& path : printed::shipped_plans())
        for (const Paper paper : {Paper::a4, Paper::letter}) {
            CAPTURE(path);
            const SheetResult result = printed::proved_sheet(printed::plan_file(path), paper, &printed::shipped("proof"));
            for (const Diagnostic& finding : result.findings.list())
                FAIL_CHECK(finding.says);
            keeps_the_rules(result);
            CHECK(result.document.pages.size() <= 4);
            CHECK(printed::words(result.document.pages.front()).find("Of 100 cars with this complaint") != std::string::npos);
            for (const page::Page& page : result.document.pages)
                for (const page::Region& region : page.regions)
                    CHECK(region.role != page::Role::tick);
        }
}

TEST_CASE("a plan whose complaint no fault causes has a proof sheet that says so") {
    const Plan plan = printed::plan("plan A-01 \"x\"\n  complaint \"y\": volts E1.1 to E1.2 above 20 V\nbattery G1 12.6 V\nground "
                                    "XE1\nlamp E1 1/2 5 W\n"
                                    "wire W1 G1.+ -> E1.1 1 mm2 RD 1 m unfused\nwire W2 E1.2 -> XE1 1 mm2 BN 1 m\nwire W3 G1.- -> "
                                    "XE1 16 mm2 BK 1 m\n"
                                    "check c1 \"c\"\n volts G1.+ to G1.-\n expect above 12 V\n pass -> done\n fail -> suspects\n");
    const SheetResult result = printed::proved_sheet(plan, Paper::a4, &printed::shipped("proof"));
    keeps_the_rules(result);
    CHECK_FALSE(result.document.pages.empty());
}

TEST_CASE("the shipped plans keep the rules of the paper, on both papers, without a finding") {
    for (const std::string& path : printed::shipped_plans())
        for (const Paper paper : {Paper::a4, Paper::letter}) {
            CAPTURE(path);
            const SheetResult result = printed::proved_sheet(printed::plan_file(path), paper);
            for (const Diagnostic& finding : result.findings.list())
                FAIL_CHECK(finding.says);
            keeps_the_rules(result);
        }
}

TEST_CASE("a plan with a check of every kind keeps the rules of the paper") {
    const SheetResult result = printed::sheet(printed::plan_file("tests/sheet/plans/all.plan"));
    CHECK(result.findings.empty());
    keeps_the_rules(result);
}

TEST_CASE("every check is one card on one page, numbered by the way through the plan") {
    for (const std::string& path : printed::shipped_plans()) {
        const Plan plan = printed::plan_file(path);
        std::multiset<std::string> wanted;
        for (const Check& check : plan.checks)
            wanted.insert("check " + check.label);
        CHECK(cards_of(printed::sheet(plan).document) == wanted);
    }
}

TEST_CASE("what is read while probing is at least 13 pt: 3.05 mm at 700 mm is 15 arc minutes (NUREG-0700)") {
    CHECK(0.688 * 13 * 25.4 / 72 >= 3.05);
    const page::Document document = printed::proved_sheet(printed::plan_file("plans/cooling/fan.plan")).document;
    for (const std::string words : {"X21.1", "BU/WH", "blue, white stripe", "wire side", "RED", "BLACK", "12.3 V or more", "Key ON"}) {
        CAPTURE(words);
        CHECK(largest(document, words) >= 13);
    }
}

TEST_CASE("the same plan gives the same pages, another plan another digest") {
    const std::string text = chain_plan(3, "Battery");
    const page::Document first = printed::sheet(printed::plan(text)).document;
    CHECK(page::dump(first) == page::dump(printed::sheet(printed::plan(text)).document));
    CHECK(page::dump(first) != page::dump(printed::sheet(printed::plan(chain_plan(3, "Battery!"))).document));
}

TEST_CASE("long names wrap, the card grows, nothing is lost") {
    const SheetResult result = printed::sheet(printed::plan(chain_plan(3, sixty)));
    CHECK(result.findings.empty());
    keeps_the_rules(result);
    CHECK(printed::words(result.document).find("letters that a shop") != std::string::npos);
}

TEST_CASE("two hundred checks print, with three figures in tabs and page numbers") {
    const SheetResult result = printed::sheet(printed::plan(chain_plan(200, "Battery")));
    CHECK(result.findings.empty());
    CHECK(cards_of(result.document).size() == 200);
    CHECK(result.document.pages.size() > 50);
    keeps_the_rules(result);
}

TEST_CASE("a plan without checks prints its head, parts and sign-off") {
    const SheetResult result = printed::sheet(Plan{});
    CHECK(result.findings.empty());
    CHECK(result.document.pages.size() == 1);
    keeps_the_rules(result);
}

TEST_CASE("twelve set-up rows make a tall card, not a broken one") {
    std::string with;
    for (int i = 1; i <= 12; ++i)
        with += fmt::format("{}\"hatch {} shut and latched\"", i == 1 ? "" : ", ", i);
    const std::string checks =
        "check a \"All hatches\"\n  with " + with + "\n  volts G1.+ to G1.-\n  expect 12 .. 13 V\n  pass -> done\n  fail -> suspects\n";
    const SheetResult result = printed::sheet(printed::plan(printed::lamp_plan(checks)));
    CHECK(result.findings.empty());
    keeps_the_rules(result);
    CHECK(printed::words(result.document).find("hatch 12 shut") != std::string::npos);
}

TEST_CASE("a title too long for head and foot is a finding at the plan, not a smaller type") {
    std::string title = sixty;
    for (int i = 0; i < 4; ++i)
        title += " " + sixty;
    Plan plan;
    plan.id = "LONG-01";
    plan.title = title;
    plan.at = {0, 5, 12};
    const SheetResult result = printed::sheet(plan);
    REQUIRE(!result.findings.empty());
    CHECK(result.findings.list().front().code == 802);
    CHECK(result.findings.list().front().at == plan.at);
}

TEST_CASE("a character that no face has is a finding where the plan says it") {
    Plan plan = printed::plan(chain_plan(1, "Battery"));
    plan.checks[0].title = "Battery \U0001F697";
    const SheetResult result = printed::sheet(plan);
    REQUIRE(result.findings.list().size() == 1);
    CHECK(result.findings.list()[0].code == 801);
    CHECK(result.findings.list()[0].at == plan.checks[0].at);
    CHECK(result.findings.list()[0].says.find("U+1F697") != std::string::npos);
}

TEST_CASE("outcomes name the page on which their check stands") {
    const Plan plan = printed::plan(chain_plan(8, "Battery"));
    const page::Document document = printed::sheet(plan).document;
    std::map<std::string, std::size_t> page_of;
    for (std::size_t i = 0; i < document.pages.size(); ++i)
        for (const page::Region& region : document.pages[i].regions)
            if (region.role == page::Role::card) page_of[region.name] = i + 1;
    for (int i = 1; i < 8; ++i) {
        const page::Page& here = document.pages[page_of[fmt::format("check c{}", i)] - 1];
        const std::string name = fmt::format("p. {}", page_of[fmt::format("check c{}", i + 1)]);
        CAPTURE(name);
        CHECK(printed::words(here).find(name) != std::string::npos);
    }
}
