// Whatever a plan's words are: nothing overlaps, nothing is cut, nothing leaves the paper.
#include "odd_plans.hpp"
#include "sheet/paper_rules.hpp"
#include "sheet/printed.hpp"
#include "sheet/words/shipped.hpp"
#include <cstdlib>
#include <doctest/doctest.h>

using namespace loomsheet;

TEST_CASE("a thousand odd plans, each on a sheet, a paper and in a language, keep the rules of the paper") {
    const char* asked = std::getenv("LOOMSHEET_PLANS");
    const int count = asked ? std::atoi(asked) : 1000;
    const std::vector<std::string> sheets = shipped_names(".sheet"), languages = shipped_names(".words");
    std::size_t pages = 0;
    int refused = 0;
    for (int i = 0; i < count; ++i) {
        const auto seed = static_cast<std::uint32_t>(i);
        const std::string text = odd_plan(seed);
        const Plan plan = printed::plan(text);
        const std::string& sheet = sheets[seed / 5 % sheets.size()];
        const SheetTemplate& on = printed::shipped(sheet, languages[seed / 3 % languages.size()]);
        if (sheet == "proof") continue; // says what was computed: the shipped plans have it
        const SheetResult result =
            lay_out(plan, printed::faces(), {seed % 2 ? std::optional<Paper>() : Paper::letter, nullptr, nullptr, &on});
        if (!result.findings.empty()) { // refused: only a circuit that no page can hold
            for (const Diagnostic& finding : result.findings.list())
                CHECK_MESSAGE(finding.says.find(on.words.texts[static_cast<std::size_t>(Word::circuit)]) == 1, seed, " ", sheet, ": ",
                              finding.says);
            ++refused;
            continue;
        }
        for (const std::string& broken : broken_rules(result.document, on.margins))
            FAIL_CHECK(seed << " " << sheet << ": " << broken);
        pages += result.document.pages.size();
    }
    MESSAGE(count << " plans, " << pages << " pages, " << refused << " refused");
    CHECK(refused * 500 <= count);
    CHECK(pages > static_cast<std::size_t>(count));
}
