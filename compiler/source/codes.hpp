// The findings by name. Their family is the hundred of their code: 301 is printed as LS301.
#pragma once

namespace loomsheet::finding {

enum Code : int {
    // files and bytes
    not_utf8 = 1,
    control_character = 2,
    line_too_long = 3,
    used_file_unreadable = 4,
    file_uses_itself = 5,
    no_plan = 6,

    // form
    not_a_statement = 101,
    not_its_phrase = 102,
    phrase_not_finished = 103,
    quote_not_closed = 104,
    misplaced_character = 105,
    indented_without_statement = 106,
    statement_without_name = 107,
    unknown_unit = 108,
    number_without_unit = 109,
    phrase_given_twice = 110,
    decimal_comma = 111,
    phrase_of_another_kind = 112,
    second_plan_head = 113,
    lacks_what_it_needs = 114,
    reserved_word = 115,

    // names and values
    unknown_name = 201,
    declared_twice = 202,
    wrong_kind_of_thing = 203,
    unknown_pin = 204,
    pin_inside_assembly = 205,
    unit_does_not_fit = 206,
    out_of_physical_reach = 207,
    unknown_colour = 208,
    joined_colour_code = 209,
    unknown_position = 210,
    unknown_label = 211,
    no_trouble_code = 212,
    cavities_do_not_add_up = 213,
    never_used = 214,

    // flow of the plan
    check_not_reached = 301,
    verdict_not_reached = 302,
    circle_of_checks = 303,
    outcome_leads_nowhere = 304,
    plan_without_end = 305,
    bands_overlap_or_gap = 306,
    impossible_outcome = 307,
    check_without_limit = 308,
    reading_not_yet_taken = 309,
    look_proves_nothing = 310,
    check_decides_nothing = 311,
    allowance_not_needed = 312,
    repair_never_proved = 313,
    outcome_given_twice = 314,

    // wiring
    missing_ground = 401,
    no_way_to_supply = 402,
    pin_not_wired = 403,
    two_wires_in_cavity = 404,
    mates_do_not_match = 405,
    supply_joined_to_ground = 406,
    path_without_fuse = 407,
    fuse_too_large_for_wire = 408,
    load_close_to_fuse = 409,
    wire_goes_nowhere = 410,

    // set-up and measuring
    label_is_no_setup = 501,
    nothing_to_unplug = 502,
    probing_what_is_hidden = 503,
    wrong_half_of_pair = 504,
    ohms_with_supply = 505,
    bridge_joins_supply_to_ground = 506,
    points_are_same_joint = 507,
    unknown_panel = 508,
    setup_contradicts_itself = 509,
    bridge_without_fuse = 511,
    load_across_nothing = 512,
    drop_across_load = 513,

    // readings
    sound_car_may_miss_limits = 601,
    no_sound_car_meets_limits = 602,
    limits_miss_nothing = 603,
    meter_cannot_resolve = 604,
    points_float = 605,
    ohms_where_current_flows = 606,
    ohms_across_diode = 607,
    cold_filament = 608,
    more_amperes_than_meter_carries = 609,
    meter_changes_reading = 610,
    way_round_part = 611,
    drop_where_nothing_flows = 612,
    ground_drop_not_seen = 613,
    relay_in_doubt = 614,
    circuit_chatters = 615,
    depends_on_before = 616,
    wire_loses_too_much = 617,
    fuse_blows_in_use = 618,
    beyond_what_is_computed = 619,
    limit_not_computed = 620,
    reading_below_zero = 621,

    // what the plan proves
    verdict_does_not_name_all = 701,
    verdict_blames_cleared = 702,
    outcome_never_had = 703,
    check_finds_nothing = 704,
    verdict_without_cars = 705,
    planted_fault_not_found = 706,
    new_fuse_on_short = 707,
    gap_in_plan = 708,
    check_passes_what_harms = 709,
    complaint_of_sound_car = 710,
    fault_changes_nothing = 711,

    // the sheet, its templates and words
    character_without_typeface = 801,
    too_wide_for_place = 802,
    not_for_this_file = 851,
    unknown_to_templates = 852,
    twice_in_template = 853,
    word_without_text = 854,
    word_with_wrong_places = 855,
    type_size_out_of_bounds = 856,
    margins_do_not_do = 857,
    fields_do_not_fit = 858,
    template_prints_nothing = 859,

    // no meaning yet
    question_without_marks = 901,
};

// Families: what a finding is about.
constexpr int family(int code) { return code / 100; }
inline constexpr int files = 0, form = 1, names = 2, flow = 3, wiring = 4, measuring = 5, readings = 6, proof = 7, sheet = 8;

} // namespace loomsheet::finding
