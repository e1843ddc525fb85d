// Every word that a sheet prints, in one table. Texts may have places for names and figures: "page {} of {}".
#pragma once
#include <cstdint>
#include <fmt/format.h>
#include <string>
#include <string_view>

namespace loomsheet {

enum class Word : std::uint16_t {
    // head and foot
    sheet_kind, job_number, revision, revision_of, no_revision, revision_and_digest, of_pages, page_of, strip_done,
    strip_way, outline_check, dot, minutes,
    // the job
    system_of, code, one_check, check_count, written_by, registration, vehicle, odometer, technician, date, started,
    finished, complaint, shows_with, customers_words, notes,
    // cautions
    cautions, caution_of_part, moving_lead, moving_text, hot_lead, hot_text, raised_lead, raised_text, battery_lead,
    battery_text, short_lead, short_text, ohms_lead, ohms_text, high_voltage_lead, high_voltage_text, maker_lead,
    maker_text, caution_crank, caution_engine, caution_bridge, caution_module, caution,
    // tools
    tools, tools_note, multimeter, multimeter_fine, within_figure, meter_battery, clamp_tool, test_lamp_tool,
    lamp_tool, load_tool, bridge_tool, bridge_tool_plain, back_probe_tool, test_pin_tool, long_lead_tool,
    tester_tool, thermometer_tool, panel_tool, stands_tool, helper_tool,
    // parts and places
    parts, part_column, place_column, panel_column, pins_column, at_volts, coil_of, ntc_of, fuse_type, pin_count,
    plugs_on, mates, inside,
    // set-up ticks
    coming_from, the_start, after_repair, nothing_changes, whole_setup, all_connected, at_rest, nothing, key_at,
    held, was_on, was_out, was_off, was_set, was_running, asleep, asleep_how, awake, engine_running, engine_at,
    engine_off, unplugged, plugged, lock_clicks, pulled, fitted, disconnected, connected, disconnected_how,
    at_position, pressed, let_go, outputs_of, as_it_was, called, released, as_found, as_found_blank, moved,
    moved_how, bridge, bridge_how, bridge_unfused, bridge_off, from_points, lamp_on, lamp_off, load_on, load_off,
    across_points, across_the_points, one_of, one_of_how, for_time, no_longer, panel_off, panel_on, state_key,
    state_asleep, state_engine, state_engine_at, state_unplugged, state_pulled, state_disconnected, state_at,
    state_pressed, state_called, state_as_found, state_moved, state_bridge, state_lamp, state_load, state_one_of,
    state_panel,
    // where the tips go
    red, black, tip, clip, look, read, clamp_pill, in_line, body, bare_metal, of_the_body, of_the_body_near,
    the_body, wire_side, from_front, plugged_in, plug_off, empty_socket, in_place, taken_out, blade, own_pin,
    bare_case, post, clamp, not_the_post, not_the_clamp, bolt, cable_end, around_wire, around_all, in_its_place,
    part_in_state, and_wire, harness_half, named_half, view_wire_side, view_mating_face, lock_place,
    // dial and readings
    on_range, range_down, beeper, clamp_meter, clamp_zero, test_lamp, own_gauge, no_meter, reading, seen, heard,
    current, leads_together, helper,
    // outcomes
    range, range_two_units, or_less, or_more, below, above, below_or_above, lower, higher, outside, anything_else,
    open, not_open, or_open, no_current, yes, no, lights, stays_dark, beeps, silent, that_or_more, less_than_that,
    between_the_two, row_and_limit, every_row_within, in_every_row, in_any_row, any_row_not, any_other_row, to,
    limit_not_written, reading_number, reading_number_row, minus_equals, plus_equals, name_and_page, done, done_name,
    stop, stop_name, stop_between, jumps, if_it_fails, and_more, note, from_to, contact_at,
    // verdicts and closing
    verdict, verdict_note, proof, go_on, go_on_plan, blames, blames_nothing, readings, readings_note, work_done,
    putting_back, putting_back_note, codes_cleared, back_key, back_engine, back_plugged, back_fitted,
    back_fitted_rated, back_connected, back_called, back_value, back_bridge, back_lamp, back_load, tools_counted,
    sign_off, checked_by,
};

// The text as it stands in the table.
std::string_view text_of(Word word);

// With its places filled, in order.
template <class... Parts> std::string say(Word word, const Parts&... parts) {
    return fmt::format(fmt::runtime(text_of(word)), parts...);
}

} // namespace loomsheet
