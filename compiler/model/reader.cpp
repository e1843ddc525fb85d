#include "model/reader.hpp"
#include <charconv>
#include <cmath>
#include <limits>

namespace loomsheet {

double to_number(std::string_view digits) {
    std::string plain(digits);
    if (!plain.empty() && plain[0] == '+') plain.erase(0, 1);
    if (const auto comma = plain.find(','); comma != std::string::npos) plain[comma] = '.'; // already found as LS111
    double value = 0;
    const auto read = std::from_chars(plain.data(), plain.data() + plain.size(), value);
    return read.ec == std::errc::result_out_of_range ? std::numeric_limits<double>::infinity() : value;
}

bool Reader::word(std::string_view wanted) {
    if (!is(Atom::word) || token_text(arg().first) != wanted) return false;
    ++at_;
    return true;
}

std::string_view Reader::any_word() { return is(Atom::word) ? token_text(tree_->args[at_++].first) : std::string_view{}; }

void Reader::skip_words() {
    while (is(Atom::word) || is(Atom::colon) || is(Atom::arrow))
        ++at_;
}

void Reader::skip_words_of(Atom atom, std::string_view wanted) {
    if (is(atom) && (wanted.empty() || token_text(arg().first) == wanted)) ++at_;
}

Span Reader::take() {
    const Arg& taken = tree_->args[at_++];
    return tree_->span(taken.first, taken.count);
}

std::string Reader::text() {
    const Arg& taken = tree_->args[at_++];
    std::string all;
    for (auto i = taken.first; i < taken.first + taken.count; ++i) {
        auto quoted = token_text(i);
        quoted.remove_prefix(1);
        if (quoted.ends_with('"')) quoted.remove_suffix(1);
        if (!all.empty() && !quoted.empty()) all += ' ';
        all += quoted;
    }
    return all;
}

double Reader::number() { return to_number(take_text()); }

Quantity Reader::plain(std::uint32_t number, std::uint32_t unit) const {
    Quantity made;
    made.unit = find_unit(token_text(unit));
    made.si = to_number(token_text(number)) * made.unit->factor;
    made.written = std::string(token_text(number));
    if (made.written[0] == '-') made.written.replace(0, 1, "\u2212");
    made.written += made.unit->dimension == Dimension::percent ? " %" : " " + std::string(made.unit->printed);
    made.at = {tree_->file, tree_->tokens[number].begin, tree_->tokens[unit].end()};
    return made;
}

Quantity Reader::quantity() {
    while (!is(Atom::quantity) && !is(Atom::tolerance))
        ++at_;
    const Arg& taken = tree_->args[at_++];
    const auto first = taken.first + (taken.atom == Atom::tolerance ? 1 : 0);
    Quantity made = plain(first, first + 1);
    if (taken.count == 5) { // number unit ± number unit
        const Quantity tolerance = plain(first + 3, first + 4);
        made.plus_minus = tolerance.unit->dimension == Dimension::percent ? tolerance.si * std::abs(made.si) : tolerance.si;
        made.written += " ±" + tolerance.written;
    }
    made.at = tree_->span(taken.first, taken.count);
    return made;
}

void Reader::range(Quantity& low, Quantity& high) {
    const Arg& taken = tree_->args[at_++];
    const auto last = taken.first + taken.count - 1;
    high = plain(last - 1, last);
    low = taken.count == 4 ? plain(taken.first, last) : plain(taken.first, taken.first + 1);
    low.at = high.at = tree_->span(taken.first, taken.count);
}

Span Reader::rest() const {
    const Arg& first = tree_->args[at_];
    const Arg& last = tree_->args[end_ - 1];
    return {tree_->file, tree_->tokens[first.first].begin, tree_->tokens[last.first + last.count - 1].end()};
}

} // namespace loomsheet
