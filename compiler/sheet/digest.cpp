#include "sheet/digest.hpp"
#include "model/fields.hpp"
#include <algorithm>
#include <cstdint>
#include <fmt/format.h>

namespace loomsheet {
namespace {

// Writes what a plan says field by field; every text with its length, so that no two plans write the same. Left out is what a
// plan may change without meaning something else.
class Teller {
public:
    explicit Teller(const Plan& plan) : left_out_{&plan.author, &plan.revision, &plan.date, &plan.asked, &plan.broken} { put(plan); }
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
    void put(const std::pair<First, Second>& both) { put(both.first), put(both.second); }
    template <HasFields One>
    void put(const One& one) {
        std::apply([&](const auto&... each) { (put_field(each), ...); }, fields(one));
    }
    template <class Field>
    void put_field(const Field& field) {
        if (std::find(left_out_.begin(), left_out_.end(), &field) == left_out_.end()) put(field);
    }

    std::vector<const void*> left_out_;
};

} // namespace

std::string digest(const Plan& plan) {
    return digest_of(Teller(plan).told);
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
