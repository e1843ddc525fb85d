// Tables with one row a kind. `row_of` is a switch over all kinds without `default`: a kind that has no row does not compile
// (-Wswitch). A number past the last kind has no case and gives a row without a word, at which the table ends.
#pragma once
#include <array>
#include <cstddef>

namespace loomsheet {

template <class Kind, class Row>
constexpr std::size_t count_rows(Row (*row_of)(Kind)) {
    std::size_t count = 0;
    while (!row_of(static_cast<Kind>(count)).word.empty())
        ++count;
    return count;
}

template <class Kind, auto row_of>
constexpr auto all_rows() {
    std::array<decltype(row_of(Kind{})), count_rows(+row_of)> rows{};
    for (std::size_t i = 0; i < rows.size(); ++i)
        rows[i] = row_of(static_cast<Kind>(i));
    return rows;
}

} // namespace loomsheet
