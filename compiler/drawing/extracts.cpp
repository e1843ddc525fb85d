#include "drawing/extracts.hpp"
#include <algorithm>
#include <set>

namespace loomsheet::drawing {
namespace {

constexpr double same_level = 1e-9; // shares of the supply

std::string listed(const std::set<int>& pages) {
    std::string words;
    for (const int page : pages)
        words += (words.empty() ? "" : ", ") + std::to_string(page + 1);
    return words;
}
std::set<int> without(std::set<int> pages, int page) {
    pages.erase(page);
    return pages;
}

class ExtractMaker {
public:
    ExtractMaker(const Strands& strands, const std::vector<double>& volts, const std::vector<Group>& pages, const Phrases& phrases)
        : strands_(strands), circuit_(strands.circuit()), volts_(volts), phrases_(phrases), count_(static_cast<int>(pages.size())),
          pages_of_(circuit_.pins.size()), page_of_(circuit_.wires.size(), none), home_(circuit_.parts.size(), none), made_(pages.size()) {
        for (int page = 0; page < count_; ++page)
            take(pages[page], page);
    }

    std::vector<Extract> make() {
        settle_parts();
        for (const Part& part : circuit_.parts)
            if (part.kind == PartKind::splice && !part.pins.empty()) settle_splice(part);
        for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id)
            if (strands_.is_divisible(id)) bring_pins(id);
        for (PinId joint = 0; joint < static_cast<PinId>(circuit_.pins.size()); ++joint)
            mark(joint);
        return std::move(made_);
    }

private:
    void take(const Group& group, int page) {
        made_[page].parts.assign(circuit_.parts.size(), 0);
        made_[page].wires.assign(circuit_.wires.size(), 0);
        for (const PartId part : group.parts)
            made_[page].parts[part] = 1;
        for (const WireId wire : group.wires) {
            made_[page].wires[wire] = 1;
            page_of_[wire] = page;
            for (const bool from : {true, false})
                pages_of_[strands_.joint_of(wire, from)].insert(page);
        }
    }

    // Each part is on the first page that has a wire of it, so that later pages change nothing on earlier ones;
    // splices, grounds, in-line pairs and what is divisible stand on all where they have a wire.
    void settle_parts() {
        for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id) {
            std::set<int> wired;
            for (const PinId pin : circuit_.parts[id].pins)
                wired.insert(pages_of_[pin].begin(), pages_of_[pin].end());
            if (wired.empty()) continue;
            home_[id] = *wired.begin();
            const PartKind kind = circuit_.parts[id].kind;
            const bool everywhere =
                kind == PartKind::splice || kind == PartKind::ground || kind == PartKind::connector || strands_.is_divisible(id);
            for (const int page : wired)
                if (everywhere || page == home_[id]) made_[page].parts[id] = 1;
        }
    }
    // A splice is there where a part is that it joins.
    void settle_splice(const Part& splice) {
        const PinId own = splice.pins.front();
        for (const PinId pin : splice.joined) {
            const PartId part = circuit_.pins[pin].part;
            for (int page = 0; page < count_; ++page)
                if (made_[page].parts[part] && (pages_of_[pin].contains(page) || home_[part] == page)) {
                    made_[page].parts[circuit_.pins[own].part] = 1;
                    pages_of_[own].insert(page);
                }
        }
    }
    // An element is where its key is, and its other pins with it.
    void bring_pins(PartId id) {
        for (const Strand& strand : strands_.of(id))
            for (const int page : std::set<int>(pages_of_[strand.key]))
                for (const PinId pin : strand.pins)
                    if (!pages_of_[pin].empty()) pages_of_[pin].insert(page);
    }

    void mark(PinId joint) {
        const PartId id = circuit_.pins[joint].part;
        const PartKind kind = circuit_.parts[id].kind;
        const bool divisible = strands_.is_divisible(id);
        const bool owned = kind != PartKind::splice && kind != PartKind::connector && home_[id] != none && !divisible;
        std::set<int> on = pages_of_[joint];
        if (owned && !on.empty()) on.insert(home_[id]);
        if (on.size() < 2 || kind == PartKind::ground) return;
        divisible ? mark_elements(joint, on) : mark_source(joint, on, owned);
    }
    void say_from(int page, PinId joint, const std::set<int>& others) {
        made_[page].from[joint] = circuit_.pin_name(joint) + "\n" + phrases_.from(listed(others));
    }
    void say_to(int page, PinId joint, const std::set<int>& others) {
        made_[page].to[joint] = circuit_.pin_name(joint) + "\n" + phrases_.to(listed(others));
    }

    // The elements are on all these pages, the wires on some.
    void mark_elements(PinId joint, const std::set<int>& on) {
        std::set<int> wired, bare = on;
        for (const WireId wire : strands_.wires_at(joint))
            if (page_of_[wire] != none) wired.insert(page_of_[wire]), bare.erase(page_of_[wire]);
        if (bare.empty()) bare = wired;
        bool drains = false; // current comes out of the part here
        for (const Strand& strand : strands_.of(circuit_.pins[joint].part))
            if (std::find(strand.pins.begin(), strand.pins.end(), joint) != strand.pins.end())
                for (const PinId pin : strand.pins)
                    drains = drains || volts_[pin] > volts_[joint];
        for (const int page : on) {
            const bool has_wire = wired.contains(page);
            const std::set<int> others = without(has_wire ? bare : wired, page);
            if (others.empty()) continue;
            has_wire == drains ? say_from(page, joint, others) : say_to(page, joint, others);
        }
    }

    // The current comes from the page where the volts of what is joined are highest.
    void mark_source(PinId joint, const std::set<int>& on, bool owned) {
        const PartId id = circuit_.pins[joint].part;
        int source = *on.begin();
        double most = -1;
        const auto feeds = [&](PinId from, int page) {
            if (page != none && volts_[from] > most + same_level) most = volts_[from], source = page;
        };
        if (owned)
            for (const PinId pin : circuit_.parts[id].pins)
                if (pin != joint) feeds(pin, home_[id]);
        for (const PinId pin : circuit_.parts[id].joined)
            feeds(pin, home_[circuit_.pins[pin].part]);
        for (const WireId wire : strands_.wires_at(joint))
            feeds(strands_.joint_of(wire, strands_.joint_of(wire, true) != joint), page_of_[wire]);
        for (const int page : on)
            page == source ? say_to(page, joint, without(on, page)) : say_from(page, joint, {source});
    }

    const Strands& strands_;
    const Circuit& circuit_;
    const std::vector<double>& volts_;
    const Phrases& phrases_;
    int count_;
    std::vector<std::set<int>> pages_of_; // by joint
    std::vector<int> page_of_;            // by wire
    std::vector<int> home_;               // by part: its first page
    std::vector<Extract> made_;
};

} // namespace

std::vector<Extract> extracts_of(const Strands& strands, const std::vector<double>& volts, const std::vector<Group>& pages,
                                 const Phrases& phrases) {
    return ExtractMaker(strands, volts, pages, phrases).make();
}

} // namespace loomsheet::drawing
