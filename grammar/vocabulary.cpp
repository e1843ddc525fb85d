#include "grammar/vocabulary.hpp"
#include <algorithm>

namespace loomsheet {

namespace {
constexpr auto PLAN = in(Context::plan), PART = in(Context::part), WIRE = in(Context::wire), CABLE = in(Context::cable),
               ACCESS = in(Context::access), METER = in(Context::meter), ITEM = in(Context::item), CHECK = in(Context::check),
               VERDICT = in(Context::verdict), PLANT = in(Context::plant), QUESTION = in(Context::question);

constexpr StatementRow statement_rows[] = {
    {"plan", Context::plan, Form::head_plan, "NAME TEXT", "", "plan HORN-01 \"Horn is silent\"",
     "the head of the plan; once, before the checks"},
    {"use", Context::use, Form::head_text, "TEXT", "", "use \"common/house.plan\"",
     "takes in circuit statements of another file, its path as seen from this one"},
    {"also", Context::part, Form::head_name, "NAME", "", "also U1 output 31 \"horn relay\" pulls down 0.5 A",
     "adds phrases to a part that is declared elsewhere"},
    {"colour", Context::colour, Form::head_colour, "NAME TEXT", "", "colour TN \"tan\"", "a colour code of the shop's own"},
    {"meter", Context::meter, Form::head_none, "", "", "meter clamp ±10 mA", "the shop's own instruments"},
    {"access", Context::access, Form::head_label_text, "LABEL [TEXT]", "", "access shield \"Lower shield\", 12 min",
     "a panel that must come off first"},
    {"battery", Context::part, Form::head_name_text, "NAME [TEXT]", "", "battery G1 \"Battery\", 12.6 V, 70 Ah",
     "a battery or an alternator; pins + and -"},
    {"fuse", Context::part, Form::head_name_text, "NAME [TEXT]", "its rating", "fuse F14 \"Fan\", 40 A, type C", "a fuse; pins 1 and 2"},
    {"breaker", Context::part, Form::head_name_text, "NAME [TEXT]", "its rating", "breaker F20 \"Window\", 20 A, resets by itself",
     "a circuit breaker; pins 1 and 2"},
    {"relay", Context::part, Form::head_name_text, "NAME [TEXT]", "coil, contact",
     "relay K5 \"Fan relay\", coil 86/85 85 ohm, contact 30/87", "a relay; coil and contacts"},
    {"switch", Context::part, Form::head_name_text, "NAME [TEXT]", "its contacts", "switch S2 \"Brake switch\", at rest, at pressed 1/2",
     "a switch, its first position the normal one"},
    {"motor", Context::part, Form::head_name_text, "NAME [TEXT]", "its pins and current", "motor M3 \"Fan motor\", 1/2 22 A", "a motor"},
    {"lamp", Context::part, Form::head_name_text, "NAME [TEXT]", "its pins and power", "lamp E4 \"Headlamp\", 56b/31 55 W at 12 V",
     "a lamp with one filament or several"},
    {"heater", Context::part, Form::head_name_text, "NAME [TEXT]", "its pins and power", "heater E9 \"Rear window\", 1/2 200 W",
     "a heater or a glow plug"},
    {"solenoid", Context::part, Form::head_name_text, "NAME [TEXT]", "its pins and current", "solenoid Y3 \"Valve\", 1/2 12 ohm",
     "a solenoid or a valve"},
    {"horn", Context::part, Form::head_name_text, "NAME [TEXT]", "its pins and current", "horn H1 \"Horn\", 1/2 5 A", "a horn"},
    {"resistor", Context::part, Form::head_name_text, "NAME [TEXT]", "its pins and ohms", "resistor R1 \"Blower resistor\", 1/2 0.35 ohm",
     "a resistor"},
    {"diode", Context::part, Form::head_name_text, "NAME [TEXT]", "its pins", "diode V1 \"Blocking diode\", 1/2",
     "a diode; conducts from the first pin to the second"},
    {"sensor", Context::part, Form::head_name_text, "NAME [TEXT]", "what it is", "sensor B2 \"Coolant\", ntc 1/2", "a sensor"},
    {"module", Context::part, Form::head_name_text, "NAME [TEXT]", "supply, ground", "module U1 \"Control unit\", supply 30, ground 31",
     "a control unit with drivers and inputs"},
    {"assembly", Context::part, Form::head_name_text, "NAME [TEXT]", "pins", "assembly M1 \"Starter\", pins 30 50 31",
     "one part that holds several elements"},
    {"splice", Context::part, Form::head_name_text, "NAME [TEXT]", "", "splice J1 \"Bar in the box\", joins F1.2 F14.1",
     "a joint or a bar"},
    {"ground", Context::part, Form::head_name_text, "NAME [TEXT]", "", "ground XE1 \"Left wing\"",
     "a ground point on the body, or on the engine or chassis"},
    {"connector", Context::part, Form::head_name_text, "NAME [TEXT]", "its pins", "connector X21 \"Fan plug\", 2 pins, on M3",
     "a plug on a part, or an in-line pair"},
    {"part", Context::part, Form::head_name_text, "NAME [TEXT]", "", "part Y1 \"Toothed ring\"", "a part that is not electrical"},
    {"wire", Context::wire, Form::head_name, "NAME", "from -> to", "wire W1 G1.+ -> F1.1 6 mm2 RD 0.6 m", "one wire from pin to pin"},
    {"cable", Context::cable, Form::head_name_text, "NAME [TEXT]", "its wires", "cable C1 W61 W62 twisted", "wires that run in one cable"},
    {"setup", Context::setup, Form::head_setup, "LABEL : ITEMS", "", "setup called: key on, U1.47 on",
     "a set-up with a label, for checks that share it"},
    {"check", Context::check, Form::head_label_text, "LABEL [TEXT]", "what is measured, pass", "check fuse-look \"Fuse F14\"",
     "one measurement or one look, and where each outcome leads"},
    {"verdict", Context::verdict, Form::head_label_text, "LABEL [TEXT]", "blames", "verdict motor-bad \"The motor has failed\"",
     "what is found, what to repair, how it is proved"},
    {"plant", Context::plant, Form::head_label_text, "LABEL [TEXT]", "its fault", "plant coil-cut \"Card B\" K5.86/85 open",
     "a fault that the instructor puts in"},
    {"question", Context::question, Form::head_label_text, "LABEL TEXT", "", "question curve \"Draw the current over time\"",
     "a question of the lab sheet"},
};

// Shared pieces of patterns, replaced by their text when the patterns are read.
#define CONDITION "(key (off|acc|on|crank)+|engine running|asleep) [and (key (off|acc|on|crank)+|engine running|asleep)]*"
#define VERB "(still|runs [PIN to PIN]|slow|dark|dim|lit|works|chatters|whole|blown|fails)"
#define STATES "POINT " VERB " [(and|or) POINT " VERB "]*"
#define LIMIT "(RANGE|below VALUE|above VALUE|open|yes|no|within VALUE of LABEL)"
#define TARGET "(next|done|suspects [(POINT to POINT|POINT+)]|LABEL)"
#define FOR "[for SECOND]"

constexpr PhraseRow phrase_rows[] = {
    // --- plan head
    {Form::vehicle, PLAN, "vehicle TEXT", "", "vehicle \"Tarn 1.6 hatch\"", "the car, as printed"},
    {Form::complaint, PLAN | PLANT,
     "complaint TEXT [: (" STATES "|(clamp|amps through) POINT " LIMIT "|(volts|drop|ohms) POINT to POINT " LIMIT ")]", "",
     "complaint \"The fan stays still\": M3 still", "what the customer says; after the colon what it means"},
    {Form::with, PLAN | CHECK | PLANT, "with ITEMS", "", "with key on, U1.47 on", "the whole set-up; what is not named is normal"},
    {Form::code, PLAN, "code NAME", "", "code P0480", "a trouble code", true},
    {Form::revision, PLAN, "revision NUMBER [DATE]", "", "revision 3 2026-11-24", "number and date of this plan"},
    {Form::author, PLAN, "author TEXT", "", "author \"Workshop office\"", "who wrote it"},
    {Form::system, PLAN, "system VOLT", "", "system 12 V", "12 V or 24 V"},
    {Form::caution, PLAN | PART | CHECK | VERDICT | PLANT, "caution TEXT", "", "caution \"The fan can start by itself.\"",
     "a caution, printed where it is needed", true},
    {Form::note, PLAN | PART | WIRE | CHECK | VERDICT | PLANT, "note TEXT", "", "note \"Often wet inside\"", "a note, printed", true},
    {Form::allow, PLAN | PART | WIRE | CHECK | VERDICT, "allow NAME TEXT", "", "allow LS311 \"For the record\"",
     "accepts a warning on purpose, with the reason", true},
    // --- every part
    {Form::place, PART, "at TEXT", "", "at \"engine bay, left\"", "where it sits"},
    {Form::behind, PART, "behind LABEL", "", "behind shield", "the panel that must come off first"},
    {Form::on_metal, PART, "on (engine|chassis|body)", "battery ground motor lamp heater solenoid horn sensor module assembly", "on engine",
     "the metal it is bolted to"},
    {Form::on_part, PART, "on NAME", "connector", "on M3", "the part that this plug sits on"},
    {Form::bolted, PART, "PIN on NAME", "motor lamp heater solenoid horn sensor module assembly", "31 on XE2",
     "a pin that is the bolted case, and its ground point"},
    {Form::in_assembly, PART, "in NAME", "motor lamp heater solenoid horn relay switch resistor diode sensor", "in M1",
     "the assembly that holds it"},
    {Form::likely, PART | WIRE, "likely NUMBER", "", "likely 3", "how much oftener it fails than its kind does"},
    {Form::how, PART | ACCESS | PLANT, "how TEXT", "", "how \"Call the fan with the tester\"", "how it is done"},
    // --- values of parts
    {Form::volts_when, PART, "VOLT [when " CONDITION "]", "battery", "13.7 V when engine running", "its volts", true},
    {Form::charge, PART, "CHARGE", "battery", "70 Ah", "its capacity"},
    {Form::inner, PART, "inner OHM", "battery", "inner 8 mohm", "its inner resistance"},
    {Form::amps, PART, "AMP", "fuse breaker", "40 A", "its rating"},
    {Form::type, PART, "type NAME", "fuse", "type C", "type after ISO 8820-3: C, E or F"},
    {Form::opens_at, PART, "opens at TEMP", "fuse breaker", "opens at 184 degC", "the temperature at which it opens"},
    {Form::resets, PART, "resets by (itself|hand)", "breaker", "resets by itself", "how it closes again"},
    {Form::coil, PART, "coil PINS2 OHM", "relay sensor", "coil 86/85 85 ohm ±10 %", "a coil", true},
    {Form::contact, PART, "contact (PINS3|PINS2)", "relay", "contact 30/87/87a", "a contact: common, make, break", true},
    {Form::suppressor, PART, "diode PINS2", "relay", "diode 86/85", "a diode across the coil, plus side first", true},
    {Form::pulls_in, PART, "pulls in at VOLT", "relay", "pulls in at 8 V", "the volts at which it surely pulls in"},
    {Form::drops_out, PART, "drops out at VOLT", "relay", "drops out at 1.5 V", "the volts at which it surely drops out"},
    {Form::closed_when, PART, "PINS2 closed when " CONDITION, "switch", "30/15 closed when key on crank",
     "a contact that the key or the engine closes", true},
    {Form::at_position, PART, "at POSITION PINS2*", "switch", "at up 30/A 31/B",
     "a position and what it closes; the first is the normal one", true},
    {Form::at_value, PART, "at TEMP OHM", "sensor", "at 20 degC 2.5 kohm ±10 %", "one row of a table", true},
    {Form::at_percent, PART, "at POSITION PERCENT", "sensor", "at released 15 %", "where the wiper stands at a position", true},
    {Form::sprung, PART, "sprung", "switch", "sprung", "springs back when let go"},
    {Form::pair_value, PART, "PINS2 (AMP|WATT|OHM) [at VOLT]", "motor lamp heater solenoid horn resistor", "56b/31 55 W at 12 V",
     "pins and current, power or ohms", true},
    {Form::pair, PART, "PINS2", "diode", "1/2", "pins, the one that conducts first", true},
    {Form::stalls_at, PART, "stalls at AMP", "motor", "stalls at 95 A", "current when it is held still"},
    {Form::needs, PART, "needs VOLT", "motor lamp heater solenoid horn module", "needs 10.5 V",
     "the least volts with which it does its work"},
    {Form::ntc, PART, "ntc PINS2 [OHM at TEMP beta KELVIN]", "sensor", "ntc 1/2 10 kohm at 25 degC beta 3988 K",
     "a sensor whose ohms fall with heat", true},
    {Form::pot, PART, "pot PINS3 OHM", "sensor", "pot 2/4/3 1.2 kohm", "a track: end +, wiper, end -", true},
    {Form::hall, PART, "hall [PINS3]", "sensor", "hall 1/2/3", "a switch without contacts: supply, signal, ground"},
    {Form::supply, PART, "supply PIN+", "module sensor", "supply 30 15", "pins that feed it"},
    {Form::ground, PART, "ground PIN+", "module sensor", "ground 31 26", "pins that ground it"},
    {Form::draws, PART, "draws AMP [when " CONDITION "]", "module", "draws 0.4 A when key on", "what it draws", true},
    {Form::output, PART, "output PIN [TEXT] [pulls (down|up)] [AMP] [flashes] [for SECOND] [follows NAME]", "module",
     "output 47 \"fan relay\" pulls down 1 A", "a driver", true},
    {Form::gives, PART, "gives PIN VOLT", "module", "gives 72 5 V", "a supply for sensors", true},
    {Form::pull_up, PART, "pull-up PIN VOLT OHM", "module", "pull-up 9 5 V 2.2 kohm", "an input held up by a resistor", true},
    {Form::input, PART, "input PIN OHM", "module", "input 80 100 kohm", "an input and its ohms to ground", true},
    {Form::between, PART, "between PINS2 OHM", "module", "between 6/7 120 ohm ±1 %", "a resistor inside, between two pins", true},
    {Form::pins, PART, "pins PIN+", "assembly", "pins 30 50 31", "the pins that can be reached"},
    {Form::joins, PART, "joins POINT+", "splice", "joins F1.2 F14.1", "what it joins", true},
    {Form::bare, PART, "bare", "splice", "bare", "can be probed"},
    {Form::cavities, PART, "NUMBER pins", "connector", "4 pins", "how many cavities"},
    {Form::mates, PART, "mates NAME", "connector", "mates X31", "the other half of an in-line pair"},
    {Form::half, PART, "half TEXT TEXT", "connector", "half \"body\" \"door\"", "what the two halves are called, this one first"},
    {Form::lock, PART, "lock TEXT", "connector", "lock \"at 12 o'clock\"", "where the lock tab is, seen on the mating face"},
    {Form::face, PART, "face NUMBER x NUMBER", "connector", "face 2 x 4", "rows and columns of the mating face"},
    {Form::named, PART, "named MAP+", "connector", "named 1=L 2=54g", "marks of the cavities"},
    {Form::map, PART, "map MAP+", "connector", "map 1=A 2=B", "which cavity meets which pin, where the numbers differ"},
    // --- wires and cables
    {Form::route, WIRE, "POINT -> POINT", "", "G1.+ -> F1.1", "from pin to pin"},
    {Form::area, WIRE, "AREA", "", "6 mm2", "cross-section"},
    {Form::awg, WIRE, "AWG (NUMBER|PINS2)", "", "AWG 10", "size after ASTM B258"},
    {Form::colour, WIRE, "COLOUR", "", "BU/WH", "colour: base, or base/stripe"},
    {Form::length, WIRE, "METRE", "", "1.4 m", "length"},
    {Form::rated, WIRE, "rated AMP", "", "rated 50 A", "what the wire may carry"},
    {Form::unfused, WIRE, "unfused", "", "unfused", "a main cable without a fuse, on purpose"},
    {Form::wire_name, CABLE, "NAME", "", "W61", "a wire of the cable", true},
    {Form::twisted, CABLE, "twisted", "", "twisted", "its wires are twisted"},
    {Form::minutes, ACCESS, "SECOND", "", "12 min", "how long it takes"},
    {Form::accuracy, METER, "(volts|ohms|amps|clamp) TOLERANCE", "", "clamp ±10 mA", "how true the instrument is", true},
    // --- set-up
    {Form::item_key, ITEM, "key (off|acc|on|crank) " FOR, "", "key on", "the key"},
    {Form::item_asleep, ITEM, "asleep " FOR, "", "asleep for 20 min", "all control units asleep"},
    {Form::item_engine, ITEM, "engine running " FOR, "", "engine running", "the engine idles"},
    {Form::item_speed, ITEM, "at RPM " FOR, "", "at 2000 rpm", "engine speed"},
    {Form::item_unplugged, ITEM, "NAME unplugged " FOR, "", "X21 unplugged", "a plug is off"},
    {Form::item_pulled, ITEM, "NAME pulled " FOR, "", "F14 pulled", "out of its holder"},
    {Form::item_disconnected, ITEM, "REF disconnected " FOR, "", "G1.- disconnected", "a clamp is off its post"},
    {Form::item_pressed, ITEM, "NAME pressed " FOR, "", "S4 pressed", "held pressed"},
    {Form::item_on, ITEM, "REF on " FOR, "", "U1.47 on", "an output is called"},
    {Form::item_found, ITEM, "NAME as found " FOR, "", "B2 as found", "measured and written down"},
    {Form::item_value, ITEM, "NAME at VALUE " FOR, "", "B2 at 80 degC", "brought to a value"},
    {Form::item_position, ITEM, "NAME at POSITION " FOR, "", "S4 at high", "a switch position"},
    {Form::item_moved, ITEM, "NAME from POSITION to POSITION " FOR, "", "B5 from released to pressed", "moved during the check"},
    {Form::item_bridge, ITEM, "bridge POINT to POINT [fused AMP] " FOR, "", "bridge K5.30 to K5.87 fused 10 A", "a jumper lead"},
    {Form::item_load, ITEM, "load (WATT|AMP) [across POINT to POINT] " FOR, "", "load 21 W",
     "a test load across the points measured, or across two others"},
    {Form::item_one_of, ITEM, "one of NAME+ pulled " FOR, "", "one of F30 F31 F33 pulled", "each in turn"},
    {Form::item_text, ITEM, "TEXT", "", "\"gear lever in neutral\"", "a tick in words"},
    {Form::item_label, ITEM, "LABEL " FOR, "", "called", "a set-up declared with `setup`"},
    // --- checks
    {Form::points, CHECK, "(volts [ac]|drop|ohms|continuity|testlamp) [TEXT] POINT to POINT", "", "volts X21.1 to X21.2",
     "red lead to black lead; the line repeats for several rows", true},
    {Form::through, CHECK, "amps [TEXT] through POINT", "", "amps through F14", "current in line, the meter in place of the part", true},
    {Form::clamp, CHECK, "clamp [TEXT] POINT", "", "clamp G1.-", "current by clamp, round a wire or all that meets at a pin", true},
    {Form::look, CHECK, "look TEXT [: " STATES "]", "", "look \"The fan runs\": M3 runs",
     "something to see, hear or feel; after the colon what a yes means"},
    {Form::read, CHECK, "read TEXT", "", "read \"Gauge at the rail\"", "a reading that the circuit does not give"},
    {Form::expect, CHECK, "expect [TEXT] " LIMIT " [not computed]", "", "expect below 0.3 V", "the limits of a good reading", true},
    {Form::no_current, CHECK, "no current -> " TARGET, "", "no current -> feed-drop", "what to do when nothing flows"},
    {Form::outcome, CHECK, "(pass|fail|low|high|open) [(TEXT|NAME)] -> " TARGET, "", "pass -> motor-bad", "where an outcome leads", true},
    {Form::band, CHECK, "(RANGE|below VALUE|above VALUE) -> " TARGET, "", "0.3 .. 3 V -> feed-drop", "where a reading in a band leads",
     true},
    {Form::answer_outcome, CHECK, "TEXT [: " STATES "] -> " TARGET, "", "\"fast rattle\": K2 chatters -> battery-flat",
     "where an answer leads", true},
    {Form::time, CHECK | PLANT, "time SECOND", "", "time 4 min", "how long it takes"},
    {Form::marks, CHECK | PLANT | QUESTION, "marks NUMBER", "", "marks 2", "marks for the answer"},
    {Form::exercise, CHECK, "exercise", "", "exercise", "off the path on purpose"},
    {Form::question, CHECK, "question TEXT", "", "question \"Why does it read 12 V?\"", "a question of the lab sheet", true},
    {Form::answer, CHECK | QUESTION, "answer (TEXT|VALUE)", "", "answer \"No current flows\"", "its answer", true},
    {Form::steps, CHECK, "steps TEXT", "", "steps \"Hold the key while reading\"", "what to do, in order", true},
    // --- verdicts
    {Form::blames, VERDICT, "blames (nothing|(POINT to POINT|POINT|TEXT)+)", "", "blames W11 K5.85 X1.47",
     "what has failed: parts, pins, wires, joints, a run; or nothing", true},
    {Form::repair, VERDICT, "repair TEXT", "", "repair \"Fit a new fan motor\"", "what to do", true},
    {Form::after, VERDICT, "after LABEL+", "", "after fan-runs", "the checks that prove the repair"},
    {Form::then_plan, VERDICT, "-> plan NAME", "", "-> plan IGN-01", "another plan to go on with"},
    {Form::then, VERDICT, "-> LABEL", "", "-> plug-feed", "the check to go on with"},
    // --- planted faults and questions
    {Form::fault, PLANT,
     "POINT (open [inside]|RANGE|OHM|touches ground [OHM]|touches supply|touches POINT|swapped with POINT|blown|stuck (open|closed)|never "
     "on|always on|at POSITION|reads OHM|is WATT|draws AMP|shorted inside|seized|worn|weak|dead)",
     "", "joint X30.1 2.2 ohm", "the fault"},
    {Form::undo, PLANT, "undo TEXT", "", "undo \"Take the adapter out\"", "how it is taken out"},
    {Form::space, QUESTION, "space METRE", "", "space 60 mm", "room for the answer"},
};
constexpr std::string_view taken_labels[] = {"next",   "done",   "suspects", "plan", "nothing", "key",
                                             "asleep", "engine", "at",       "load", "bridge",  "one"};
} // namespace

std::vector<std::string_view> words_in(std::string_view words) {
    std::vector<std::string_view> list;
    while (!words.empty()) {
        const auto end = std::min(words.find(' '), words.size());
        list.push_back(words.substr(0, end));
        words.remove_prefix(std::min(end + 1, words.size()));
    }
    return list;
}
bool lists(std::string_view words, std::string_view word) {
    const auto list = words_in(words);
    return std::find(list.begin(), list.end(), word) != list.end();
}
bool suits(const PhraseRow& row, std::string_view part_word) { return row.suits.empty() || lists(row.suits, part_word); }

std::span<const StatementRow> statements() { return statement_rows; }
std::span<const PhraseRow> phrases() { return phrase_rows; }
int find_statement(std::string_view word) { return plan_vocabulary().find_statement(word); }
bool is_taken_label(std::string_view word) { return plan_vocabulary().is_taken_label(word); }

const Vocabulary& plan_vocabulary() {
    static constexpr Vocabulary plans{statement_rows, phrase_rows, taken_labels, "`wire`, `fuse` or `check`"};
    return plans;
}

const Vocabulary& vocabulary_of(Context context) { return context < Context::line ? plan_vocabulary() : sheet_vocabulary(); }

int Vocabulary::find_statement(std::string_view word) const {
    for (std::size_t i = 0; i < statements.size(); ++i)
        if (statements[i].word == word) return static_cast<int>(i);
    return -1;
}

bool Vocabulary::is_taken_label(std::string_view word) const {
    return std::find(taken_labels.begin(), taken_labels.end(), word) != taken_labels.end();
}

} // namespace loomsheet
