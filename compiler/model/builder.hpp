// The inside of `build`: names first, then the circuit, then the plan over it. One group of statements a source file.
#pragma once
#include "model/plan.hpp"
#include "model/reader.hpp"
#include "source/catalogue.hpp"
#include "source/diagnostic.hpp"
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

namespace loomsheet {

// "30", "87", "87a" of `30/87/87a`
std::vector<std::string_view> pin_names(std::string_view written);

class Builder {
public:
    Builder(const Sources& sources, const std::vector<Tree>& trees, const Tree* asked, Findings& findings)
        : sources_(sources), trees_(trees), asked_(asked), findings_(findings) {}
    Plan run();

private:
    const Sources& sources_;
    const std::vector<Tree>& trees_;
    const Tree* asked_; // null: no fault is
    Findings& findings_;
    Plan plan_;
    Circuit& circuit_ = plan_.circuit;

    // A statement of one of the trees, with what came of it.
    struct Entry {
        const Tree* tree;
        const Statement* statement;
        int made = none; // id of the part, wire, check ... that it declares
    };
    std::vector<Entry> entries_;
    std::vector<const Entry*> setup_entries_; // by the id of the set-up
    struct Declared {
        int id = none;
        Span at;
    };
    using Names = std::unordered_map<std::string, Declared>;
    Names designators_, wires_, cables_, panels_, setups_, steps_, plants_,
        questions_; // steps: checks and verdicts, which share their labels
    std::unordered_map<std::string, bool> step_is_check_;
    std::vector<Span> panel_uses_;
    std::vector<std::pair<PartId, Span>> mapped_; // pins that the `map` of a plug names
    std::unordered_set<int> troubled_setups_;     // that use themselves or are too deep, and were told of
    // One message a cause: what else may come of a mistake that was found already.
    bool files_lost_ = false;                  // some file could not be read
    std::unordered_set<std::string> doubtful_; // names and labels in heads that were not understood, in small letters
    bool nameless_ = false;                    // a head that was not understood has no name at all
    std::unordered_set<PartId> half_read_;     // parts with phrases that were not understood
    std::vector<std::string> lost_halves_;     // first letters of plugs whose other half may have got lost
    int names_asked_ = 0;

    // --- names.cpp: who is who
    void declare_all();
    void declare(Entry& entry);
    void doubt(const Entry& entry);
    void doubt_names(const Tree& tree, const Statement& statement);
    bool is_doubtful(std::string_view name) const;
    const Declared* find_designator(const std::string& name) const;
    bool declare_name(Names& names, const std::string& name, int id, Span at, std::string_view what);
    void declare_twins(const Entry& entry);
    void declare_step(Entry& entry, Context context, const std::string& name, Span at);
    void declare_pins(const Entry& entry);
    void find_assembly(const Entry& entry, PartId id);
    void declare_cavities(PartId id, double written);
    PartId declared_part(const Entry& entry) const;
    PinId add_pin(PartId part, std::string_view name, Span at, bool reachable = true);

    // --- points.cpp: what is meant by a name
    std::string likely_meant(std::string_view name, std::initializer_list<const Names*> among);
    PartId find_part(Span at);
    PinId find_pin(PartId part, std::string_view name, Span at);
    PartId pin_home(PartId part) const; // the assembly, for what is declared in one
    PointRef point(Span at);
    PinId wire_end(Span at);
    void unknown_name(std::string_view name, Span at);
    void mate_pins();

    // --- parts.cpp, elements.cpp, connectors.cpp: what a part is
    void fill_part(Entry& entry);
    bool part_phrase(Part& part, PartId id, Form form, Reader& read);
    bool plain_phrase(Part& part, Form form, Reader& read);
    bool pin_phrase(Part& part, PartId id, Form form, Reader& read);
    void behind(Part& part, Reader& read);
    void bolted(Part& part, PartId id, Reader& read);
    void fuse_type(Part& part, Reader& read);
    void joined(Part& part, Reader& read);
    bool element_phrase(Part& part, PartId id, Form form, Reader& read, const Phrase& phrase);
    std::optional<ElementKind> between_phrase(Element& element, Part& part, PartId id, Form form, Reader& read);
    ElementKind load_or_resistor(Element& element, const Part& part, Reader& read);
    std::optional<ElementKind> unit_phrase(Element& element, PartId id, Form form, Reader& read);
    void output(Element& element, Reader& read);
    bool position_phrase(Part& part, PartId id, Form form, Reader& read, Span at);
    void switch_position(Part& part, PartId id, Reader& read, Span at);
    void between_pins(Element& element, PartId id, Reader& read);
    bool connector_phrase(Part& part, Form form, Reader& read);
    void cavities(Reader& read);
    void plugs_on(Part& part, Reader& read);
    void halves(Part& part, Reader& read);
    void face(Part& part, Reader& read);
    void cavity_marks(Part& part, Form form, Reader& read);
    void check_needs(const Part& part, const Entry& entry);
    Condition condition(Reader& read);
    std::vector<PinId> pins_of(PartId part, std::string_view written);

    // --- wires.cpp: wires, cables, colours, panels, meters
    void fill_wire(Entry& entry);
    void fill_cable(Entry& entry);
    void fill_panel(Entry& entry);
    void fill_meter(Entry& entry);
    void fill_colour(Entry& entry);
    Colour colour(Span at);

    // --- steps.cpp, checks.cpp, limits.cpp: plan head, checks, verdicts, planted faults, questions
    void fill_plan(Entry& entry);
    void fill_check(Entry& entry);
    void fill_verdict(Entry& entry);
    void fill_plant(Entry& entry);
    void fill_question(Entry& entry);
    void complaint(Reader& read, std::string& said, States& meant_states, bool may_measure);
    void answer(Reader& read, Question& question);
    void check_phrase(Check& check, Form form, Reader& read, const Phrase& phrase);
    bool measure_phrase(Check& check, Form form, Reader& read, Span at);
    bool measures(Check& check, MeasureKind kind, Span at);
    void points(Check& check, Reader& read, Span at);
    void expect(Check& check, Reader& read, Span at);
    void outcome(Check& check, Form form, Reader& read);
    Target target(Reader& read, int check);
    States states(Reader& read);
    void in_assembly(State& state);
    void state_fits(const State& state);
    Limit limit(Reader& read);
    void limit_fits(const Limit& limit, MeasureKind measure);
    int find_check(Span at, std::string_view use);

    // --- faults.cpp
    Fault fault(Reader& read);
    Quantity added_ohms(Reader& read);
    void put_at(Fault& fault, Things befalls, Span words_at);
    void joins(const Fault& fault, Things befalls);
    void fits_not(const Fault& fault, const std::string& suits);
    void fill_asked(const Tree& tree);

    // --- setups.cpp
    void fill_setup(Entry& entry);
    Setup setup(const Entry& entry, std::uint32_t first_item);
    struct Nesting { // labels of set-ups: those that are being read, and those that are read
        std::vector<int> open;
        std::unordered_set<int> taken;
    };
    void items(const Entry& entry, std::uint32_t phrase, Setup& setup, Nesting& nesting);
    SetupItem item(Form form, Reader& read);
    void car_item(SetupItem& item, Form form, Reader& read);
    void part_item(SetupItem& item, Form form, Reader& read);
    void lead_item(SetupItem& item, Form form, Reader& read);
    void pressed(SetupItem& item, Reader& read);
    void called(SetupItem& item, Reader& read);
    void brought_to(SetupItem& item, Reader& read);
    void sensor_of(SetupItem& item, Reader& read);
    void has_position(const SetupItem& item, std::string_view position, Span at);
    void stands_at(const Part& owner, std::string_view position, Span at);
    void expand(int named, Setup& setup, Nesting& nesting, Span at);

    // --- build.cpp: shared, and what only the whole shows
    void compare_values();
    void report_unused();
    struct Opened {
        const PhraseRow* row;
        Reader read;
        Span at;
    };
    Opened open(const Entry& entry, std::uint32_t phrase) const;
    Reader head(const Entry& entry) const;
    std::string_view text(Span at) const { return sources_.text(at); }
    std::string said(Span at) const; // as written, for messages: its blanks made one, cut at the end of its line
    Words words(Reader& read);
    Allow allow(Reader& read);
    bool reach(const Quantity& value, std::string_view role);
    Quantity value(Reader& read, std::string_view role); // the next one, which has to be within reach
    void lacks(const Entry& entry, std::string_view what, std::string_view such);
    void compare_marks();
    Part& part(PartId id) { return circuit_.parts[static_cast<std::size_t>(id)]; }
    Pin& pin(PinId id) { return circuit_.pins[static_cast<std::size_t>(id)]; }
};

} // namespace loomsheet
