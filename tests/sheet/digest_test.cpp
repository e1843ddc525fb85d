#include "sheet/digest.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

// 64 bit FNV-1a of "" is cbf29ce484222325, of "a" af63dc4c8601ec8c, of "foobar" 85944171f73967e8 (test vectors of the
// FNV draft, from memory); the two halves are folded by exclusive or.
TEST_CASE("the digest is FNV-1a, folded") {
    CHECK(digest_of("") == "4FD0BFC1");
    CHECK(digest_of("a") == "296230C0");
    CHECK(digest_of("foobar") == "72AD2699");
}
