#include "model/digest.hpp"
#include "model/fields.hpp"
#include <algorithm>
#include <cstdint>
#include <fmt/format.h>

namespace loomsheet {
namespace {

using LeftOut = std::vector<const void*>; // fields, by where they stand

// Writes what a plan says field by field; every text with its length, so that no two plans write the same.
class Teller {
public:
    Teller(const Plan& plan, LeftOut left_out) : left_out_(std::move(left_out)) {
        std::sort(left_out_.begin(), left_out_.end());
        put(plan);
    }
    std::string told;

private:
    void put(const Span&) {}
    void put(const std::vector<Allow>&) {}
    void put(const Circuit::Lookup&) {}
    void put(const Unit*) {} // written and in SI the quantity says it

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
        put(both.first), put(both.second);
    }
    template <HasFields One>
    void put(const One& one) {
        std::apply([&](const auto&... each) { (put_field(each), ...); }, fields(one));
    }
    template <class Field>
    void put_field(const Field& field) {
        if (!std::binary_search(left_out_.begin(), left_out_.end(), static_cast<const void*>(&field))) put(field);
    }

    LeftOut left_out_;
};

// What a plan may change without meaning something else.
LeftOut who_and_when(const Plan& plan) { return {&plan.author, &plan.revision, &plan.date, &plan.asked, &plan.broken}; }

} // namespace

std::string digest(const Plan& plan) { return digest_of(Teller(plan, who_and_when(plan)).told); }

std::string told_to_the_meter(const Plan& plan) {
    LeftOut texts = who_and_when(plan);
    const auto leave = [&texts](const auto&... fields) { (texts.push_back(&fields), ...); };
    leave(plan.id, plan.title, plan.vehicle, plan.complaint, plan.codes, plan.cautions, plan.notes, plan.questions, plan.verdicts,
          plan.plants);
    for (const Part& part : plan.circuit.parts)
        leave(part.place, part.notes, part.cautions, part.how);
    for (const Wire& wire : plan.circuit.wires)
        leave(wire.notes);
    for (const Check& check : plan.checks)
        leave(check.title, check.cautions, check.notes, check.steps, check.questions, check.time, check.marks);
    return Teller(plan, std::move(texts)).told;
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
