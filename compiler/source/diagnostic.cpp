#include "source/diagnostic.hpp"
#include "source/catalogue.hpp"
#include <algorithm>
#include <iterator>
#include <tuple>

namespace loomsheet {

namespace {
auto order_of(const Diagnostic& finding) { return std::tie(finding.at.file, finding.at.begin, finding.at.end, finding.code, finding.says); }
} // namespace

Severity severity_of(const Diagnostic& finding) {
    const CatalogueRow* row = find_in_catalogue(finding.code);
    return row ? row->severity : Severity::error;
}

void Findings::add(Findings other) {
    list_.insert(list_.end(), std::make_move_iterator(other.list_.begin()), std::make_move_iterator(other.list_.end()));
}

void Findings::sort() {
    std::stable_sort(list_.begin(), list_.end(), [](const Diagnostic& a, const Diagnostic& b) { return order_of(a) < order_of(b); });
    const auto last =
        std::unique(list_.begin(), list_.end(), [](const Diagnostic& a, const Diagnostic& b) { return order_of(a) == order_of(b); });
    list_.erase(last, list_.end());
}

std::size_t Findings::count(Severity severity) const {
    return static_cast<std::size_t>(
        std::count_if(list_.begin(), list_.end(), [&](const Diagnostic& finding) { return severity_of(finding) == severity; }));
}

} // namespace loomsheet
