// The sheets of a class: what the lab sheet hides, what the answer sheet and the cards tell.
#include "circuit/fault.hpp"
#include "printed.hpp"
#include "proof/reading_table.hpp"
#include "sheet/words/limit.hpp"
#include "sheet/words/wording.hpp"
#include <algorithm>
#include <doctest/doctest.h>
#include <set>

using namespace loomsheet;

namespace {

const printed::Proved& fan_class() { return printed::proved("plans/cooling/fan.plan"); }

page::Document sheet_of(const printed::Proved& of, const char* name) {
    SheetResult result = printed::sheet_of(of, {}, printed::shipped(name));
    for (const Diagnostic& finding : result.findings.list())
        FAIL_CHECK(finding.says);
    return std::move(result.document);
}

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// As predict prints it, in the signs of the sheet.
std::string in_signs(std::string words) {
    for (const auto& [from, to] :
         {std::pair<std::string, std::string>{"(-", "(−"}, {".. -", ".. −"}, {" ohm", " Ω"}, {" mohm", " mΩ"}, {" kohm", " kΩ"}})
        for (std::size_t at = words.find(from); at != std::string::npos; at = words.find(from, at + to.size()))
            words.replace(at, from.size(), to);
    return words.front() == '-' ? "−" + words.substr(1) : words;
}

} // namespace

TEST_CASE("a lab sheet tells no limit in figures; it has a blank for the prediction beside each reading") {
    const printed::Proved& fan = fan_class();
    const page::Document lab = sheet_of(fan, "lab");
    const std::string words = printed::words(lab);
    for (const Check& check : fan.plan.checks)
        for (const Limit* limit : limits_of(check))
            if (limit->low || limit->high)
                CHECK_MESSAGE(!holds(words, printed::plain(limit_words(english(), *limit, check.measure))), check.label);
    CHECK(holds(words, "in order"));
    std::set<std::string> names;
    for (const page::Page& page : lab.pages)
        for (const page::Region& region : page.regions)
            names.insert(region.name);
    for (const std::string& name : names)
        if (name.starts_with("check ") && holds(name, " reading")) {
            std::string predicted = name;
            predicted.replace(predicted.find(" reading"), 8, " predicted");
            CHECK_MESSAGE(names.contains(predicted), name);
        }
    for (const Question& question : fan.plan.questions) {
        CHECK(names.contains("answer " + question.label));
        CHECK(!holds(words, question.answers.front().substr(0, 20)));
    }
}

TEST_CASE("an answer sheet has the reading of a sound car, the answers, and each card") {
    const printed::Proved& fan = fan_class();
    const std::string words = printed::words(sheet_of(fan, "answer"));
    CHECK(holds(words, "12.6 V (12.36 .. 12.94 V)"));
    for (const Question& question : fan.plan.questions)
        CHECK(holds(words, printed::plain(question.answers.front()).substr(0, 20)));
    for (const Plant& plant : fan.plan.plants)
        CHECK(holds(words, plant.title));
}

TEST_CASE("a card is a leaf: its front tells no fault; its back has what each check on the way reads, and the verdict "
          "that blames it") {
    const printed::Proved& fan = fan_class();
    const Plan& plan = fan.plan;
    const page::Document cards = sheet_of(fan, "card");
    const Predictor sound(plan.circuit, system_volts(plan));
    REQUIRE(plan.plants.size() == 4);
    REQUIRE(cards.pages.size() == 2 * plan.plants.size());
    for (std::size_t i = 0; i < plan.plants.size(); ++i) {
        const Plant& plant = plan.plants[i];
        CAPTURE(plant.title);
        const std::string front = printed::words(cards.pages[2 * i]), back = printed::words(cards.pages[2 * i + 1]);
        CHECK(holds(front, plant.title));
        CHECK(holds(front, plant.complaint));
        CHECK(!holds(front, plant.how.substr(0, 12)));
        CHECK(!holds(front, plan.circuit.parts[plant.fault.at_point.part == none ? 0 : plant.fault.at_point.part].id + "."));
        CHECK(holds(back, plant.how.substr(0, 12)));
        CHECK(holds(back, plant.undo.substr(0, 12)));
        // Computed anew, as `predict --fault` does.
        const Prediction readings = predict(plan, Predictor(sound, plant.fault, normal_use(plan)));
        const PlantedCar& car = fan.planted[i];
        REQUIRE(car.endings.size() == 1);
        CHECK(car.judged.front() == Judgement::found);
        CHECK(holds(back, plan.verdicts[car.endings.front().verdict].title.substr(0, 20)));
        for (const Taken& step : car.endings.front().way) {
            const CheckPrediction& made = readings[static_cast<std::size_t>(step.check)];
            for (const RowPrediction& row : made.rows)
                CHECK(holds(back, in_signs(reading_words(plan.circuit, row.reading, plan.checks[step.check].measure))));
        }
    }
}

TEST_CASE("a reading that is too long for one line of its field takes two") {
    printed::Proved negative;
    negative.plan = printed::plan(R"(plan NEG-01 "Leads the wrong way"
  complaint "Dark": E1 dark
battery G1 12.6 V ±6 %, inner 20 mohm
ground XE1
fuse F1 10 A
lamp E1 1/2 55 W at 12 V
wire W1 G1.+ -> F1.1 1 mm2 4 m
wire W2 F1.2 -> E1.1 1 mm2 4 m
wire W3 E1.2 -> XE1 1 mm2 4 m
wire W4 G1.- -> XE1 16 mm2 1 m
check a "Volts, red lead on ground"
  volts E1.2 to E1.1
  expect -14 .. -9 V
  pass -> done
  fail -> suspects
plant p "Card A" F1 blown
)");
    const Predictor sound(negative.plan.circuit, system_volts(negative.plan));
    negative.prediction = predict(negative.plan, sound);
    negative.diagnosis = diagnose(negative.plan, sound, negative.prediction);
    negative.planted = planted_cars(negative.plan, sound);
    for (const char* name : {"lab", "answer", "card"})
        for (const Paper paper : {Paper::a4, Paper::letter})
            for (const char* language : {"english", "german", "spanish"}) {
                const SheetResult result = printed::sheet_of(negative, paper, printed::shipped(name, language));
                for (const Diagnostic& finding : result.findings.list())
                    FAIL_CHECK(name << " " << language << ": " << finding.says);
            }
    CHECK(holds(printed::words(sheet_of(negative, "answer")), "−12."));
}

TEST_CASE("no card is printed of a fault that changes nothing, and the answer sheet has no line for it") {
    printed::Proved one;
    one.plan = printed::plan(
        printed::lamp_plan("check lit \"Lamp\"\n  with S1 pressed\n  look \"It is lit\": E1 lit\n  pass -> done\n  fail -> suspects\n"
                           "plant same \"Card A\" X1.2 touches W4\nplant cut \"Card B\" W4 open\n"));
    const Predictor sound(one.plan.circuit, system_volts(one.plan));
    one.prediction = predict(one.plan, sound);
    one.diagnosis = diagnose(one.plan, sound, one.prediction);
    one.planted = planted_cars(one.plan, sound);
    const page::Document cards = sheet_of(one, "card");
    CHECK(cards.pages.size() == 2);
    CHECK(!holds(printed::words(cards), "Card A"));
    CHECK(holds(printed::words(cards), "Card B"));
    const std::string answer = printed::words(sheet_of(one, "answer"));
    CHECK(!holds(answer, "Card A"));
    CHECK(holds(answer, "Card B"));
}
