// A check that is proposed for a gap, pasted into the plan, closes it; what a blind check misses is told with both
// ohms.
#include "analysis/analysis.hpp"
#include "finding_pages.hpp"
#include "planning/written.hpp"
#include "proof/blind.hpp"
#include "proof/verdicts.hpp"
#include "report/gaps_table.hpp"
#include "report/splits_table.hpp"
#include <algorithm>
#include <fstream>
#include <iterator>
#include <memory>

using namespace loomsheet;

namespace {

struct Proved {
    Analysis made;
    const Plan& plan() const { return *made.plan; }
    const Predictor& sound() const { return *made.sound; }
    const Diagnosis& diagnosis() const { return *made.diagnosis; }
    double wrong() const { return diagnosis().figures.wrong + diagnosis().figures.missed; }
};

std::unique_ptr<Proved> proved(const std::string& text) {
    MemoryDisk disk;
    disk.files["example.plan"] = text;
    Sources sources;
    auto made = std::make_unique<Proved>();
    made->made = analyse(sources, disk, {"example.plan", {}, Until::walked});
    for (const Diagnostic& finding : made->made.findings.list())
        INFO(finding.says);
    REQUIRE(made->made.usable());
    return made;
}

// These outcomes lead to the first new check; the checks stand before the first verdict.
std::string pasted(std::string text, const Plan& plan, const std::vector<Taken>& arrows, const std::string& checks) {
    const std::string label = checks.substr(6, checks.find(' ', 6) - 6);
    std::vector<Span> places;
    for (const Taken& arrow : arrows)
        places.push_back(plan.checks[arrow.check].outcomes[arrow.outcome].target.at);
    std::sort(places.begin(), places.end(), [](const Span& a, const Span& b) { return a.begin > b.begin; });
    for (const Span& place : places)
        text.replace(place.begin, place.end - place.begin, label);
    return text.insert(text.find("verdict "), checks);
}
std::string pasted(std::string text, const Plan& plan, const Gap& gap) {
    std::string checks;
    for (std::size_t i = 0; i < gap.closings.size(); ++i)
        checks += written_closing(plan, gap, i) + "\n";
    return pasted(std::move(text), plan, gap.arrows, checks);
}

std::vector<Taken> arrows_to(const Plan& plan, int verdict) {
    std::vector<Taken> list;
    for (int c = 0; c < static_cast<int>(plan.checks.size()); ++c)
        for (std::size_t o = 0; o < plan.checks[c].outcomes.size(); ++o)
            if (plan.checks[c].outcomes[o].target.kind == TargetKind::verdict && plan.checks[c].outcomes[o].target.index == verdict)
                list.push_back({c, o});
    return list;
}

std::string shipped(const std::string& path) {
    std::ifstream file(LOOMSHEET_ROOT "/plans/" + path);
    return {std::istreambuf_iterator<char>(file), {}};
}

std::string page(int code, std::size_t which) { return finding_pages::read(code).examples[which].files["example.plan"]; }

} // namespace

TEST_CASE("the checks that are proposed for a gap close it when they are pasted into the plan") {
    for (const int code : {701, 708, 709}) {
        CAPTURE(code);
        const std::string text = page(code, 0);
        const auto before = proved(text);
        REQUIRE(before->wrong() > 0);
        const std::vector<Gap> list = gaps(before->plan(), before->sound(), before->diagnosis(), 1);
        REQUIRE(!list.empty());
        REQUIRE(!list.front().closings.empty());
        const std::string now = pasted(text, before->plan(), list.front());
        CAPTURE(now);
        const auto after = proved(now);
        CHECK(after->made.findings.empty()); // the new checks are clean
        double closed = 0;
        for (const Closing& closing : list.front().closings)
            for (const std::size_t fault : closing.closes) {
                closed += before->diagnosis().matrix.faults[fault].likely;
                CHECK(before->diagnosis().ends[fault].fate != Fate::found);
                CHECK(after->diagnosis().ends[fault].fate == Fate::found); // the circuit is the same, and so are the faults
            }
        CHECK(closed > 0);
        CHECK(after->wrong() < before->wrong() / 2);
    }
}

TEST_CASE("a plan without a gap has none to close") {
    const auto made = proved(page(709, 1));
    CHECK(gaps(made->plan(), made->sound(), made->diagnosis(), 4).empty());
    CHECK(gaps_table(made->plan(), made->sound(), made->diagnosis()).empty());
}

TEST_CASE("a check that is proposed to part a verdict, pasted into the plan, leaves on each side those that it says") {
    const std::string text = shipped("cooling/fan.plan");
    const auto before = proved(text);
    const std::vector<Split> list = splits(before->plan(), before->sound(), before->diagnosis(), 4);
    REQUIRE(list.size() >= 2);
    for (const Split& split : list) {
        REQUIRE(split.is_worth_it());
        CHECK(split.passing.size() < split.left.suspects.size());
        const std::string now =
            pasted(text, before->plan(), arrows_to(before->plan(), split.left.verdict), written_split(before->plan(), split) + "\n");
        CAPTURE(now);
        const auto after = proved(now);
        CHECK(after->made.findings.empty());
        CHECK(after->diagnosis().figures.wrong == 0);
        CHECK(after->diagnosis().figures.missed == 0);
        for (const Left& left : groups(after->diagnosis()))
            if (after->plan().verdicts[left.verdict].label == before->plan().verdicts[split.left.verdict].label)
                CHECK(left.suspects == split.passing);
        CHECK(after->diagnosis().figures.isolation.to_three >= before->diagnosis().figures.isolation.to_three);
    }
}

TEST_CASE("a verdict that leaves three or fewer is not parted") {
    const auto made = proved(page(709, 1));
    const std::vector<Split> list = splits(made->plan(), made->sound(), made->diagnosis(), 4);
    CHECK(!list.empty());
    for (const Split& split : list)
        CHECK(split.left.suspects.size() > 3);
}

// By hand: the lamp of 60 W at 12 V is lit from 0.8 of 12 V, 9.6 V. There it draws 5 A (9.6 / 12)^0.55 = 4.42 A;
// of 12.6 V the rest is 3 V, so that all that lies in the way has 0.68 ohm. The sound way has about 0.05 ohm: 0.19 V
// and 0.04 V at 5 A.
TEST_CASE("ohms that starve a lamp are those of its law, and a beeper is certain from 100 ohm, less the leads") {
    const auto made = proved(page(709, 0));
    const std::vector<BlindCheck> blind = SmallFaults(made->plan(), made->sound(), made->diagnosis()).blind();
    REQUIRE(blind.size() == 1);
    CHECK(made->plan().checks[blind.front().check].label == "beep");
    const Smallest& worst = blind.front().blind_to.front();
    CHECK(worst.harmful == doctest::Approx(0.63).epsilon(0.03));
    REQUIRE(worst.seen.front().ohms);
    CHECK(*worst.seen.front().ohms == doctest::Approx(100).epsilon(0.03));
}

TEST_CASE("added ohms are told to two figures") {
    CHECK(added_words(0.0234) == "23 mohm");
    CHECK(added_words(0.6349) == "0.63 ohm");
    CHECK(added_words(1284) == "1300 ohm");
}
