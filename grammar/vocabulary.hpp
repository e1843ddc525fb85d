// The vocabularies: every statement and every phrase, one row each; one of plans, one of the templates of the sheet. The parser, the
// spelling help, the messages for phrases that are not finished and the reference pages all read these tables.
//
// A pattern is written as the phrase is: words stand for themselves; CAPITALS for what the author fills in (see Atom); `[ ]`
// may be left out, `( | )` chooses, `+` after an item repeats it (commas may stand between), `*` likewise or not at all.
#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace loomsheet {

// Where a phrase may stand. Every part statement shares one phrase set; what suits the kind is looked at later.
enum class Context : std::uint8_t {
    plan,
    use,
    also,
    colour,
    meter,
    access,
    part,
    wire,
    cable,
    setup,
    item,
    check,
    verdict,
    plant,
    question, // of plans
    line,
    margins,
    sizes,
    fields, // of templates; `line`: the statement is all there is
};
inline constexpr unsigned context_count = static_cast<unsigned>(Context::fields) + 1;
using ContextMask = std::uint32_t;
constexpr ContextMask in(Context context) { return 1U << static_cast<unsigned>(context); }

// What can be filled in.
enum class Atom : std::uint8_t {
    word,      // a fixed word of the pattern
    text,      // TEXT      "in quotes"; a line that is only a text goes on with it
    name,      // NAME      F14, FAN-01
    ref,       // REF       K5.30
    point,     // POINT     X21.1, part M3.1, joint X30.1, K5.30/87, W4, XE1, ground
    pin,       // PIN       30, 87a, B+, a, +
    pins2,     // PINS2     30/87
    pins3,     // PINS3     30/87/87a
    label,     // LABEL     plug-feed
    key,       // KEY       page_of: a name from a table of the program's own
    position,  // POSITION  up, 2
    colour,    // COLOUR    BU/WH, blue/white
    number,    // NUMBER    4
    date,      // DATE      2026-11-24
    map,       // MAP       1=A
    tolerance, // TOLERANCE ±10 mA
    range,     // RANGE     11.5 .. 12.8 V
    quantity,  // VOLT AMP WATT OHM METRE AREA SECOND TEMP KELVIN PERCENT CHARGE RPM, VALUE for any: 12.6 V ±0.3 V
    arrow,     // ->
    colon,     // :
    items,     // ITEMS     a set-up: the rest of the line
};

enum class Form : std::uint8_t {
    // heads
    head_plan,
    head_text,
    head_name,
    head_name_text,
    head_label_text,
    head_colour,
    head_none,
    head_setup,
    // plan
    vehicle,
    complaint,
    with,
    code,
    revision,
    author,
    system,
    caution,
    note,
    allow,
    // all parts
    place,
    behind,
    on_metal,
    on_part,
    bolted,
    in_assembly,
    likely,
    how,
    // values of parts
    volts_when,
    charge,
    inner,
    amps,
    type,
    opens_at,
    resets,
    coil,
    contact,
    suppressor,
    pulls_in,
    drops_out,
    closed_when,
    at_position,
    at_value,
    at_percent,
    sprung,
    pair_value,
    pair,
    stalls_at,
    needs,
    ntc,
    pot,
    hall,
    supply,
    ground,
    draws,
    output,
    gives,
    pull_up,
    input,
    between,
    pins,
    joins,
    bare,
    cavities,
    mates,
    half,
    lock,
    face,
    named,
    map,
    // wire, cable, access, meter
    route,
    area,
    awg,
    colour,
    length,
    rated,
    unfused,
    wire_name,
    twisted,
    minutes,
    accuracy,
    // set-up items
    item_key,
    item_asleep,
    item_engine,
    item_speed,
    item_unplugged,
    item_pulled,
    item_disconnected,
    item_pressed,
    item_on,
    item_found,
    item_value,
    item_position,
    item_moved,
    item_bridge,
    item_load,
    item_one_of,
    item_text,
    item_label,
    // checks
    points,
    through,
    clamp,
    look,
    read,
    expect,
    outcome,
    no_current,
    band,
    answer_outcome,
    time,
    marks,
    exercise,
    question,
    answer,
    steps,
    // verdicts, planted faults, questions
    blames,
    repair,
    after,
    then_plan,
    then,
    fault,
    undo,
    space,
    // templates of the sheet
    sheet,
    paper,
    language,
    shop,
    margins,
    sizes,
    blocks,
    page,
    card,
    fields,
    word,
    margin,
    size,
    field,
};

// Kinds of part that a phrase suits, by the words of their statements, apart by spaces; empty: all.
struct PhraseRow {
    Form form;
    ContextMask where;
    std::string_view pattern;
    std::string_view suits;   // part kinds, for rows of Context::part
    std::string_view example; // whole, as it may be typed
    std::string_view meaning; // one line for the reference page
    bool repeats = false;
};

// Whether a phrase suits a kind of part, by the word of its statement.
bool suits(const PhraseRow& row, std::string_view part_word);
// Lists of words apart by blanks: whether one is among them, and all of them.
bool lists(std::string_view words, std::string_view word);
std::vector<std::string_view> words_in(std::string_view words);

struct StatementRow {
    std::string_view word;
    Context context;
    Form head;
    std::string_view head_pattern;
    std::string_view needs; // phrases it cannot be without, by their first words, for the reference page
    std::string_view example;
    std::string_view meaning;
};

struct Vocabulary {
    std::span<const StatementRow> statements;
    std::span<const PhraseRow> phrases;
    std::span<const std::string_view> taken_labels;  // those that the language keeps for itself
    std::string_view usual;                          // statements to name when nothing is near to what was typed
    int find_statement(std::string_view word) const; // index, or -1
    bool is_taken_label(std::string_view word) const;
};
const Vocabulary& plan_vocabulary();
const Vocabulary& sheet_vocabulary();
// The one to which the phrases of a context belong.
const Vocabulary& vocabulary_of(Context context);

// Those of plans.
std::span<const StatementRow> statements();
std::span<const PhraseRow> phrases();
int find_statement(std::string_view word);
bool is_taken_label(std::string_view word);

// --- patterns made ready for matching ---------------------------------------------------------------------------------
enum class NodeKind : std::uint8_t { item, choice, optional };
struct Node {
    NodeKind kind = NodeKind::item;
    Atom atom = Atom::word;
    std::string_view word;                   // of Atom::word
    std::uint32_t dimensions = 0;            // of Atom::quantity and range: bit per Dimension, all bits for VALUE
    bool repeats = false;                    // + or *
    bool may_be_missing = false;             // *
    std::vector<std::vector<Node>> branches; // choice: one each; optional: one
};
using PhrasePattern = std::vector<Node>;
const PhrasePattern& pattern_of(const PhraseRow& row);
const PhrasePattern& head_of(const StatementRow& row);
// What an atom looks like, for messages: "a voltage such as 12.6 V".
std::string describe(const Node& node);

// Words of the vocabulary within reach of a typing slip of `typed`, the closest first.
std::vector<std::string_view> similar(std::string_view typed, std::span<const std::string_view> candidates);

} // namespace loomsheet
