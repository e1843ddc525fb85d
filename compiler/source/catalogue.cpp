#include "source/catalogue.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <utility>

namespace loomsheet {

extern const std::pair<std::string_view, std::string_view> finding_pages[]; // written by grammar/embed.cmake
extern const unsigned long finding_pages_count;

namespace {
constexpr auto error = Severity::error;
constexpr auto warning = Severity::warning;
constexpr auto note = Severity::note;

constexpr CatalogueRow rows[] = {
    // files and bytes
    {finding::not_utf8, error, "not UTF-8 text"},
    {finding::control_character, error, "a control character in the text"},
    {finding::line_too_long, error, "a line too long to read"},
    {finding::used_file_unreadable, error, "a used file cannot be read"},
    {finding::file_uses_itself, error, "a file uses itself"},
    {finding::no_plan, error, "no plan in the file"},
    // form
    {finding::not_a_statement, error, "not a statement"},
    {finding::not_its_phrase, error, "a phrase that this statement does not have"},
    {finding::phrase_not_finished, error, "a phrase that is not finished"},
    {finding::quote_not_closed, error, "a text without its closing quote"},
    {finding::misplaced_character, error, "a character that has no place here"},
    {finding::indented_without_statement, error, "an indented line with no statement above"},
    {finding::statement_without_name, error, "a statement without its name"},
    {finding::unknown_unit, error, "an unknown unit"},
    {finding::number_without_unit, error, "a number without its unit"},
    {finding::phrase_given_twice, error, "a phrase given twice"},
    {finding::decimal_comma, error, "a decimal comma"},
    {finding::phrase_of_another_kind, error, "a phrase that does not suit this kind of part"},
    {finding::second_plan_head, error, "a second plan head"},
    {finding::lacks_what_it_needs, error, "a statement that lacks what it needs"},
    {finding::reserved_word, error, "a word of the language used as a label"},
    // names and values
    {finding::unknown_name, error, "an unknown name"},
    {finding::declared_twice, error, "declared twice"},
    {finding::wrong_kind_of_thing, error, "the wrong kind of thing"},
    {finding::unknown_pin, error, "an unknown pin"},
    {finding::pin_inside_assembly, error, "a pin inside an assembly"},
    {finding::unit_does_not_fit, error, "a unit that does not fit"},
    {finding::out_of_physical_reach, error, "a value out of physical reach"},
    {finding::unknown_colour, error, "an unknown colour"},
    {finding::joined_colour_code, error, "a joined colour code"},
    {finding::unknown_position, error, "an unknown switch position"},
    {finding::unknown_label, error, "an unknown label"},
    {finding::no_trouble_code, error, "a trouble code that is none"},
    {finding::cavities_do_not_add_up, error, "cavities that do not add up"},
    {finding::never_used, warning, "declared but never used"},
    // flow
    {finding::check_not_reached, error, "a check that cannot be reached"},
    {finding::verdict_not_reached, error, "a verdict that cannot be reached"},
    {finding::circle_of_checks, error, "a circle of checks"},
    {finding::outcome_leads_nowhere, error, "an outcome that leads nowhere"},
    {finding::plan_without_end, error, "a plan without an end"},
    {finding::bands_overlap_or_gap, error, "bands that overlap or leave a gap"},
    {finding::impossible_outcome, error, "an outcome that this check cannot have"},
    {finding::check_without_limit, error, "a check without its limit"},
    {finding::reading_not_yet_taken, error, "a limit against a reading not yet taken"},
    {finding::look_proves_nothing, warning, "a look that proves nothing"},
    {finding::check_decides_nothing, warning, "a check that decides nothing"},
    {finding::allowance_not_needed, warning, "an allowance that is not needed"},
    {finding::repair_never_proved, warning, "a repair that is never proved"},
    {finding::outcome_given_twice, error, "an outcome given twice"},
    // wiring
    {finding::missing_ground, error, "missing ground"},
    {finding::no_way_to_supply, error, "no way to a supply"},
    {finding::pin_not_wired, warning, "a pin that nobody wires"},
    {finding::two_wires_in_cavity, warning, "two wires in one cavity"},
    {finding::mates_do_not_match, error, "mated halves that do not match"},
    {finding::supply_joined_to_ground, error, "supply joined to ground with no load"},
    {finding::path_without_fuse, warning, "a path from the battery with no fuse"},
    {finding::fuse_too_large_for_wire, warning, "a fuse larger than its wire may carry"},
    {finding::load_close_to_fuse, warning, "a load close to its fuse"},
    {finding::wire_goes_nowhere, error, "a wire that goes nowhere"},
    // set-up and measuring
    {finding::label_is_no_setup, error, "a label that is no set-up"},
    {finding::nothing_to_unplug, error, "unplugging what has no plug"},
    {finding::probing_what_is_hidden, error, "probing what the set-up hides"},
    {finding::wrong_half_of_pair, error, "the wrong half of an in-line pair"},
    {finding::ohms_with_supply, error, "ohms with a supply connected"},
    {finding::bridge_joins_supply_to_ground, error, "a bridge that joins supply to ground"},
    {finding::points_are_same_joint, error, "two points that are the same joint"},
    {finding::unknown_panel, error, "an access panel nobody declared"},
    {finding::setup_contradicts_itself, error, "a set-up that contradicts itself"},
    {finding::bridge_without_fuse, warning, "a bridge without a fuse"},
    {finding::load_across_nothing, error, "a load with nothing to lie across"},
    {finding::drop_across_load, error, "a drop across a load"},
    // readings
    {finding::sound_car_may_miss_limits, warning, "limits that a sound car can miss"},
    {finding::no_sound_car_meets_limits, error, "limits that no sound car meets"},
    {finding::limits_miss_nothing, warning, "limits that nothing can miss"},
    {finding::meter_cannot_resolve, warning, "limits that the meter cannot resolve"},
    {finding::points_float, error, "a reading between points that float"},
    {finding::ohms_where_current_flows, error, "ohms where current flows already"},
    {finding::ohms_across_diode, warning, "coil ohms across a diode, the wrong way"},
    {finding::cold_filament, warning, "a cold filament held against a hot one"},
    {finding::more_amperes_than_meter_carries, error, "more amperes than the meter carries"},
    {finding::meter_changes_reading, warning, "a meter in line that changes what it reads"},
    {finding::way_round_part, warning, "a way round the part that is measured"},
    {finding::drop_where_nothing_flows, error, "a drop where nothing flows"},
    {finding::ground_drop_not_seen, warning, "a ground whose own drop is not seen"},
    {finding::relay_in_doubt, warning, "a relay that may or may not pull in"},
    {finding::circuit_chatters, error, "a circuit that chatters"},
    {finding::depends_on_before, error, "a reading that hangs on what was before"},
    {finding::wire_loses_too_much, warning, "a wire that loses too much"},
    {finding::fuse_blows_in_use, error, "a fuse that blows in normal use"},
    {finding::beyond_what_is_computed, warning, "a reading beyond what is computed"},
    {finding::limit_not_computed, error, "a check whose limit cannot be computed"},
    {finding::reading_below_zero, warning, "a reading below zero"},
    // what the plan proves
    {finding::verdict_does_not_name_all, warning, "a verdict that does not name all that fits"},
    {finding::verdict_blames_cleared, warning, "a verdict that blames what is cleared"},
    {finding::outcome_never_had, warning, "an outcome that nothing can have"},
    {finding::check_finds_nothing, warning, "a check that can find nothing"},
    {finding::verdict_without_cars, warning, "a verdict at which nothing ends"},
    {finding::planted_fault_not_found, warning, "a planted fault that is not found"},
    {finding::new_fuse_on_short, warning, "a new fuse on a short"},
    {finding::gap_in_plan, warning, "a gap in the plan"},
    {finding::check_passes_what_harms, warning, "a check that passes what harms"},
    {finding::complaint_of_sound_car, error, "a complaint that a sound car has"},
    {finding::fault_changes_nothing, warning, "a fault that changes nothing"},
    // the sheet
    {finding::character_without_typeface, error, "a character that no typeface has"},
    {finding::too_wide_for_place, error, "a text too wide for its place"},
    // its templates and words
    {finding::not_for_this_file, error, "a statement that has no place in this file"},
    {finding::unknown_to_templates, error, "a name that no template knows"},
    {finding::twice_in_template, error, "the same thing twice in a template"},
    {finding::word_without_text, error, "a word without its text"},
    {finding::word_with_wrong_places, error, "a word with the wrong places"},
    {finding::type_size_out_of_bounds, error, "a type size out of bounds"},
    {finding::margins_do_not_do, error, "margins that do not do"},
    {finding::fields_do_not_fit, error, "fields that do not fit"},
    {finding::template_prints_nothing, error, "a template that prints nothing"},
    // no meaning yet
    {finding::question_without_marks, note, "a question without marks among others that have them"},
};
} // namespace

std::span<const CatalogueRow> catalogue() { return rows; }

const CatalogueRow* find_in_catalogue(int code) {
    const auto at =
        std::lower_bound(std::begin(rows), std::end(rows), code, [](const CatalogueRow& row, int wanted) { return row.code < wanted; });
    return at != std::end(rows) && at->code == code ? at : nullptr;
}

std::string code_name(int code) { return fmt::format("LS{:03}", code); }

std::string_view finding_page(int code) {
    const std::string name = code_name(code) + ".md";
    for (unsigned long i = 0; i < finding_pages_count; ++i)
        if (finding_pages[i].first == name) return finding_pages[i].second;
    return {};
}

} // namespace loomsheet
