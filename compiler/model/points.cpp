// Names as they are written, to parts, pins and points.
#include "model/builder.hpp"
#include "syntax/complain.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

namespace {
std::string_view name_of(std::string_view ref) { return ref.substr(0, ref.find('.')); }
std::string_view pins_after_dot(std::string_view ref) {
    const auto dot = ref.find('.');
    return dot == std::string_view::npos ? std::string_view{} : ref.substr(dot + 1);
}
} // namespace

// "did you mean `F14`?" or nothing. Past thirty questions the plan is at odds with itself, and no slip of the pen
// explains it.
std::string Builder::likely_meant(std::string_view name, std::initializer_list<const Names*> among) {
    if (++names_asked_ > 30) return {};
    std::vector<std::string_view> known;
    for (const Names* names : among)
        for (const auto& [word, declared] : *names)
            known.push_back(word);
    std::sort(known.begin(), known.end());
    return meant(name, known);
}

void Builder::unknown_name(std::string_view name, Span at) {
    const auto half = [name](const std::string& letters) { return name.starts_with(letters); }; // of a plug that was not understood
    if (files_lost_ || is_doubtful(name) || std::any_of(lost_halves_.begin(), lost_halves_.end(), half)) return;
    auto help = likely_meant(name, {&designators_, &wires_});
    if (help.empty()) help = "declare it in the circuit, or write the name of a part that is declared";
    findings_.add(finding::unknown_name, at, fmt::format("nothing is called `{}`", name), help);
}

PartId Builder::find_part(Span at) {
    const auto name = text(at);
    const auto found = designators_.find(std::string(name));
    if (found != designators_.end()) return found->second.id;
    if (wires_.contains(std::string(name)))
        findings_.add(finding::wrong_kind_of_thing, at, fmt::format("`{}` is a wire; here comes a part", name));
    else
        unknown_name(name, at);
    return none;
}

PinId Builder::find_pin(PartId id, std::string_view name, Span at) {
    const Part& owner = part(id);
    const bool half_read = half_read_.contains(id) || (owner.assembly != none && half_read_.contains(owner.assembly));
    if (owner.assembly != none) {
        const Part& home = part(owner.assembly);
        const PinId inner = circuit_.find_pin(owner.assembly, name);
        const bool reachable = inner != none && pin(inner).declared;
        findings_.add(finding::pin_inside_assembly, at,
                      fmt::format("{} lies inside {}{}", owner.id, home.id, reachable ? "" : ", and its pins cannot be reached"),
                      reachable ? fmt::format("write `{}.{}`", home.id, name) : fmt::format("name a pin of {}", home.id));
        return none;
    }
    if (const PinId found = circuit_.find_pin(id, name); found != none) return found;
    if (half_read) return none; // the pin may stand in what was not understood
    std::vector<std::string_view> known;
    for (const PinId p : owner.pins)
        known.push_back(pin(p).name);
    if (owner.kind == PartKind::connector) {
        if (owner.cavities > 0)
            findings_.add(finding::unknown_pin, at,
                          fmt::format("{} has {} pins, there is no {}.{}", owner.id, owner.cavities, owner.id, name),
                          fmt::format("its pins are {}.1 to {}.{}", owner.id, owner.id, owner.cavities));
        return none;
    }
    if (owner.kind == PartKind::splice || owner.kind == PartKind::ground) {
        findings_.add(finding::unknown_pin, at, fmt::format("{} has no pins", owner.id), fmt::format("write `{}` alone", owner.id));
        return none;
    }
    if (known.empty()) {
        findings_.add(finding::unknown_pin, at, fmt::format("{} has no pin `{}`: none is declared", owner.id, name),
                      "say in its statement which pins it has");
        return none;
    }
    std::string list;
    for (std::size_t i = 0; i < known.size() && i < 12; ++i)
        list += (i ? ", " : "") + std::string(known[i]);
    if (known.size() > 12) list += " and more";
    findings_.add({finding::unknown_pin,
                   at,
                   fmt::format("{} has no pin `{}`", owner.id, name),
                   fmt::format("its pins are {}", list),
                   {{owner.at, "declared here"}}});
    return none;
}

// A point as written: `X21.1`, `part M3.1`, `joint X30.1`, `K5.30/87`, `W4`, `XE1`, `ground`.
PointRef Builder::point(Span at) {
    PointRef made;
    made.at = at;
    auto written = text(at);
    if (written == "ground") {
        made.metal = Metal::body;
        return made;
    }
    Span named = at;
    for (const std::string_view word : {"part", "joint"})
        if (written.starts_with(word) && written.size() > word.size() && (written[word.size()] == ' ' || written[word.size()] == '\t')) {
            made.metal = word == "part" ? Metal::part : Metal::joint;
            const auto skip = written.find_first_not_of(" \t", word.size());
            written.remove_prefix(skip);
            named.begin += static_cast<std::uint32_t>(skip);
        }
    const std::string name(name_of(written));
    const auto pins = pins_after_dot(written);
    if (pins.empty()) {
        if (written.ends_with('.')) {
            findings_.add(finding::unknown_pin, named, fmt::format("after `{}` the pin is missing", written),
                          fmt::format("for instance: {}1", written));
            return made;
        }
        if (const auto wire = wires_.find(name); wire != wires_.end()) {
            made.wire = wire->second.id;
            made.metal = Metal::whole;
            return made;
        }
        made.part = find_part(named);
        if (made.part == none) return made;
        made.metal = Metal::whole;
        if (part(made.part).kind == PartKind::splice || part(made.part).kind == PartKind::ground) made.pin = part(made.part).pins.front();
        return made;
    }
    const Span name_at{named.file, named.begin, named.begin + static_cast<std::uint32_t>(name.size())};
    const PartId owner = find_part(name_at);
    if (owner == none) return made;
    // One element of a part, inside an assembly or not: K5.30/87
    if (pins.find('/') != std::string_view::npos) {
        bool all = true;
        const PartId home = pin_home(owner);
        for (const auto pin_name : pin_names(pins)) {
            const PinId found = home != owner ? circuit_.find_pin(home, pin_name) : find_pin(owner, pin_name, named);
            if (found == none && home != owner && !half_read_.contains(owner))
                findings_.add(finding::unknown_pin, named, fmt::format("{} has no pin `{}`", part(owner).id, pin_name));
            all = all && found != none;
            made.pins.push_back(found);
        }
        if (!all) return PointRef{Metal::part, none, none, none, {}, at};
        made.metal = Metal::part;
        made.part = owner;
        return made;
    }
    made.pin = find_pin(owner, pins, named);
    if (made.pin == none) return made;
    made.part = owner;
    if (!pin(made.pin).declared) {
        findings_.add(finding::pin_inside_assembly, named,
                      fmt::format("{} is inside {} and cannot be reached", circuit_.pin_name(made.pin), part(owner).id),
                      fmt::format("{} lists the pins that can: put it into `pins` if a probe gets there", part(owner).id));
        made.part = made.pin = none;
        return made;
    }
    // Under a plug the name of the part's pin is the part's own metal; the wire ends in the plug.
    if (made.metal == Metal::wire_end && part(owner).kind != PartKind::connector && circuit_.mate(made.pin) != none)
        made.metal = Metal::part;
    return made;
}

// The end of a wire: a cavity, a socket's terminal, a post, a splice or a ground point.
PinId Builder::wire_end(Span at) {
    const PointRef to = point(at);
    if (const PinId cavity = to.pin != none && to.metal == Metal::part ? circuit_.mate(to.pin) : none; cavity != none) {
        findings_.add(finding::wrong_kind_of_thing, at,
                      fmt::format("{} has a plug: the wire ends there, not at the part's own pin", part(to.part).id),
                      fmt::format("write `{}`", circuit_.pin_name(cavity)));
        return none;
    }
    if (to.wire != none || to.metal == Metal::body || to.metal == Metal::joint || to.metal == Metal::part || !to.pins.empty()) {
        findings_.add(finding::wrong_kind_of_thing, at,
                      fmt::format("a wire ends at a pin, a splice or a ground point, not at `{}`", text(at)),
                      "for instance: W1 G1.+ -> F1.1");
        return none;
    }
    if (to.pin == none && to.part != none) {
        std::string pins;
        for (const PinId p : part(to.part).pins)
            if (pins.size() < 40) pins += (pins.empty() ? "" : ", ") + circuit_.pin_name(p);
        findings_.add(finding::unknown_pin, at, fmt::format("at which pin of {} does the wire end?", text(at)),
                      pins.empty() ? "" : fmt::format("its pins are {}", pins));
        return none;
    }
    return to.pin;
}

// What meets what when all is plugged in.
void Builder::mate_pins() {
    for (const auto& [plug, to] : mapped_) {
        const PartId other = part(plug).twin != none ? part(plug).twin : part(plug).plugs_on;
        if (other != none) find_pin(other, text(to), to);
    }
    for (std::size_t i = 0; i < circuit_.parts.size(); ++i) {
        Part& plug = circuit_.parts[i];
        if (plug.kind != PartKind::connector) continue;
        const PartId other = plug.twin != none ? plug.twin : plug.plugs_on;
        if (other == none) continue;
        const auto meets = [&](PinId cavity, std::string_view name) {
            const PinId met = circuit_.find_pin(other, name);
            if (met == none || pin(met).mate != none || pin(cavity).mate != none) return;
            pin(cavity).mate = met;
            pin(met).mate = cavity;
        };
        for (const auto& [cavity, to] : plug.map)
            if (const PinId from = circuit_.find_pin(static_cast<PartId>(i), cavity); from != none) meets(from, to);
        for (const PinId cavity : plug.pins)
            meets(cavity, pin(cavity).name);
    }
}

} // namespace loomsheet
