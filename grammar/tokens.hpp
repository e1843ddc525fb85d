// The words, names, numbers and lines of the language as a PEG: one rule a line. Every input matches: what has no place is a
// token of its own kind (`stray`, `open_text`, ...), and the parser says so at its place. Only compiler/syntax/scan.cpp
// includes this file.
#pragma once
#include <tao/pegtl.hpp>

namespace loomsheet::tokens {

namespace p = tao::pegtl;

// --- letters (bytes: everything above ASCII counts as a letter, but for ±, the no-break space, and the quotes, dashes and
// arrows of U+2000 to U+203F, U+2190 to U+21BF, U+2200 to U+223F) --------------------------------------------------------
struct high : p::range<'\x80', '\xff'> {};
struct plus_minus_sign : p::string<'\xC2', '\xB1'> {};
struct no_break_space : p::string<'\xC2', '\xA0'> {};
struct printers_sign : p::seq<p::one<'\xE2'>, p::one<'\x80', '\x86', '\x88'>> {};
struct foreign : p::seq<p::not_at<p::sor<plus_minus_sign, no_break_space, printers_sign>>, high> {};
struct dash : p::seq<p::one<'-'>, p::not_at<p::one<'>'>>> {};
struct plain : p::sor<p::alnum, p::one<'_'>> {};
struct letter : p::sor<plain, dash, foreign> {};

// --- pins: 30, 87a, A, NC, B+, a, + -------------------------------------------------------------------------------------
struct sign : p::sor<p::one<'+'>, dash> {};
struct number_pin : p::seq<p::plus<p::digit>, p::star<p::alpha>> {};
struct capital_pin : p::seq<p::upper, p::star<p::alnum>, p::opt<sign>> {};
struct small_pin : p::seq<p::lower, p::not_at<p::alnum>> {};
struct pin : p::sor<number_pin, capital_pin, small_pin, sign> {};
struct more_pins : p::plus<p::one<'/'>, pin> {};

// --- what starts with a capital: F14, K5.30/87, BU/WH, BU/wh --------------------------------------------------------------------
struct after_dot : p::seq<p::one<'.'>, p::not_at<p::one<'.'>>, p::opt<pin, p::opt<more_pins>>> {};
struct pins_tail : p::seq<more_pins, p::not_at<letter>> {};
struct polarity : p::seq<sign, p::not_at<letter>> {};
struct words_tail : p::seq<p::one<'/'>, p::plus<letter>> {};
struct named : p::seq<p::upper, p::star<letter>, p::opt<p::sor<after_dot, pins_tail, words_tail, polarity>>> {};

// --- what starts with a digit: 12.6, 30/87, 87a, 2026-11-24, 0,5 ---------------------------------------------------------
struct date_tail : p::seq<p::one<'-'>, p::rep_min_max<1, 2, p::digit>, p::one<'-'>, p::rep_min_max<1, 2, p::digit>, p::not_at<letter>> {};
struct fraction : p::seq<p::one<'.'>, p::plus<p::digit>, p::not_at<letter>> {};
struct decimal_comma : p::seq<p::one<','>, p::plus<p::digit>, p::not_at<letter>> {};
struct pin_letters : p::seq<p::plus<letter>, p::opt<pins_tail>> {};
struct dot_letters : p::seq<p::one<'.'>, p::not_at<p::one<'.'>>, p::plus<p::sor<letter, p::one<'.'>>>> {};
struct number_tail : p::sor<fraction, pins_tail, date_tail, decimal_comma, pin_letters, dot_letters> {};
struct digits : p::seq<p::plus<p::digit>, p::opt<number_tail>> {};
struct signed_number : p::seq<sign, p::at<p::digit>, p::plus<p::digit>, p::opt<p::one<'.'>, p::plus<p::digit>>> {};

// --- what starts with a small letter or none of ours: volts, plug-feed, blue/white, °C, %, Ω -----------------------------
struct word : p::seq<p::sor<p::lower, foreign, p::one<'%', '_'>>, p::star<letter>, p::opt<words_tail>> {};

// --- signs ------------------------------------------------------------------------------------------------------------------
struct arrow : p::string<'-', '>'> {};
struct range : p::two<'.'> {};
struct plus_minus : p::sor<plus_minus_sign, p::string<'+', '-'>> {};
struct colon : p::one<':'> {};
struct equals : p::one<'='> {};
struct comma : p::one<','> {};
struct lone_sign : sign {};

// --- texts and comments ----------------------------------------------------------------------------------------------------
struct line_end : p::sor<p::one<'\n'>, p::seq<p::one<'\r'>, p::one<'\n'>>> {};
struct rest_of_line : p::star<p::not_one<'\n', '\r', '"'>> {};
struct text : p::seq<p::one<'"'>, rest_of_line, p::one<'"'>> {};
struct open_text : p::seq<p::one<'"'>, rest_of_line> {};
struct comment : p::seq<p::one<'#'>, p::star<p::not_one<'\n', '\r'>>> {};

// --- lines -----------------------------------------------------------------------------------------------------------------
struct blank : p::sor<p::one<' ', '\t'>, no_break_space> {};
struct stray : p::seq<p::not_at<line_end>, p::any, p::star<p::range<'\x80', '\xBF'>>> {};
struct item : p::sor<comma, named, word, digits, text, arrow, plus_minus, signed_number, range, colon, equals, lone_sign, comment,
                     open_text, stray> {};
struct margin : p::success {};
struct empty_line : p::seq<p::star<blank>, line_end> {};
struct full_line : p::seq<margin, p::plus<p::sor<blank, item>>, p::sor<line_end, p::eof>> {};
struct line : p::sor<empty_line, full_line> {};
struct file : p::until<p::eof, line> {};

} // namespace loomsheet::tokens
