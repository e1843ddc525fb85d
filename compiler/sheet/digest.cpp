#include "sheet/digest.hpp"
#include <cstdint>
#include <fmt/format.h>
#include <type_traits>

namespace loomsheet {
namespace {

// Writes what a plan says field by field, without places in files; every text with its length, so that no two plans
// write the same.
class Teller {
public:
    std::string told;

    template <class... Fields>
    void put_all(const Fields&... fields) {
        (put(fields), ...);
    }

    void put(const std::string& text) { told += fmt::format("{}:{};", text.size(), text); }
    template <class Number>
    requires std::is_arithmetic_v<Number>
    void put(Number number) { told += fmt::format("{};", number); }
    template <class Kind>
    requires std::is_enum_v<Kind>
    void put(Kind kind) { put(static_cast<int>(kind)); }
    template <class One>
    void put(const std::vector<One>& list) {
        put(list.size());
        for (const One& one : list)
            put(one);
    }
    template <class One>
    void put(const std::optional<One>& one) {
        put(one.has_value());
        if (one) put(*one);
    }
    template <class First, class Second>
    void put(const std::pair<First, Second>& both) {
        put_all(both.first, both.second);
    }

    // --- circuit
    void put(const Quantity& one) { put_all(one.si, one.plus_minus, one.written); }
    void put(const Words& one) { put(one.text); }
    void put(const TableValue& one) { put_all(one.position, one.at_value, one.value, one.closed); }
    void put(const Condition& one) { put_all(one.key, one.engine_running, one.asleep); }
    void put(const Element& one) {
        put_all(one.kind, one.a, one.b, one.c, one.value, one.volts, one.more, one.table, one.pulls_down, one.flashes,
                one.follows, one.duration, one.when, one.name);
    }
    void put(const Pin& one) { put_all(one.part, one.name, one.mark, one.mate, one.declared); }
    void put(const Draw& one) { put_all(one.value, one.when); }
    void put(const Part& one) {
        put_all(one.id, one.name, one.kind, one.sensor_kind, one.place, one.panel, one.metal, one.bolted_to,
                one.bolted_pin, one.assembly, one.likely, one.notes, one.cautions, one.how, one.pins, one.elements,
                one.rating, one.fuse_type, one.opens_at, one.resets, one.capacity, one.inner, one.gives, one.draws);
        put_all(one.pulls_in, one.drops_out, one.stalls_at, one.needs, one.supply_pins, one.ground_pins,
                one.closed_when, one.positions, one.joined, one.sprung, one.bare, one.cavities, one.plugs_on, one.twin,
                one.half, one.map, one.lock, one.face_rows, one.face_columns, one.first_half);
    }
    void put(const Colour& one) { put_all(one.base, one.stripe); }
    void put(const Wire& one) {
        put_all(one.id, one.from, one.to, one.area, one.gauge, one.colour, one.length, one.rated, one.unfused,
                one.cable, one.notes, one.likely);
    }
    void put(const Cable& one) { put_all(one.id, one.name, one.wires, one.twisted); }
    void put(const Panel& one) { put_all(one.label, one.name, one.how, one.time); }
    void put(const MeterRow& one) { put_all(one.function, one.within); }
    void put(const Circuit& one) {
        put_all(one.parts, one.pins, one.wires, one.cables, one.panels, one.meters, one.own_colours);
    }

    // --- checks and verdicts
    void put(const PointRef& one) { put_all(one.metal, one.part, one.pin, one.wire, one.pins); }
    void put(const State& one) { put_all(one.of, one.verb, one.from, one.to); }
    void put(const States& one) { put_all(one.list, one.any); }
    void put(const SetupItem& one) {
        put_all(one.kind, one.word, one.word2, one.part, one.pin, one.parts, one.value, one.time, one.a, one.b,
                one.across_points);
    }
    void put(const Setup& one) { put(one.items); }
    void put(const Row& one) { put_all(one.name, one.red, one.black); }
    void put(const Limit& one) { put_all(one.kind, one.low, one.high, one.reference, one.row); }
    void put(const Target& one) { put_all(one.kind, one.index, one.run, one.run_is_span); }
    void put(const Outcome& one) { put_all(one.kind, one.row, one.answer, one.states, one.band, one.target); }
    void put(const Question& one) { put_all(one.label, one.text, one.answers, one.expected, one.marks, one.space); }
    void put(const Check& one) {
        put_all(one.label, one.title, one.with, one.measure, one.rows, one.look, one.look_states, one.limits,
                one.outcomes, one.cautions, one.notes, one.steps, one.questions, one.time, one.marks, one.exercise);
    }
    void put(const Verdict& one) {
        put_all(one.label, one.title, one.blames, one.blamed_runs, one.blamed_words, one.blames_nothing, one.repairs,
                one.cautions, one.notes, one.after, one.then, one.then_plan);
    }
    void put(const Fault& one) { put_all(one.at_point, one.kind, one.words, one.position, one.value, one.other); }
    void put(const Plant& one) {
        put_all(one.label, one.title, one.fault, one.how, one.undo, one.complaint, one.complaint_states, one.with,
                one.time, one.marks, one.cautions, one.notes);
    }
    void put(const Plan& one) {
        put_all(one.id, one.title, one.vehicle, one.complaint, one.complaint_states, one.complaint_points,
                one.complaint_measure, one.complaint_limit, one.complaint_with, one.codes, one.system, one.cautions,
                one.notes, one.circuit, one.checks, one.verdicts, one.plants, one.questions);
    }
};

} // namespace

std::string digest(const Plan& plan) {
    Teller teller;
    teller.put(plan);
    return digest_of(teller.told);
}

std::string digest_of(std::string_view bytes) {
    std::uint64_t sum = 0xcbf29ce484222325U;
    for (const char byte : bytes) {
        sum ^= static_cast<unsigned char>(byte);
        sum *= 0x100000001b3U;
    }
    return fmt::format("{:08X}", static_cast<std::uint32_t>(sum ^ (sum >> 32)));
}

} // namespace loomsheet
