// A question with its marks and room to answer, or with its answer.
#pragma once
#include "sheet/layout/context.hpp"

namespace loomsheet {

enum class Told : std::uint8_t { asked, answered };
// From `x` to the right edge, from `top` down; returns where it ends. A question that asks for much room gets a frame,
// as for a sketch.
double question(const Wording& say, Pen& pen, double x, double top, const Question& question, double marks, Told told,
                const std::string& name);
// What its answer is: its words, or its figure.
std::string answer_words(const Wording& say, const Question& question);
std::string marks_words(const Wording& say, double marks); // "2 marks"; empty for none
// Writing lines with a caption; returns where they end.
double writing_lines(Pen& pen, double x, double top, int count, const std::string& name);

} // namespace loomsheet
