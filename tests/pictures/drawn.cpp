#include "drawn.hpp"
#include "model/build.hpp"
#include "sheet/words/wording.hpp"
#include "source/disk.hpp"
#include "syntax/parse.hpp"
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <functional>
#include <numeric>
#include <set>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace drawn {
namespace {

const Faces& faces() {
    static std::string error;
    static const std::optional<Faces> loaded = Faces::load(error);
    REQUIRE_MESSAGE(loaded.has_value(), error);
    return *loaded;
}

} // namespace

const Measure& measure() {
    static const Measure by_faces = measure_with(faces());
    return by_faces;
}

Plan plan(const std::string& text) {
    Sources sources;
    Findings findings;
    std::vector<Tree> trees;
    trees.push_back(parse(sources, sources.add("test.plan", text), findings));
    return build(sources, trees, findings);
}

Plan plan_file(const std::string& path) {
    RealDisk disk;
    Sources sources;
    Findings findings;
    std::vector<Tree> trees;
    const std::function<void(const std::string&)> load = [&](const std::string& file) {
        std::string text;
        REQUIRE(disk.read(file, text).empty());
        Tree tree = parse(sources, sources.add(file, text), findings);
        for (const auto& use : used_paths(sources, tree))
            load(file.substr(0, file.rfind('/') + 1) + use.text);
        trees.push_back(std::move(tree));
    };
    load(path);
    return build(sources, trees, findings);
}

std::vector<std::string> all_plans() {
    RealDisk disk;
    std::vector<std::string> paths;
    for (const char* folder : {"/plans", "/tests/plans", "/tests/sheet/plans"}) {
        const std::vector<std::string> found = disk.list(LOOMSHEET_ROOT + std::string(folder), ".plan");
        paths.insert(paths.end(), found.begin(), found.end());
    }
    return paths;
}

Probes probes(const Plan& plan) {
    std::vector<int> numbers(plan.checks.size());
    std::iota(numbers.begin(), numbers.end(), 1);
    return probes_of(plan, numbers);
}

std::vector<Picture> circuit(const Plan& plan, Area area) {
    return draw_circuit(plan.circuit, probes(plan), measure(), drawing_phrases(english()), area);
}

std::string dump(const std::vector<Picture>& pictures) {
    std::string text;
    for (const Picture& picture : pictures) {
        text += fmt::format("picture {:.3f} {:.3f}\n", picture.width, picture.height);
        for (const Stroke& stroke : picture.strokes) {
            text += fmt::format("stroke {:.2f} {}", stroke.pt, static_cast<int>(stroke.use));
            for (const Spot& spot : stroke.through)
                text += fmt::format(" {:.3f} {:.3f}", spot.x, spot.y);
            text += "\n";
        }
        for (const Ring& ring : picture.rings)
            text += fmt::format("ring {:.3f} {:.3f} {:.3f}\n", ring.x, ring.y, ring.r);
        for (const Pill& pill : picture.pills)
            text += fmt::format("pill {:.3f} {:.3f} {:.3f} {:.3f}\n", pill.x, pill.y, pill.w, pill.h);
        for (const drawing::Words& words : picture.words)
            text += fmt::format("words {:.3f} {:.3f} {}\n", words.x, words.y, words.text);
    }
    return text;
}

void check_whole(const Plan& plan, const std::vector<Picture>& pictures, Area area) {
    const Circuit& circuit = plan.circuit;
    std::set<WireId> wires;
    std::set<PinId> pins;
    for (const Picture& picture : pictures) {
        for (const std::string& one : collisions(picture, area))
            FAIL_CHECK(one);
        wires.insert(picture.wires.begin(), picture.wires.end());
        pins.insert(picture.pins.begin(), picture.pins.end());
    }
    for (std::size_t i = 0; i < circuit.wires.size(); ++i) {
        const Wire& wire = circuit.wires[i];
        if (wire.from == none || wire.to == none) continue;
        CHECK_MESSAGE(wires.contains(static_cast<WireId>(i)), wire.id << " is not drawn");
        for (const PinId pin : {wire.from, wire.to})
            CHECK_MESSAGE((pins.contains(pin) || pins.contains(circuit.mate(pin))), circuit.pin_name(pin) << " is not drawn");
    }
}

} // namespace drawn
