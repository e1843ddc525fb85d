// What a plug is: its cavities, its marks, and what it sits on.
#include "model/builder.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

bool Builder::connector_phrase(Part& owner, Form form, Reader& read) {
    switch (form) {
    case Form::cavities: cavities(read); return true;
    case Form::on_part: plugs_on(owner, read); return true;
    case Form::mates: return true; // read with the names
    case Form::half: halves(owner, read); return true;
    case Form::lock:
        read.skip_words();
        owner.lock = read.text();
        if (owner.twin != none) part(owner.twin).lock = owner.lock;
        return true;
    case Form::face: face(owner, read); return true;
    case Form::named:
    case Form::map: cavity_marks(owner, form, read); return true;
    default: return false;
    }
}

void Builder::cavities(Reader& read) {
    const Span at = read.take();
    const double count = to_number(text(at));
    if (count < 1 || count > 400 || count != static_cast<int>(count))
        findings_.add(finding::out_of_physical_reach, at, fmt::format("a connector with {} pins is not possible", text(at)),
                      "1 to 400 pins");
}

void Builder::plugs_on(Part& owner, Reader& read) {
    read.skip_words();
    const Span at = read.take();
    if (owner.twin != none) {
        findings_.add(finding::wrong_kind_of_thing, at,
                      fmt::format("{} has another half, {}, and cannot sit on `{}` too", owner.id, part(owner.twin).id, text(at)),
                      "keep `on` or `mates`");
    } else if (const PartId to = find_part(at); to != none) {
        const PartKind kind = part(to).kind;
        if (row_of(kind).takes_plug)
            owner.plugs_on = to;
        else
            findings_.add(finding::wrong_kind_of_thing, at, fmt::format("`{}` is {}; a plug sits on a part", text(at), a_kind(kind)),
                          "an in-line pair is written `mates`");
    }
}

void Builder::halves(Part& owner, Reader& read) {
    if (owner.twin == none) {
        findings_.add(finding::wrong_kind_of_thing, read.rest(), fmt::format("{} is no in-line pair, so it has no halves", owner.id),
                      "an in-line pair is written `mates`");
        return;
    }
    read.skip_words();
    owner.half = read.text();
    part(owner.twin).half = read.text();
}

void Builder::face(Part& owner, Reader& read) {
    read.skip_words();
    const Span rows = read.take();
    owner.face_rows = static_cast<int>(std::clamp(to_number(text(rows)), 0.0, 1000.0));
    read.skip_words();
    const Span columns = read.take();
    owner.face_columns = static_cast<int>(std::clamp(to_number(text(columns)), 0.0, 1000.0));
    if (owner.cavities > 0 && owner.face_rows * owner.face_columns < owner.cavities)
        findings_.add(finding::cavities_do_not_add_up, {rows.file, rows.begin, columns.end},
                      fmt::format("{} has {} pins, but {} rows of {} make {}", owner.id, owner.cavities, owner.face_rows,
                                  owner.face_columns, owner.face_rows * owner.face_columns),
                      "rows times columns are at least the pins");
    if (owner.twin == none) return;
    part(owner.twin).face_rows = owner.face_rows, part(owner.twin).face_columns = owner.face_columns;
}

// `named 1=L` and `map 1=A`: a mark of the cavity, or the pin that it meets.
void Builder::cavity_marks(Part& owner, Form form, Reader& read) {
    const auto id = static_cast<PartId>(&owner - circuit_.parts.data());
    read.skip_words();
    while (!read.done()) {
        const auto first = read.arg().first; // cavity = pin
        const Span cavity_at = read.tree().span(first, 1), to_at = read.tree().span(first + 2, 1);
        read.take();
        const std::string cavity(text(cavity_at)), to(text(to_at));
        const PinId found = find_pin(id, cavity, cavity_at);
        if (found == none) continue;
        if (form == Form::map) {
            owner.map.emplace_back(cavity, to);
            mapped_.emplace_back(id, to_at);
            continue;
        }
        pin(found).mark = to;
        if (owner.twin == none) continue;
        for (const PinId p : part(owner.twin).pins)
            if (pin(p).name == cavity) pin(p).mark = to;
    }
}

} // namespace loomsheet
