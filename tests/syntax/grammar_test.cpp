// The PEG itself: PEGTL's analysis finds rules that could loop without taking anything.
#include "grammar/tokens.hpp"
#include <doctest/doctest.h>
#include <tao/pegtl/contrib/analyze.hpp>

TEST_CASE("no rule of the grammar can loop without taking a byte") { CHECK(tao::pegtl::analyze<loomsheet::tokens::file>() == 0); }
