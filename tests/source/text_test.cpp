#include "source/text.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

TEST_CASE("lines and columns count from 1, columns in code points") {
    const SourceFile file("a.plan", "plan\n\tΩ Ωx\nend");
    CHECK(file.position(0).line == 1);
    CHECK(file.position(0).column == 1);
    const auto x = file.position(static_cast<std::uint32_t>(file.text().find('x')));
    CHECK(x.line == 2);
    CHECK(x.column == 5);
    CHECK(file.position(99).line == 3); // past the end: the end
    CHECK(file.position(99).column == 4);
}

TEST_CASE("a line is given without its end, LF or CRLF, the last one too") {
    const SourceFile file("a.plan", "one\r\ntwo\nthree");
    CHECK(file.line_at(1) == "one");
    CHECK(file.line_at(3) == "one"); // the CR itself
    CHECK(file.line_at(5) == "two");
    CHECK(file.line_begin(7) == 5);
    CHECK(file.line_at(14) == "three");
    CHECK(SourceFile("empty", "").line_at(0).empty());
    CHECK(SourceFile("empty", "").position(0).line == 1);
}

TEST_CASE("a byte order mark is no column") {
    const SourceFile file("a.plan", "\xEF\xBB\xBFplan X\n\xEF\xBB\xBFy");
    CHECK(file.position(3).column == 1);
    CHECK(file.position(8).column == 6);
    CHECK(file.position(static_cast<std::uint32_t>(file.text().find('y'))).column == 2); // only at the start of the file
}

TEST_CASE("texts of spans stay inside the file") {
    Sources sources;
    const auto first = sources.add("a.plan", "fuse F14");
    const std::string_view text = sources[first].text();
    for (int i = 0; i < 100; ++i)
        sources.add("more.plan", "x");
    CHECK(sources[first].text().data() == text.data()); // views into a file outlive later files
    CHECK(sources.text({first, 5, 8}) == "F14");
    CHECK(sources.text({first, 5, 80}) == "F14");
    CHECK(sources.text({first, 50, 80}).empty());
    CHECK(sources.text({first, 5, 2}).empty());
}

TEST_CASE("bad UTF-8 is found at its first byte (RFC 3629)") {
    const std::string ascii(100, 'a');
    CHECK(first_bad_utf8(ascii) == std::string_view::npos);
    CHECK(first_bad_utf8(ascii + "Ω±°→漢😀") == std::string_view::npos);
    CHECK(first_bad_utf8("\xF4\x8F\xBF\xBF") == std::string_view::npos); // U+10FFFF, the last one
    CHECK(first_bad_utf8(ascii + "\xFF") == 100);
    CHECK(first_bad_utf8("Ω\x80") == 2);            // a second byte alone
    CHECK(first_bad_utf8("ab\xCE") == 2);           // cut off
    CHECK(first_bad_utf8("ab\xE2\x84") == 2);       // cut off later
    CHECK(first_bad_utf8("\xC0\xAF") == 0);         // longer than needed
    CHECK(first_bad_utf8("\xE0\x80\xAF") == 0);     // longer than needed
    CHECK(first_bad_utf8("\xF0\x80\x80\xAF") == 0); // longer than needed
    CHECK(first_bad_utf8("\xED\xA0\x80") == 0);     // a surrogate
    CHECK(first_bad_utf8("\xF4\x90\x80\x80") == 0); // above U+10FFFF
    CHECK(first_bad_utf8("caf\xE9 au lait") == 3);  // Latin-1
}
