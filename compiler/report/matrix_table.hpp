// The matrix of faults and checks, for people: a line for all faults that no check tells apart.
#pragma once
#include "faults/diagnosis.hpp"
#include <string>

namespace loomsheet {

// Faults with the same outcomes at every check, in the order of the faults.
struct Alike {
    std::vector<std::size_t> faults; // places in the matrix
};
std::vector<Alike> alike(const Matrix& matrix);

// One outcome in a cell's three characters: "." pass, "X" fail, "X2" fails at the second row, "L" low, "H" high, "O" open,
// "N" a look's NO, "a" its first answer. With several: "?" where one of them is the pass, "x" where none is; "J" jumps, "j" may jump.
std::string cell_words(const Check& check, OutcomeSet set);
std::string matrix_table(const Plan& plan, const Matrix& matrix);

} // namespace loomsheet
