// A fault in words: what kind it is, and what of the circuit it befalls. What proof tries is written in these words too
// and comes to the same place.
#include "model/builder.hpp"
#include "model/inside.hpp"
#include "source/english.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

// What may be meant by a point: the thing itself, or something in it.
struct Place {
    PointRef at;
    Things what = thing::nothing;
};

class Places {
public:
    explicit Places(const Circuit& circuit) : circuit_(circuit) {}

    std::vector<Place> of(const PointRef& at) {
        if (at.wire != none) return {{at, thing::wire}};
        if (at.metal == Metal::joint) return {{at, thing::joint}};
        if (at.part == none) return {};
        if (at.metal == Metal::whole && at.pins.empty()) add_whole(at.part, at);
        for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id)
            if (id == at.part || circuit_.parts[id].assembly == at.part) add_inside(id, at);
        if (at.pin != none && at.metal != Metal::whole) list_.push_back({at, thing::crimp});
        return std::move(list_);
    }

private:
    void add_whole(PartId id, PointRef at) {
        at.part = id, at.pin = none;
        const Part& part = circuit_.parts[id];
        Things what = row_of(part.kind).as_a_whole;
        const std::vector<PlaceInside> inside = places_inside(part);
        if (inside.size() == 1 && part.kind != PartKind::module) what |= inside.front().what;
        if (what != thing::nothing) list_.push_back({at, what});
        for (PartId inner = 0; inner < static_cast<PartId>(circuit_.parts.size()); ++inner)
            if (circuit_.parts[inner].assembly == id) add_whole(inner, at);
    }
    void add_inside(PartId id, PointRef at) {
        const std::vector<PinId> named = at.pin != none ? std::vector{at.pin} : at.pins;
        for (const PlaceInside& each : places_inside(circuit_.parts[id])) {
            const auto has = [&](PinId pin) {
                return std::any_of(each.pins.begin(), each.pins.end(), [&](PinId own) { return own == pin || circuit_.mate(own) == pin; });
            };
            if (!std::all_of(named.begin(), named.end(), has) || (!named.empty() && named.size() != each.pins.size())) continue;
            at.part = id, at.pin = none, at.pins = each.pins;
            if (at.metal == Metal::wire_end) at.metal = Metal::part;
            list_.push_back({at, each.what});
        }
    }

    const Circuit& circuit_;
    std::vector<Place> list_;
};

// What is named as a whole where it can have the fault, else all in it that can; what lies between the same pins once.
std::vector<PointRef> befallen(const PointRef& named, const std::vector<Place>& places, Things befalls) {
    std::vector<PointRef> list;
    for (const Place& each : places) {
        if ((each.what & befalls) == 0) continue;
        if (each.at.pins.empty() && each.at.part == named.part) return {each.at};
        const auto has = [&](const PointRef& other) {
            return other.part == each.at.part && (other.pins == each.at.pins || other.pins.empty());
        };
        if (std::none_of(list.begin(), list.end(), has)) list.push_back(each.at);
    }
    return list;
}

std::string listed(std::vector<std::string> words) {
    constexpr std::size_t most = 5;
    if (words.size() > most) words.resize(most);
    return list_quoted(words);
}

// What goes open or gains ohms where a part or a splice does not: a wire that ends there, a joint of it.
std::vector<std::string> beside(const Circuit& circuit, const Fault& fault) {
    std::vector<std::string> list;
    for (const PinId pin : circuit.parts[fault.at_point.part].pins) {
        if (circuit.parts[fault.at_point.part].kind == PartKind::splice)
            for (const WireId each : circuit.wires_at(pin))
                list.push_back(fmt::format("{} {}", circuit.wires[each].id, fault.words));
        else
            list.push_back(fmt::format("joint {} {}", circuit.pin_name(circuit.mate(pin) != none ? circuit.mate(pin) : pin), fault.words));
    }
    return list;
}

// "joint X30.1 2.2 ohm" as an example for each place: the first words that suit it.
std::vector<std::string> what_suits(const Circuit& circuit, const Fault& fault, const std::vector<Place>& places) {
    const bool is_splice = !places.empty() && places.front().what == thing::splice;
    if (fault.at_point.part != none && (fault.kind == FaultKind::added || (is_splice && fault.kind == FaultKind::open)))
        return beside(circuit, fault);
    std::vector<std::string> list;
    for (const Place& each : places)
        for (const FaultPhrase& row : fault_phrases()) {
            if ((row.befalls & each.what) == 0 || row_of(row.kind).has_other) continue;
            list.push_back(fmt::format("{} {}", written_point(circuit, each.at), row.such));
            if (places.size() > 1) break;
        }
    return list;
}
} // namespace

// "joint X30.1 2.2 ohm", "W24 touches ground 40 kohm", "S4 at high", "K5.30/87 0.03 .. 0.1 ohm"
Fault Builder::fault(Reader& read) {
    Fault made;
    made.at_point = point(read.take());
    const Span words_at = read.rest();
    made.words = said(words_at);
    std::string words; // without names and values
    while (!read.done()) {
        if (read.is(Atom::quantity)) {
            made.value = read.quantity();
            const auto dimension = made.value->unit->dimension;
            reach(*made.value, dimension == Dimension::ohm ? "resistance" : dimension == Dimension::watt ? "load power" : "load current");
        } else if (read.is(Atom::range)) {
            made.value = added_ohms(read);
        } else if (read.is(Atom::point)) {
            made.other = point(read.take());
        } else if (words == "at") {
            made.position = text(read.take());
        } else {
            words += words.empty() ? "" : " ";
            words += text(read.take());
        }
    }
    const FaultPhrase* row = find_fault(words);
    made.kind = row->kind;
    if (words == "shorted inside") made.value = ohms_between(shorted_inside_ohms, shorted_inside_ohms);
    put_at(made, row->befalls, words_at);
    return made;
}

Quantity Builder::added_ohms(Reader& read) {
    Quantity low, high;
    read.range(low, high);
    if (high.unit->dimension != Dimension::ohm || low.unit->dimension != Dimension::ohm)
        findings_.add(finding::unit_does_not_fit, high.at,
                      fmt::format("`{}` is {}; what is added is ohms", said(high.at), row_of(high.unit->dimension).word),
                      fmt::format("for instance: {}", row_of(Dimension::ohm).example));
    else if (low.si > high.si)
        findings_.add(finding::out_of_physical_reach, low.at, fmt::format("the range `{}` runs from high to low", said(low.at)),
                      "the smaller value stands first");
    else
        reach(high, "resistance");
    Quantity made = ohms_between(low.si, high.si);
    made.at = high.at;
    return made;
}

// The place that proof too would name: of a part the one thing in it that can fail so.
void Builder::put_at(Fault& fault, Things befalls, Span words_at) {
    PointRef& at = fault.at_point;
    if (at.part == none && at.wire == none && at.metal != Metal::body) return; // said already
    if (at.part != none && half_read_.contains(at.part)) return;
    if (fault.kind == FaultKind::at_position && at.part != none && part(at.part).kind == PartKind::switch_) {
        stands_at(part(at.part), fault.position, words_at);
        return;
    }
    const std::vector<Place> places = Places(circuit_).of(at);
    const std::vector<PointRef> found = befallen(at, places, befalls);
    if (found.size() == 1) {
        at = found.front();
        if (row_of(fault.kind).has_other) joins(fault, befalls);
        return;
    }
    if (found.size() > 1) {
        std::vector<std::string> each;
        for (const PointRef& one : found)
            each.push_back(fmt::format("{} {}", written_point(circuit_, one), fault.words));
        findings_.add(finding::wrong_kind_of_thing, at.at, fmt::format("`{}` fits several things in {}: which?", fault.words, text(at.at)),
                      fmt::format("write {}", listed(each)));
        return;
    }
    fits_not(fault, listed(what_suits(circuit_, fault, places)));
}

// The other end of a short, the other wire of a pair that is swapped.
void Builder::joins(const Fault& fault, Things befalls) {
    const PointRef& to = fault.other;
    if (to.part == none && to.wire == none) return;
    if (befallen(to, Places(circuit_).of(to), befalls).empty())
        findings_.add(finding::wrong_kind_of_thing, to.at,
                      fmt::format("`{}` is not what a fault can {} to", text(to.at), fault.kind == FaultKind::swapped ? "swap" : "join it"),
                      fault.kind == FaultKind::swapped ? "name another wire" : "name a wire, a pin or a ground point");
}

void Builder::fits_not(const Fault& fault, const std::string& suits) {
    const PointRef& at = fault.at_point;
    const auto what = [&]() -> std::string {
        if (at.metal == Metal::body) return "the body";
        if (at.wire != none) return fmt::format("{}, which is a wire", text(at.at));
        if (at.metal == Metal::joint) return fmt::format("{}, which is a joint", text(at.at));
        const PartKind kind = part(at.part).kind;
        return fmt::format("{}, which is {}", text(at.at), kind == PartKind::ground ? "a ground point" : a_kind(kind));
    };
    std::string help = suits.empty() ? "name the wire, the joint or the part that has failed" : fmt::format("write {}", suits);
    findings_.add(finding::wrong_kind_of_thing, at.at, fmt::format("`{}` does not fit {}", fault.words, what()), help);
}

// What `--fault` asks for: a fault and nothing else.
void Builder::fill_asked(const Tree& tree) {
    for (const Phrase& phrase : tree.phrases) {
        Reader read(sources_, tree, phrase.first_arg, phrase.arg_count);
        plan_.asked = fault(read);
        plan_.asked->at = tree.span(phrase);
    }
}

} // namespace loomsheet
