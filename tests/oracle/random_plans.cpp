#include "oracle/random_plans.hpp"
#include "oracle/usual.hpp"
#include <cmath>
#include <fmt/format.h>
#include <vector>

namespace oracle {
namespace {

using Words = std::vector<std::string>;

// Lines of the circuit, and what the checks may touch and the verdicts may blame.
struct Circuit {
    double volts = 12;                              // of the system
    std::string lines, called;                      // the set-up in which the load is to work
    std::string load, load_word, plus, minus, plug; // where its pins are probed; plug: empty where it has none
    std::string relay, unit, input, switch_, fuse, feed_wire;
    double amps = 0;
    Words way;    // points from the battery to the load, in order
    Words ground; // from the load to the battery
    Words blamed; // what a verdict may name
};

class Drawn {
public:
    explicit Drawn(std::uint64_t seed) : dice_(seed * 0x9E3779B97F4A7C15ULL + 1, Manner::uniform) {}
    bool chance(double share) { return dice_.between(0, 1) < share; }
    std::size_t below(std::size_t count) { return static_cast<std::size_t>(dice_.number(count)); }
    double between(double low, double high) { return dice_.between(low, high); }
    auto one_of(const auto& list) { return *(std::begin(list) + below(std::size(list))); }

private:
    Dice dice_;
};

class Circuits {
public:
    explicit Circuits(Drawn& drawn) : draw_(drawn) {}
    Circuit make() {
        made_.volts = draw_.chance(0.1) ? 24 : 12;
        battery();
        load();
        const int control = static_cast<int>(draw_.below(5));
        fuses(control);
        switch (control) {
        case 0: by_switch(); break;
        case 4: by_driver(); break;
        default: by_relay(control);
        }
        return std::move(made_);
    }

private:
    Drawn& draw_;
    Circuit made_;
    int wires_ = 0;
    std::string main_ground_ = "XE1", load_ground_ = "XE1", second_feed_;

    void add(const std::string& line) { made_.lines += line + "\n"; }
    void blame(const std::string& name) { made_.blamed.push_back(name); }
    void joints(const std::string& part, std::initializer_list<const char*> pins) {
        for (const char* pin : pins)
            blame("joint " + part + "." + pin);
    }
    // Thick enough for what it carries, so that a sound car does its work.
    std::string wire(const std::string& from, const std::string& to, double amps, const char* more = "") {
        const Words thin = {"0.75", "1", "1.5"}, middle = {"1.5", "2.5", "2.5"}, thick = {"4", "6", "6"}, cable = {"16", "25"};
        const std::string size = draw_.one_of(amps <= 2 ? thin : amps <= 7 ? middle : amps <= 30 ? thick : cable);
        const std::string name = fmt::format("W{}", ++wires_);
        if (draw_.chance(0.05) && amps <= 7)
            add(fmt::format("wire {} {} -> {} RD{}", name, from, to, more));
        else
            add(fmt::format("wire {} {} -> {} {} mm2 RD {:.1f} m{}", name, from, to, size, draw_.between(0.3, amps > 30 ? 0.8 : 2), more));
        blame(name);
        return name;
    }
    void battery() {
        const char* spread = draw_.chance(0.3) ? " ±0.1 V" : "";
        const std::string inner = draw_.chance(0.7) ? fmt::format(", inner {:.0f} mohm", draw_.between(4, 12)) : "";
        add(fmt::format("battery G1, {:.1f} V{}{}", made_.volts * 1.05, spread, inner));
        add("ground XE1 \"Left wing\"");
        wire("G1.-", "XE1", 100);
        blame("G1"), blame("XE1"), joints("G1", {"+", "-"});
        const int grounds = static_cast<int>(draw_.below(3));
        if (grounds == 0) return;
        load_ground_ = "XE2";
        blame("XE2");
        add(grounds == 1 ? "ground XE2 \"Right wing\"" : "ground XE2 \"Engine\", on engine\nground XE3 \"Engine, strap\", on engine");
        if (grounds == 2) wire("XE3", "XE1", 100), blame("XE3");
    }
    void load() {
        struct Kind {
            const char *word, *name, *state;
            double least, most;
        };
        static constexpr Kind kinds[] = {{"motor", "M3", "runs", 3, 22},
                                         {"lamp", "E1", "lit", 10, 60},
                                         {"heater", "E9", "works", 4, 18},
                                         {"horn", "H1", "works", 3, 6},
                                         {"solenoid", "Y3", "works", 6, 20}};
        const Kind kind = draw_.one_of(kinds);
        const double size = std::round(draw_.between(kind.least, kind.most));
        const std::string value = kind.word == std::string("lamp")       ? fmt::format("{} W at {} V", size, made_.volts)
                                  : kind.word == std::string("solenoid") ? fmt::format("{} ohm{}", size, draw_.chance(0.5) ? " ±5 %" : "")
                                                                         : fmt::format("{} A", size);
        made_.amps = kind.word == std::string("lamp")       ? size / made_.volts
                     : kind.word == std::string("solenoid") ? made_.volts / size
                                                            : size;
        made_.load = kind.name, made_.load_word = kind.state;
        const std::string needs =
            kind.word == std::string("motor") && draw_.chance(0.4) ? fmt::format(", needs {:.1f} V", made_.volts * 0.8) : "";
        add(fmt::format("{} {} \"Load\", 1/2 {}{}", kind.word, kind.name, value, needs));
        blame(made_.load), joints(made_.load, {"1", "2"});
        std::string at = made_.load;
        if (kind.word != std::string("lamp") && draw_.chance(0.6)) {
            add(fmt::format("connector X21 \"Load plug\", 2 pins, on {}", made_.load));
            at = made_.plug = "X21";
        }
        made_.plus = at + ".1", made_.minus = at + ".2";
        wire(made_.minus, load_ground_, made_.amps);
        made_.ground = {made_.minus, load_ground_, "G1.-"};
    }
    std::string fuse(const std::string& name, double amps) {
        for (const int rating : {5, 10, 15, 20, 30, 40, 60})
            if (rating > 1.8 * amps) {
                add(fmt::format("fuse {} \"Fuse {}\", {} A", name, name.substr(1), rating));
                break;
            }
        blame(name), joints(name, {"1", "2"});
        return name;
    }
    // One fuse or two, at a bar or in a chain.
    void fuses(int control) {
        made_.fuse = fuse("F1", made_.amps + (control == 4 ? 1 : 0));
        made_.way = {"G1.+", "F1.1", "F1.2"};
        second_feed_ = "F1.2";
        if (draw_.chance(0.5)) {
            fuse("F2", 2);
            add("splice J1 \"Bar\", joins F1.1 F2.1");
            wire("G1.+", "J1", 40, " unfused");
            second_feed_ = "F2.2";
        } else if (draw_.chance(0.4)) {
            fuse("F9", made_.amps + 1);
            wire("G1.+", "F9.1", 40, " unfused");
            wire("F9.2", "F1.1", made_.amps);
            made_.way = {"G1.+", "F9.1", "F9.2", "F1.1", "F1.2"};
        } else {
            wire("G1.+", "F1.1", 40, " unfused");
        }
        if (control == 0 || control == 4 || !draw_.chance(0.3)) return;
        add("switch S9 \"Key switch\", 30/15 closed when key on");
        wire(second_feed_, "S9.30", 3);
        second_feed_ = "S9.15";
        made_.called = "key on, ";
        blame("S9"), joints("S9", {"30", "15"});
    }
    // From the last point of the way to the load: an in-line plug, a diode, a splice to a second lamp, or nothing.
    void to_load() {
        std::string from = made_.way.back();
        const auto on = [&](const std::string& in, const std::string& out) {
            const std::string name = wire(from, in, made_.amps);
            if (made_.feed_wire.empty()) made_.feed_wire = name;
            made_.way.push_back(in);
            if (out != in) made_.way.push_back(out);
            from = out;
        };
        if (draw_.chance(0.4)) {
            add("connector X30 \"Loom\", 1 pins, mates X31");
            blame("joint X30.1");
            on("X30.1", "X31.1");
        }
        if (draw_.chance(0.3)) {
            add(fmt::format("splice J2 \"Joint in the loom\"\nlamp E2 \"Second lamp\", 1/2 {} W at {} V", 5, made_.volts));
            const std::string name = wire(from, "J2", made_.amps);
            if (made_.feed_wire.empty()) made_.feed_wire = name;
            wire("J2", "E2.1", 1), wire("E2.2", draw_.chance(0.5) ? "XE1" : load_ground_, 1);
            blame("E2"), joints("E2", {"1", "2"});
            from = "J2";
        }
        const std::string name = wire(from, made_.plus, made_.amps);
        if (made_.feed_wire.empty()) made_.feed_wire = name;
        made_.way.push_back(made_.plus);
    }
    void a_switch(const std::string& name) {
        add(fmt::format("switch {} \"Button\", at rest, at pressed 1/2", name));
        made_.switch_ = name, made_.called += name + " pressed";
        blame(name), joints(name, {"1", "2"});
    }
    void by_switch() {
        a_switch("S1");
        wire("F1.2", "S1.1", made_.amps);
        made_.way.insert(made_.way.end(), {"S1.1", "S1.2"});
        to_load();
    }
    void by_driver() {
        add(fmt::format("module U1 \"Unit\", supply 30, ground 31, draws 0.2 A{}",
                        draw_.chance(0.5) ? fmt::format(", needs {:.1f} V", made_.volts * 0.75) : ""));
        add(fmt::format("  output 1 \"load\" pulls up {:.0f} A", std::ceil(made_.amps * 1.2)));
        wire("F1.2", "U1.30", made_.amps + 1), wire("U1.31", draw_.chance(0.5) ? "XE1" : load_ground_, 1);
        made_.unit = "U1", made_.called += "U1.1 on";
        made_.way.insert(made_.way.end(), {"U1.30", "U1.1"});
        blame("U1"), joints("U1", {"30", "31", "1"});
        to_load();
    }
    // The coil is fed past a diode or not, and grounded by a switch before it, by a driver, or by a driver that follows a switch.
    void by_relay(int control) {
        const bool own_diode = draw_.chance(0.2), volts = draw_.chance(0.5);
        add(fmt::format("relay K5 \"Relay\", coil 86/85 {:.0f} ohm, contact 30/87{}{}", made_.volts * draw_.between(6, 10),
                        draw_.chance(0.3) ? "/87a" : "", own_diode ? ", diode 86/85" : ""));
        if (volts) add(fmt::format("  pulls in at {:.1f} V\n  drops out at {:.1f} V", made_.volts * 2 / 3, made_.volts / 8));
        made_.relay = "K5";
        blame("K5"), blame("K5.30/87"), joints("K5", {"30", "87", "86", "85"});
        std::string coil_feed = second_feed_;
        if (draw_.chance(0.25)) {
            add("diode V1 \"Blocking diode\", 1/2");
            wire(coil_feed, "V1.1", 1);
            coil_feed = "V1.2";
            blame("V1"), joints("V1", {"1", "2"});
        }
        const std::string coil_ground = draw_.chance(0.5) ? "XE1" : load_ground_;
        if (control == 1) {
            a_switch("S1");
            wire(coil_feed, "S1.1", 1), wire("S1.2", "K5.86", 1), wire("K5.85", coil_ground, 1);
        } else {
            unit(control == 3, coil_ground);
            wire(coil_feed, "K5.86", 1), wire("K5.85", "U1.47", 1);
        }
        wire("F1.2", "K5.30", made_.amps);
        made_.way.insert(made_.way.end(), {"K5.30", "K5.87"});
        to_load();
    }
    void unit(bool follows, const std::string& ground) {
        add(fmt::format("module U1 \"Unit\", supply 15, ground 31, draws 0.2 A{}",
                        draw_.chance(0.5) ? fmt::format(", needs {:.1f} V", made_.volts * 0.75) : ""));
        add(fmt::format("  output 47 \"relay\" pulls down {} A{}", draw_.chance(0.5) ? 0.5 : 1, follows ? " follows S6" : ""));
        if (follows) add("  input S 10 kohm");
        wire(second_feed_, "U1.15", 1), wire("U1.31", ground, 1);
        made_.unit = "U1";
        blame("U1"), joints("U1", {"15", "31", "47"});
        if (!follows) return void(made_.called += "U1.47 on");
        a_switch("S6");
        wire(second_feed_, "S6.1", 1), wire("S6.2", "U1.S", 1);
        made_.input = "U1.S";
        blame("joint U1.S");
    }
};

// A check without its outcomes, and which it may have.
struct Draft {
    std::string label, body, state; // state: of an answer that it may have
    Words rows;
    bool look = false, ohms = false, drop = false, fixed = false; // fixed: a limit is written
};

class Plans {
public:
    explicit Plans(std::uint64_t seed) : draw_(seed), it_(Circuits(draw_).make()) {}
    std::string write(std::uint64_t seed) {
        choose();
        std::string text =
            fmt::format("plan RND-{:02} \"Load does not work\"\n  complaint \"It does not work\"{}\n  with {}\n  system {} V\n", seed % 100,
                        complaint(), it_.called, it_.volts);
        text += it_.lines;
        for (std::size_t i = 0; i < drafts_.size(); ++i)
            text += one(i);
        return text + verdicts_;
    }

private:
    Drawn draw_;
    Circuit it_;
    std::vector<Draft> drafts_;
    std::string verdicts_;
    int count_ = 0;

    std::string complaint() {
        if (it_.load_word == "runs") return draw_.one_of(Words{": M3 still or M3 slow", ": M3 still", ": M3 fails", ""});
        if (it_.load_word == "lit") return draw_.one_of(Words{": E1 dark or E1 dim", ": E1 dark", ": E1 fails", ""});
        return draw_.chance(0.8) ? ": " + it_.load + " fails" : "";
    }
    std::string volts(double twelve) const { return fmt::format("{:.2f} V", twelve * it_.volts / 12); }
    std::string with_called(const std::string& more = "") const {
        return "  with " + it_.called + (more.empty() ? "" : ", " + more) + "\n";
    }

    Draft look_load() {
        Draft made{"load-look", with_called() + fmt::format("  look \"It does its work\": {} {}\n", it_.load, it_.load_word), "", {}};
        made.look = true;
        if (it_.load_word == "runs") made.state = "M3 slow";
        if (it_.load_word == "lit") made.state = "E1 dim";
        return made;
    }
    Draft look(const std::string& label, const std::string& with, const std::string& state, const std::string& answer = "") {
        Draft made{label, with + "  look \"Is it so?\": " + state + "\n", answer, {}};
        made.look = true;
        return made;
    }
    Draft rows(const std::string& label, const std::string& with, const std::string& measure,
               const std::vector<std::pair<std::string, std::string>>& spans) {
        Draft made{label, with, "", {}};
        for (std::size_t i = 0; i < spans.size(); ++i) {
            const std::string name = spans.size() > 1 ? fmt::format("Row {}", i + 1) : "";
            if (!name.empty()) made.rows.push_back(name);
            made.body += fmt::format("  {} {}{} to {}\n", measure, name.empty() ? "" : '"' + name + "\" ", spans[i].first, spans[i].second);
        }
        made.drop = measure == "drop", made.ohms = measure == "ohms";
        return made;
    }
    void limit(Draft& made, double share, const std::string& words) {
        made.fixed = draw_.chance(share);
        if (made.fixed) made.body += "  expect " + words + "\n";
    }
    Draft drops() {
        std::vector<std::pair<std::string, std::string>> spans;
        const bool plus = draw_.chance(0.6);
        const Words& points = plus ? it_.way : it_.ground;
        for (std::size_t i = 0; i + 1 < points.size(); ++i)
            if (!(points[i] == "U1.30" && points[i + 1] == "U1.1") && (plus || i != 1 || points[1] == "XE1" || draw_.chance(0.5)))
                spans.emplace_back(points[i], points[i + 1]);
        while (spans.size() > 3)
            spans.erase(spans.begin() + static_cast<std::ptrdiff_t>(draw_.below(spans.size())));
        Draft made = rows(plus ? "plus-drops" : "minus-drops", with_called(), "drop", spans);
        limit(made, 0.7, "below " + volts(draw_.between(0.5, 1.2)));
        return made;
    }
    Draft volts_of_load() {
        Draft made = rows("load-volts", with_called(), "volts", {{it_.plus, it_.minus}});
        limit(made, 0.7, "above " + volts(draw_.between(9.5, 11)));
        return made;
    }
    std::vector<Draft> all() {
        std::vector<Draft> list = {look_load(), drops(), drops(), volts_of_load()};
        const std::string called = with_called();
        const auto add = [&](Draft made, double share = 0, const std::string& words = "") {
            limit(made, share, words);
            list.push_back(std::move(made));
        };
        add(rows("rest", "", "volts", {{"part G1.+", "part G1.-"}}), 0.8, "above " + volts(12.3));
        add(look("fuse-look", "  with F1 pulled\n", "F1 whole"));
        add(rows("lamp-at-load", called, "testlamp", {{it_.plus, "ground"}}), 1, "yes");
        add(rows("ground-way", "  with G1.- disconnected\n", "continuity", {{it_.minus, "XE1"}}), 1, "yes");
        Draft clamp{"current", called + "  clamp " + it_.feed_wire + "\n", "", {}};
        add(clamp, 0.5, fmt::format("{:.1f} .. {:.1f} A", it_.amps * 0.5, it_.amps * 1.6 + 1));
        if (!it_.plug.empty()) {
            add(rows("plug-volts", with_called("X21 unplugged"), "volts", {{"X21.1", "X21.2"}}), 0.6, "above " + volts(11.5));
            add(rows("load-ohms", "  with X21 unplugged\n", "ohms", {{"part " + it_.load + ".1", "part " + it_.load + ".2"}}));
        } else if (it_.load == "E1") {
            add(rows("load-ohms", "  with E1 pulled\n", "ohms", {{"part E1.1", "part E1.2"}}));
        }
        if (!it_.unit.empty()) add(look("unit-look", called, "U1 works"));
        if (!it_.input.empty()) add(rows("input-volts", called, "volts", {{it_.input, "XE1"}}), 0.7, "above " + volts(9));
        if (!it_.relay.empty()) relay_checks(list);
        return list;
    }
    void relay_checks(std::vector<Draft>& list) {
        const auto add = [&](Draft made, double share, const std::string& words) {
            limit(made, share, words);
            list.push_back(std::move(made));
        };
        list.push_back(look("click", with_called(), "K5 works", "K5 chatters"));
        add(rows("coil-ohms", "  with K5 pulled\n", "ohms", {{"part K5.86", "part K5.85"}}), 0.3,
            fmt::format("{} .. {} ohm", it_.volts * 4.5, it_.volts * 14));
        add(rows("coil-volts", with_called(), "volts", {{"K5.86", "K5.85"}}), 0.7, "above " + volts(9));
        add(rows("socket-feed", "  with K5 pulled, load 21 W across K5.30 to XE1\n", "drop", {{"G1.+", "F1.1"}, {"F1.2", "K5.30"}}), 0.6,
            "below " + volts(0.5));
        list.push_back(look("bridged", "  with K5 pulled, bridge K5.30 to K5.87 fused 30 A\n", it_.load + " works"));
    }
    void choose() {
        std::vector<Draft> list = all();
        const std::size_t count = 3 + draw_.below(4);
        while (drafts_.size() < count && !list.empty()) {
            const std::size_t at = draw_.below(list.size());
            bool there = false;
            for (const Draft& each : drafts_)
                there = there || each.label == list[at].label;
            if (!there) drafts_.push_back(list[at]);
            list.erase(list.begin() + static_cast<std::ptrdiff_t>(at));
        }
    }
    // A new verdict that blames what it likes, or a stop.
    std::string away() {
        if (draw_.chance(0.15)) return draw_.chance(0.5) ? "suspects" : fmt::format("suspects {} to {}", it_.way.front(), it_.way.back());
        const std::string name = fmt::format("found-{}", ++count_);
        verdicts_ += fmt::format("verdict {} \"Found {}\"\n  blames", name, count_);
        const double share = draw_.between(0.2, 0.9);
        std::size_t named = 0;
        for (const std::string& each : it_.blamed)
            if (draw_.chance(share)) {
                if (named > 0 && named % 8 == 0) verdicts_ += "\n  blames";
                verdicts_ += " " + each, ++named;
            }
        if (named == 0) verdicts_ += " " + it_.load;
        if (draw_.chance(0.3)) verdicts_ += fmt::format("\n  blames {} to {}", it_.way[draw_.below(it_.way.size() - 1)], it_.way.back());
        verdicts_ += "\n  repair \"Mend it\"\n";
        return name;
    }
    std::string one(std::size_t at) {
        const Draft& it = drafts_[at];
        const bool last = at + 1 == drafts_.size();
        const std::string next = last ? "" : drafts_[at + 1].label;
        const bool pass_on = !last && draw_.chance(0.6);
        std::string text = fmt::format("check {} \"{}\"\n{}", it.label, it.label, it.body);
        text += "  pass -> " + (pass_on ? next : last && draw_.chance(0.3) ? "done" : away()) + "\n";
        if (it.drop && draw_.chance(0.4)) text += "  no current -> " + (last || draw_.chance(0.5) ? away() : next) + "\n";
        if (!it.state.empty() && draw_.chance(0.5))
            text += fmt::format("  \"another answer\": {} -> {}\n", it.state, last || draw_.chance(0.6) ? away() : next);
        if (it.ohms && draw_.chance(0.4)) text += "  open -> " + away() + "\n";
        if (!it.rows.empty() && draw_.chance(0.6)) text += fmt::format("  fail \"{}\" -> {}\n", it.rows.back(), away());
        if (!it.look && !it.fixed && it.rows.empty() && draw_.chance(0.3)) text += "  low -> " + away() + "\n";
        const bool fail_on = !last && (!pass_on || draw_.chance(0.1));
        return text + "  fail -> " + (fail_on ? next : away()) + "\n";
    }
};

} // namespace

std::string random_plan(std::uint64_t seed) { return Plans(seed).write(seed); }

} // namespace oracle
