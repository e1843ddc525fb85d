// Any bytes: a tree and findings whose places lie in the text, in order, and findings that can be shown.
#include "syntax/parse.hpp"
#include "fuzz/take.hpp"
#include "source/render.hpp"

using namespace loomsheet;

namespace {
bool lies_in(const Sources& sources, Span at) {
    return at.begin <= at.end && at.file < sources.size() && at.end <= sources[at.file].text().size();
}
} // namespace

void take(std::string_view bytes) {
    Sources sources;
    Findings findings;
    const Tree tree = parse(sources, sources.add("fuzz.plan", std::string(bytes)), findings);
    std::uint32_t before = 0;
    for (const Token& token : tree.tokens) {
        promise(token.begin >= before && token.end() > token.begin && token.end() <= bytes.size(), "tokens in order");
        before = token.end();
    }
    for (const Diagnostic& finding : findings.list()) {
        promise(lies_in(sources, finding.at), "a finding lies in the text");
        promise(!finding.says.empty(), "a finding says something");
    }
    promise(first_bad_utf8(render_text(sources, findings, {})) == std::string::npos, "what is shown is UTF-8");
    promise(render_json(sources, findings).size() > 1, "JSON of any text");
    promise(outline(sources, tree) == outline(sources, tree), "the outline reads the whole tree");
}
