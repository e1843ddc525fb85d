// By hand only: test_pdf --no-skip -tc="speed*"
#include "help.hpp"
#include <algorithm>
#include <chrono>
#include <doctest/doctest.h>
#include <limits>

using namespace loomsheet;

TEST_CASE("speed and size of a dense document" * doctest::skip()) {
    const page::Document document = help::dense_document();
    using Clock = std::chrono::steady_clock;
    const auto milliseconds = [](Clock::time_point from) {
        return std::chrono::duration<double, std::milli>(Clock::now() - from).count();
    };
    double load = std::numeric_limits<double>::max(), write = load;
    std::size_t size = 0;
    for (int i = 0; i < 50; ++i) {
        const auto begin = Clock::now();
        std::string error;
        const auto faces = Faces::load(error);
        load = std::min(load, milliseconds(begin));
        REQUIRE(faces);
        const auto loaded = Clock::now();
        size = write_pdf(document, *faces).bytes.size();
        write = std::min(write, milliseconds(loaded));
    }
    MESSAGE("4 pages, the best of 50: faces " << load << " ms, PDF " << write << " ms, " << size << " bytes");
    CHECK(size < 60000);
}
