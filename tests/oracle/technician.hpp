// Somebody who works from the printed sheet alone: puts the car into the set-up of a card, reads, and goes where the page sends him.
#pragma once
#include "oracle/stand.hpp"

namespace oracle {

struct Reading {
    enum class Kind { number, open, yes, no, jumps } kind = Kind::number;
    double value = 0, shown = 0; // V, A, ohm: as it is, and as the meter shows it
    bool floats = false;         // nothing joins the points
    double current = 1;          // A, of a drop: along the points
};
// ± that the meter of this plan may be off.
double meter_error(const Plan& plan, const std::string& measure, double value);

struct End {
    enum class Kind { verdict, stop, done, lost } kind = Kind::lost;
    int verdict = none;
    int check = none;      // that led there
    std::size_t index = 0; // of its outcome
    bool jumped = false;   // stopped because it did not come to rest
    std::string words(const Plan& plan) const;
    auto operator<=>(const End&) const = default;
};
struct Walk {
    End end;
    std::vector<std::pair<int, std::size_t>> way; // check, outcome
    bool near = false;                            // a reading on the way lies within 5 % of a limit, or the meter's error of it
    bool understood = true;
    std::string way_words(const Plan& plan) const;
};

// The stands of a plan for cars of one shape, built as they are needed.
class Workshop {
public:
    Workshop(const Loom& loom, const Damage& shape) : loom_(loom), shape_(shape) {}
    Stand& bare(const Setup& setup);
    Stand& with(const Setup& setup, const Probe& probe);
    const Loom& loom() const { return loom_; }

private:
    const Loom& loom_;
    const Damage& shape_;
    std::map<std::pair<const Setup*, std::tuple<Tool, int, int, int>>, std::unique_ptr<Stand>> stands_;
};

enum class Holds { no, yes, chatters };
// How a relay or a control unit stood to its threshold in the set-ups that were met.
struct Edges {
    std::map<int, std::pair<double, double>> at; // part -> least share where it works, most where it does not
    void note(int part, bool works, double share);
    bool blurred() const; // works and does not within 5 %
};

class Technician {
public:
    Technician(Workshop& shop, Car& car, Dice& hand) : shop_(shop), loom_(shop.loom()), plan_(loom_.plan), car_(car), hand_(hand) {}
    // What the car was used for before: the complaint's set-up and every set-up of a check that touches nothing. Fuses blow.
    void use_before();
    // Whether its owner complains, plainly.
    Holds complains();
    Walk walk(const std::function<bool(int verdict)>& blames);
    Reading read(const Check& check, const Row& row);
    Holds holds(const Rest& rest, Stand& stand, const States& states, double share = 1);
    Rest rest(const Setup& setup) { return shop_.bare(setup).settle(car_); }
    Edges edges;
    double nearest = 1; // of looks: how near a load's volts came to what it needs, as a share

private:
    Workshop& shop_;
    const Loom& loom_;
    const Plan& plan_;
    Car& car_;
    Dice& hand_;
    std::map<int, std::vector<Reading>> read_; // by check
    bool near_ = false, understood_ = true;

    bool state(const Solved& at, Stand& stand, const State& asked, double share);
    bool part_works(const Solved& at, Stand& stand, int part, double share);
    double along(Stand& stand, const Rest& rest, const Probe& probe);
    double shown(const std::string& measure, double value);
    void note_edges(const Rest& rest, Stand& stand);
    bool within(const Check& check, std::size_t row, const Limit& limit, const Reading& reading, int& side);
    std::size_t outcome(int check);
    std::size_t outcome_of_look(const Check& check);
    std::size_t outcome_of_rows(int check);
    std::size_t bad_row(const Check& check, std::size_t row, const Reading& reading, int side);
    const Limit* limit_for(const Check& check, const Row& row) const;
};

} // namespace oracle
