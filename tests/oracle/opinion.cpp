#include "oracle/opinion.hpp"
#include "oracle/blame.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace oracle {
namespace {

constexpr Manner manners[] = {Manner::corner, Manner::uniform, Manner::triangular};
constexpr int most_draws = 4; // of one car that is to complain
constexpr double knee = 2e-3; // V: a diode's knee at microamperes, which the reference page leaves open

struct Listed { // an ending of the proof
    End end;
    std::string judged;
};

class Opiner {
public:
    Opiner(const Json& proved, const Asked& asked)
        : proved_(proved), asked_(asked), plan_(read_plan(proved)), usual_(proved.at("usual")), loom_(plan_, usual_), seed_(asked.seed) {}
    Opinion give() {
        usual_values();
        sound_cars();
        faulty_cars();
        harmless_cars();
        old_batteries();
        consistent();
        return std::move(opinion_);
    }

private:
    const Json& proved_;
    const Asked& asked_;
    const Plan plan_;
    const Usual usual_;
    const Loom loom_;
    const Damage no_damage_;
    Workshop shop_{loom_, no_damage_}; // for all cars with the branches of the loom and no others
    std::uint64_t seed_;
    Opinion opinion_;

    Dice dice(Manner manner) { return {++seed_ * 0x9E3779B97F4A7C15ULL, manner}; }

    void usual_values() {
        Dice values = dice(Manner::usual), hand = dice(Manner::usual);
        Car car(loom_, values, no_damage_, hand);
        Technician reads(shop_, car, hand);
        reads.use_before();
        const bool diodes =
            std::any_of(loom_.branches.begin(), loom_.branches.end(), [](const Branch& each) { return each.law == Law::diode; });
        for (std::size_t c = 0; c < plan_.checks.size(); ++c) {
            const Check& check = plan_.checks[c];
            if (!setting_of(check.with).understood) continue;
            for (std::size_t r = 0; r < check.rows.size(); ++r) {
                const Json& row = proved_.at("checks").at(c).at("rows").at(r);
                if (!row.contains("value")) continue;
                const Reading mine = reads.read(check, check.rows[r]);
                const double theirs = row.at("value");
                ++opinion_.values;
                const double apart = 1e-6 + 1e-6 * std::abs(theirs) + (diodes ? knee : 0);
                if (mine.kind != Reading::Kind::number || std::abs(mine.value - theirs) > apart)
                    opinion_.add("usual value", fmt::format("{} row {}", check.label, r + 1),
                                 fmt::format("{} here, {} there", mine.value, theirs));
            }
        }
    }

    // What a sound car reads lies within its range; where a sound car ends is listed.
    void sound_cars() {
        const std::vector<Listed> listed = endings(proved_.at("sound_endings"));
        for (std::size_t n = 0; n < asked_.sound_cars; ++n) {
            Dice values = dice(manners[n % 3]), hand = dice(Manner::uniform);
            Car car(loom_, values, no_damage_, hand);
            Technician reads(shop_, car, hand);
            reads.use_before();
            for (std::size_t c = 0; c < plan_.checks.size(); ++c)
                compare_rows(reads, c);
            Technician goes(shop_, car, hand);
            const Walk walk = goes.walk([](int) { return false; });
            if (!walk.understood)
                ++opinion_.not_understood;
            else if (!lists(listed, walk.end))
                opinion_.add("ending of a sound car", walk.end.words(plan_), walk.way_words(plan_));
        }
    }
    void compare_rows(Technician& reads, std::size_t c) {
        const Check& check = plan_.checks[c];
        const Json& said = proved_.at("checks").at(c);
        if (!setting_of(check.with).understood) return;
        for (std::size_t r = 0; r < check.rows.size(); ++r) {
            const Json& row = said.at("rows").at(r);
            const std::string kind = row.at("kind");
            if (kind == "beyond" || kind == "history") continue;
            const Reading mine = reads.read(check, check.rows[r]);
            ++opinion_.readings;
            const std::string where = fmt::format("{} row {}", check.label, r + 1);
            if (mine.kind == Reading::Kind::jumps) {
                if (kind != "chatters" && !row.at("may_chatter").get<bool>()) opinion_.add("range", where, "jumps, and they do not say so");
            } else if (kind == "number") {
                const double low = row.at("low"), high = row.at("high");
                if (mine.kind == Reading::Kind::open && !row.at("may_be_open").get<bool>())
                    opinion_.add("range", where, fmt::format("open here, {} .. {} there", low, high));
                if (mine.kind == Reading::Kind::number && (mine.shown < low - 1e-6 || mine.shown > high + 1e-6))
                    opinion_.add("range", where, fmt::format("{} here ({} as it is), {} .. {} there", mine.shown, mine.value, low, high));
            } else if (kind == "open" && mine.kind != Reading::Kind::open) {
                opinion_.add("range", where, fmt::format("{} here, open there", mine.value));
            } else if ((kind == "yes" || kind == "no") && (mine.kind == Reading::Kind::yes) != (kind == "yes")) {
                opinion_.add("range", where, fmt::format("{} there, not here", kind));
            }
        }
    }

    std::vector<Listed> endings(const Json& list) const {
        std::vector<Listed> made;
        for (const Json& each : list) {
            Listed one{{}, each.value("judged", "")};
            const Json& last = each.at("way").back();
            const std::string kind = each.at("ends");
            if (kind == "verdict") {
                one.end.kind = End::Kind::verdict;
                one.end.verdict = index_of(plan_.verdicts, each.at("verdict"));
            } else {
                one.end.kind = kind == "stop" ? End::Kind::stop : End::Kind::done;
                one.end.check = index_of(plan_.checks, last.at("check"));
                one.end.jumped = last.at("index").is_null();
                one.end.index = one.end.jumped ? ~std::size_t{0} : last.at("index").get<std::size_t>();
            }
            made.push_back(std::move(one));
        }
        return made;
    }
    template <class List>
    static int index_of(const List& list, const std::string& label) {
        for (std::size_t i = 0; i < list.size(); ++i)
            if (list[i].label == label) return static_cast<int>(i);
        return none;
    }
    static const Listed* lists(const std::vector<Listed>& listed, const End& end) {
        const auto at = std::find_if(listed.begin(), listed.end(), [&](const Listed& each) { return each.end == end; });
        return at == listed.end() ? nullptr : &*at;
    }

    void faulty_cars() {
        const Json& faults = proved_.at("faults");
        if (faults.empty()) return;
        const std::size_t share = asked_.only.empty() ? faults.size() : 1, each = (asked_.cars + share - 1) / share;
        for (const Json& fault : faults) {
            if (!fault.at("fault").get<std::string>().starts_with(asked_.only)) continue;
            Fault put_in = read_fault(plan_, fault.at("put_in"));
            put_in.words = fault.at("fault");
            const std::vector<Listed> listed = endings(fault.at("endings"));
            drive(put_in, each, [&](Technician& hand, const Blame& blame) { judge(hand, put_in, blame, listed); });
        }
    }
    // Cars with this fault that complain, until there are `count` or it does not come about.
    void drive(const Fault& fault, std::size_t count, const std::function<void(Technician&, const Blame&)>& then) {
        Dice first = dice(Manner::uniform);
        const Damage shape = damage_of(loom_, fault, first);
        if (shape.changes_nothing()) return opinion_.add("fault", fault.words, "not understood here: nothing is changed");
        std::optional<Workshop> own;
        if (shape.new_shape()) own.emplace(loom_, shape);
        Workshop& shop = own ? *own : shop_;
        const Blame blame(loom_, fault);
        std::size_t met = 0;
        for (std::size_t n = 0; met < count && n < most_draws * count; ++n) {
            Dice values = dice(manners[n % 3]), hand = dice(Manner::uniform);
            const Damage damage = damage_of(loom_, fault, hand);
            Car car(loom_, values, damage, hand);
            Technician technician(shop, car, hand);
            technician.use_before();
            ++opinion_.drawn;
            if (technician.complains() == Holds::no) continue;
            ++met;
            then(technician, blame);
        }
    }
    void judge(Technician& technician, const Fault& fault, const Blame& blame, const std::vector<Listed>& listed) {
        const auto blamed = [&](int verdict) { return blame.by(plan_.verdicts[verdict]); };
        const Walk walk = technician.walk(blamed);
        if (!walk.understood) return void(++opinion_.not_understood);
        if (technician.edges.blurred()) return void(++opinion_.blurred);
        ++opinion_.walked;
        const std::string where = fault.words + " -> " + walk.end.words(plan_);
        const Listed* found = lists(listed, walk.end);
        if (!found) opinion_.add("ending", where, walk.way_words(plan_) + (walk.near ? " (near a limit)" : ""));
        bool wrong = walk.end.kind == End::Kind::verdict && !blamed(walk.end.verdict) && !plan_.verdicts[walk.end.verdict].blames_nothing;
        if (walk.end.kind == End::Kind::stop && !walk.end.jumped && walk.end.index < plan_.checks[walk.end.check].outcomes.size()) {
            const Target& target = plan_.checks[walk.end.check].outcomes[walk.end.index].target;
            wrong = (!target.between.empty() || !target.left.empty()) && !blame.by(target);
        }
        if (!wrong) {
            if (found && found->judged == "wrong") opinion_.add("blame", where, "blamed here, not there");
            return;
        }
        if (found && found->judged == "wrong")
            ++opinion_.wrong_told;
        else if (walk.near)
            ++opinion_.wrong_allowed;
        else
            opinion_.add("wrong part", where, walk.way_words(plan_));
        if (found && found->judged == "found") opinion_.add("blame", where, "blamed there, not here");
    }

    void harmless_cars() {
        const Json& list = proved_.at("harmless_put_in");
        for (std::size_t i = 0; i < list.size(); ++i) {
            Fault fault = read_fault(plan_, list.at(i).at("put_in"));
            fault.words = proved_.at("harmless").at(i);
            if (fault.kind == "worn" || !fault.words.starts_with(asked_.only)) continue;
            drive(fault, asked_.each_harmless, [&](Technician& technician, const Blame&) {
                if (!technician.edges.blurred()) opinion_.add("harmless", fault.words, "the car complains");
            });
        }
    }

    // A battery that wears out, which is none of the faults that are tried.
    void old_batteries() {
        for (std::size_t i = 0; i < plan_.parts.size(); ++i) {
            if (plan_.parts[i].kind != "battery") continue;
            Fault fault{plan_.parts[i].id + " aged", "aged", "", {"whole", static_cast<int>(i), none, none, {}}, {}, {}, 0};
            std::map<std::string, std::size_t> wrong;
            std::size_t all = 0, count = 0;
            drive(fault, asked_.old_batteries, [&](Technician& technician, const Blame& blame) {
                const auto blamed = [&](int verdict) { return blame.by(plan_.verdicts[verdict]); };
                const Walk walk = technician.walk(blamed);
                ++all;
                if (walk.end.kind == End::Kind::verdict && !blamed(walk.end.verdict)) ++count, ++wrong[walk.end.words(plan_)];
            });
            for (const auto& [end, times] : wrong)
                opinion_.add("not tried", fault.words,
                             fmt::format("{} of {} that complain end at a wrong part, {} of them at {}", count, all, times, end));
        }
    }

    // What the program says of itself.
    void consistent() {
        const auto all = [&](const char* what, const char* holds) {
            return std::all_of(proved_.at(what).begin(), proved_.at(what).end(),
                               [&](const Json& each) { return each.at(holds).get<bool>(); });
        };
        const bool all_hold = all("verdicts", "holds") && all("checks", "suspects_hold");
        const double wrong = proved_.at("figures").at("blames_else");
        if (all_hold && wrong > 0)
            opinion_.add("figures", "every verdict holds", fmt::format("and {} of the cars may be told something else", wrong));
    }
};

} // namespace

void Opinion::add(const std::string& what, const std::string& where, const std::string& example) {
    const auto at = std::find_if(disagreements.begin(), disagreements.end(),
                                 [&](const Disagreement& each) { return each.what == what && each.where == where; });
    if (at != disagreements.end())
        ++at->count;
    else
        disagreements.push_back({what, where, example, 1});
}

std::size_t Opinion::count(const std::string& what) const {
    std::size_t sum = 0;
    for (const Disagreement& each : disagreements)
        if (each.what == what) sum += each.count;
    return sum;
}

Opinion second_opinion(const Json& proved, const Asked& asked) { return Opiner(proved, asked).give(); }

void print(std::ostream& out, const std::string& plan, const Opinion& opinion) {
    out << fmt::format("{}: {} usual values, {} readings of sound cars, {} cars walked of {} drawn; at a wrong part near a limit {}, told "
                       "by proof {}; blurred {}, not understood {}\n",
                       plan, opinion.values, opinion.readings, opinion.walked, opinion.drawn, opinion.wrong_allowed, opinion.wrong_told,
                       opinion.blurred, opinion.not_understood);
    for (const Disagreement& each : opinion.disagreements)
        out << fmt::format("  {} x{}: {}: {}\n", each.what, each.count, each.where, each.example);
}

} // namespace oracle
