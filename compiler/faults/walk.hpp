// Where a car can end when somebody walks the printed plan with it: every outcome that a reading may have is followed.
#pragma once
#include "faults/matrix.hpp"

namespace loomsheet {

struct Step { // on the way: a check and the outcome it had
    static constexpr std::size_t jumps = ~std::size_t{0};
    int check = 0;
    std::size_t outcome = 0;
};
enum class EndKind : std::uint8_t { verdict, suspects, done };
struct Ending {
    EndKind kind = EndKind::done;
    int verdict = none;
    Step last;              // suspects and done: what led there
    std::vector<Step> way;  // one way there, the shortest
};

// Who is blamed at an ending.
enum class Judgement : std::uint8_t {
    found,   // a verdict, or the suspects it names, that blames the fault
    wrong,   // something else is blamed
    missed,  // called sound, or done
    open,    // stop, with nothing named
};

class Walker {
public:
    Walker(const Plan& plan, const Matrix& matrix);
    // The endings of a fault; of a sound car where `fault` is none. Each verdict, each stop, once.
    std::vector<Ending> endings(int fault) const;
    Judgement judge(const Ending& ending, const Candidate& fault) const;
    // Whether a verdict blames it: by its part, wire or joint, by an element, or on a run.
    bool blames(int verdict, const Candidate& fault) const;
    // What a verdict blames, as suspects.
    const std::vector<Suspect>& run_of(int verdict) const { return runs_[verdict]; }
    const std::vector<OutcomeSet>& cells(int fault) const { return fault == none ? matrix_.sound : matrix_.cells[fault]; }

private:
    bool names_it(const std::vector<PointRef>& points, const Candidate& fault) const;
    const Plan& plan_;
    const Matrix& matrix_;
    Graph at_rest_;
    std::vector<std::vector<Suspect>> runs_; // by verdict
};

// "battery-rest passes, fan-called: NO, relay-click passes"
std::string way_words(const Plan& plan, const std::vector<Step>& way);

} // namespace loomsheet
