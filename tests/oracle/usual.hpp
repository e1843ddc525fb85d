// The values of sound cars as the program prints them, and how one car's are drawn from them.
#pragma once
#include "oracle/plan.hpp"
#include <random>

namespace oracle {

struct Range {
    double low = 0, usual = 0, high = 0;
    Range times(double factor) const { return {low * factor, usual * factor, high * factor}; }
    Range plus(double more) const { return {low + more, usual + more, high + more}; }
};
inline Range exactly(double value) { return {value, value, value}; }

enum class Manner { usual, corner, uniform, triangular };

// Draws the values of one car.
class Dice {
public:
    Dice(std::uint64_t seed, Manner manner) : engine_(seed), manner_(manner) {}
    double operator()(const Range& range);
    double between(double low, double high); // uniform, whatever the manner
    double log_between(double low, double high);
    std::uint64_t number(std::uint64_t below);
    bool usual() const { return manner_ == Manner::usual; }

private:
    std::mt19937_64 engine_;
    Manner manner_;
};

// The table of usual values, by the words of the reference page.
class Usual {
public:
    explicit Usual(const Json& table);
    // Rows in "%", "mohm", "mA", "Mohm" in the base unit. "times" and "plus" as they are.
    const Range& operator[](const std::string& what) const;
    // What is written: with its ±, else times the row.
    Range written(const Quantity& value, const std::string& row) const;

private:
    std::map<std::string, Range> rows_;
};

} // namespace oracle
