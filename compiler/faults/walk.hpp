// Where a car can end when somebody walks the printed plan with it: every outcome that a reading may have is followed.
#pragma once
#include "faults/matrix.hpp"

namespace loomsheet {

struct Taken { // on the way: a check and the outcome it had
    static constexpr std::size_t jumps = ~std::size_t{0};
    int check = 0;
    std::size_t outcome = 0;
    bool operator==(const Taken&) const = default;
};
enum class EndKind : std::uint8_t { verdict, suspects, done };
struct Ending {
    EndKind kind = EndKind::done;
    int verdict = none;
    Taken last;             // suspects and done: what led there
    std::vector<Taken> way; // one way there, the shortest
};

// Who is blamed at an ending.
enum class Judgement : std::uint8_t {
    found,  // a verdict, or the suspects it names, that blames the fault
    wrong,  // something else is blamed
    missed, // called sound, or done
    open,   // stop, with nothing named
};

class Walker {
public:
    explicit Walker(const Plan& plan);
    // Where a car may end that has these outcomes, by check; `fault` is null for a sound one. Each verdict and each stop once.
    // Every step that it may take is added to `steps`.
    std::vector<Ending> endings(const std::vector<OutcomeSet>& sets, const Candidate* fault, std::vector<Taken>* steps = nullptr) const;
    Judgement judge(const Ending& ending, const Candidate& fault) const;
    // Whether a verdict blames it: by its part, wire or joint, by an element, or on a run.
    bool blames(int verdict, const Candidate& fault) const;

private:
    bool names_it(const std::vector<PointRef>& points, const Candidate& fault) const;
    const Plan& plan_;
    std::vector<std::vector<Suspect>> runs_;                   // by verdict
    std::vector<std::vector<std::vector<Suspect>>> stop_runs_; // by check and outcome
};

enum class Mood : std::uint8_t { does, may }; // "passes", "may pass"
// What a check does at a step: "passes", "may fail at \"Ground\"", "says NO", "reads low"
std::string step_words(const Plan& plan, const Taken& step, Mood mood = Mood::does);
// "battery-rest passes, fan-called says NO, relay-click passes"
std::string way_words(const Plan& plan, const std::vector<Taken>& way);

} // namespace loomsheet
