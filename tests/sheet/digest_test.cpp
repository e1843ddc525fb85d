#include "model/digest.hpp"
#include "model/fields.hpp"
#include "printed.hpp"
#include <doctest/doctest.h>
#include <functional>

using namespace loomsheet;

// 64 bit FNV-1a of "" is cbf29ce484222325, of "a" af63dc4c8601ec8c, of "foobar" 85944171f73967e8 (test vectors of the
// FNV draft, from memory); the two halves are folded by exclusive or.
TEST_CASE("the digest is FNV-1a, folded") {
    CHECK(digest_of("") == "4FD0BFC1");
    CHECK(digest_of("a") == "296230C0");
    CHECK(digest_of("foobar") == "72AD2699");
}

namespace {
std::string lamp(const std::string& limit = "11 .. 13 V", const std::string& remark = "", const std::string& head = "") {
    return printed::lamp_plan("check a \"Volts\"\n  with S1 pressed\n  volts X1.1 to X1.2\n  expect " + limit +
                                  "\n  pass -> bad\n  fail -> suspects\n" + remark +
                                  "verdict bad \"The lamp has failed\"\n  blames E1\n  repair \"Fit a new lamp\"\n",
                              head);
}
std::string digest_of_plan(const std::string& text) { return digest(printed::plan(text)); }
std::string changed(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}
} // namespace

TEST_CASE("a changed remark, a blank line and another revision leave the digest as it is") {
    const std::string was = digest_of_plan(lamp());
    CHECK(digest_of_plan(lamp("11 .. 13 V", "# looked through again\n\n")) == was);
    CHECK(digest_of_plan(changed(lamp(), "revision 2 2026-11-24", "revision 3 2026-12-01")) == was);
    CHECK(digest_of_plan(lamp("11 .. 13 V", "", "  author \"Workshop office\"\n")) == was);
}

TEST_CASE("whatever alters a check gives another digest") {
    const std::string text = lamp(), was = digest_of_plan(text);
    CHECK(digest_of_plan(lamp("11.5 .. 13 V")) != was);
    CHECK(digest_of_plan(lamp("11 .. 14 V")) != was);
    const std::pair<std::string, std::string> changes[] = {
        {"with S1 pressed\n  volts", "volts"},
        {"volts X1.1 to X1.2", "volts X1.1 to G1.-"},
        {"fail -> suspects", "fail -> done"},
        {"\"Volts\"", "\"Volts here\""},
        {"blames E1", "blames E1 X1.1"},
        {"Fit a new lamp", "Fit another lamp"},
        {"21 W at 12 V", "20 W at 12 V"},
        {"1.5 mm2 BU/WH 1 m", "1.5 mm2 BU/WH 2 m"},
        {"BU/WH", "BU"},
        {"12.6 V, inner", "12.5 V, inner"},
        {"at \"rear left\"", "at \"rear right\""},
        {"10 A, type C", "10 A, type F"},
    };
    for (const auto& [from, to] : changes) {
        CAPTURE(to);
        CHECK(digest_of_plan(changed(text, from, to)) != was);
    }
}

namespace {
// Alters each field of a plan in turn, tells `look` the way to it, and puts it back.
class Flip {
public:
    explicit Flip(std::function<void(const std::string&)> look) : look_(std::move(look)) {}

    template <class One>
    void each(One& one, const std::string& way) {
        if constexpr (HasFields<One>) {
            int index = 0;
            std::apply([&](auto&... field) { (each(field, way + "." + std::to_string(index++)), ...); }, fields(one));
        } else if constexpr (requires { one.has_value(); }) {
            if (one) each(*one, way);
            alter(one, way + "?", [](One& each) { each ? each.reset() : static_cast<void>(each.emplace()); });
        } else if constexpr (requires { one.first; }) {
            each(one.first, way + ".first"), each(one.second, way + ".second");
        } else if constexpr (std::is_same_v<One, std::string>) {
            alter(one, way, [](One& each) { each += "x"; });
        } else if constexpr (requires { one.push_back({}); }) {
            for (std::size_t i = 0; i < one.size() && i < 3; ++i)
                each(one[i], way + "[" + std::to_string(i) + "]");
            alter(one, way + "[]", [](One& each) { each.emplace_back(); });
        } else if constexpr (std::is_same_v<One, bool>) {
            alter(one, way, [](One& each) { each = !each; });
        } else if constexpr (std::is_arithmetic_v<One> || std::is_enum_v<One>) {
            alter(one, way, [](One& each) { each = static_cast<One>(static_cast<int>(each) + 1); });
        }
    }
    void each(Span&, const std::string&) {}
    void each(const Unit*&, const std::string&) {}
    void each(Circuit::Lookup&, const std::string&) {}
    void each(std::vector<Allow>&, const std::string&) {}

private:
    template <class One, class Change>
    void alter(One& one, const std::string& way, const Change& change) {
        const One was = one;
        change(one);
        look_(way);
        one = was;
    }
    std::function<void(const std::string&)> look_;
};
} // namespace

TEST_CASE("`not computed` is part of what a plan says") {
    CHECK(digest_of_plan(lamp("11 .. 13 V not computed")) != digest_of_plan(lamp()));
}

TEST_CASE("of plans that say all there is to say, every field counts, but for who wrote it when") {
    for (const char* path : {"tests/plans/kitchen.plan", "tests/plans/fan-class.plan"}) {
        Plan plan = printed::plan_file(path);
        const std::string was = digest(plan);
        std::size_t count = 0;
        std::vector<std::string> alike;
        Flip flip([&](const std::string& way) {
            ++count;
            if (digest(plan) == was) alike.push_back(way);
        });
        flip.each(plan, "plan");
        CHECK(count > 700);
        CHECK(alike ==
              std::vector<std::string>{"plan.5", "plan.6", "plan.7", "plan.23?", "plan.25"}); // author, revision, date, asked, broken
        CHECK(digest(plan) == was);
    }
}

TEST_CASE("every page of every sheet, paper and language carries the same digest") {
    const Plan plan = printed::plan(lamp());
    const std::string digits = digest(plan), shown = digits.substr(0, 4) + " " + digits.substr(4);
    for (const std::string name : {"workshop", "pocket", "proof"})
        for (const std::string language : {"english", "german", "spanish"})
            for (const Paper paper : {Paper::a4, Paper::letter, Paper::a5}) {
                const SheetResult result = printed::proved_sheet(plan, paper, &printed::shipped(name, language));
                for (const page::Page& page : result.document.pages)
                    CHECK(printed::words(page).find(shown) != std::string::npos);
            }
}
