// All that ships, laid out in every way that it can be.
#include "sheet/paper_rules.hpp"
#include "sheet/printed.hpp"
#include "sheet/words/shipped.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

TEST_CASE("every plan that ships, on every sheet, paper and language, has no finding and keeps the rules of the paper") {
    for (const std::string& path : printed::shipped_plans()) {
        const printed::Proved& plan = printed::proved(path);
        for (const std::string& name : shipped_names(".sheet"))
            for (const std::string& language : shipped_names(".words"))
                for (const PaperRow& paper : papers()) {
                    CAPTURE(path);
                    CAPTURE(name);
                    CAPTURE(language);
                    CAPTURE(paper.name);
                    const SheetResult result = printed::sheet_of(plan, paper.paper, printed::shipped(name, language));
                    for (const Diagnostic& finding : result.findings.list())
                        FAIL_CHECK(finding.says);
                    for (const std::string& broken : broken_rules(result.document, printed::shipped(name, language).margins))
                        FAIL_CHECK(broken);
                }
    }
}
