// Layouts share nothing: what is drawn beside another sheet is what is drawn alone, and the thread sanitizer, with
// which this suite is built, sees no two of them at one place.
#include "sheet/printed.hpp"
#include <doctest/doctest.h>
#include <latch>
#include <thread>

using namespace loomsheet;

namespace {

struct Order {
    SheetTemplate sheet;
    Paper paper;
};

Order ordered(const std::string& sheet, const std::string& language, Paper paper, const TypeSizes& sizes) {
    Order order{printed::shipped(sheet, language), paper};
    order.sheet.sizes = sizes;
    return order;
}

std::string drawn(const Order& order) {
    static const printed::Proved& fan = printed::proved("plans/cooling/fan.plan");
    return page::dump(printed::sheet_of(fan, order.paper, order.sheet).document);
}

} // namespace

TEST_CASE("two sheets laid out at once, of other paper, language and type sizes, have the bytes of each alone") {
    const std::pair<Order, Order> pairs[] = {
        {ordered("workshop", "english", Paper::a4, usual_sizes), ordered("pocket", "german", Paper::a5, most_sizes)},
        {ordered("proof", "spanish", Paper::letter, least_sizes), ordered("answer", "german", Paper::a4, usual_sizes)}};
    for (const auto& [one, other] : pairs) {
        const std::string alone = drawn(one), other_alone = drawn(other);
        CHECK((alone != other_alone));
        std::string beside, other_beside;
        std::latch both(2);
        std::thread second([&] {
            both.arrive_and_wait();
            other_beside = drawn(other);
        });
        both.arrive_and_wait();
        beside = drawn(one);
        second.join();
        CHECK((beside == alone)); // in brackets: too long to be printed
        CHECK((other_beside == other_alone));
    }
}
