#include "model/kinds/element_kinds.hpp"
#include "grammar/rows.hpp"

namespace loomsheet {

namespace {
constexpr ElementRow element_row(ElementKind kind) {
    switch (kind) {
    case ElementKind::source: return {"source"};
    case ElementKind::link: return {"link"};
    case ElementKind::coil: return {"coil", thing::winding};
    case ElementKind::contact: return {"contact", thing::contact};
    case ElementKind::load: return {"load", thing::winding};
    case ElementKind::resistor: return {"resistor", thing::winding};
    case ElementKind::diode: return {"diode", thing::diode};
    case ElementKind::ntc: return {"ntc", thing::winding};
    case ElementKind::pot: return {"pot", thing::winding};
    case ElementKind::hall: return {"hall", thing::diode};
    case ElementKind::module_output: return {"output", thing::driver, true};
    case ElementKind::module_gives: return {"gives", thing::input, true};
    case ElementKind::pull_up: return {"pull-up", thing::input, true};
    case ElementKind::input: return {"input", thing::input, true};
    case ElementKind::between: return {"between", thing::winding};
    }
    return {};
}
constexpr auto element_rows = all_rows<ElementKind, element_row>();
} // namespace

const ElementRow& row_of(ElementKind kind) { return element_rows[static_cast<std::size_t>(kind)]; }

} // namespace loomsheet
