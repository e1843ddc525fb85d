// What is said of verdicts beyond the pages of LS701 to LS708: allowances, what stands for more than the faults that
// are tried, and the summary. The circuit is that of the pages.
#include "analysis/analysis.hpp"
#include "finding_pages.hpp"
#include "proof/verdicts.hpp"
#include "proof/witness.hpp"
#include "report/summary.hpp"
#include <sstream>

using namespace loomsheet;

namespace {

struct Proved {
    std::string found;   // "LS703@34"
    std::string summary; // of the diagnosis
};

Proved proved(const std::string& text) {
    MemoryDisk disk;
    disk.files["example.plan"] = text;
    Sources sources;
    Analysis analysis = analyse(sources, disk, {"example.plan", {}, Until::proved});
    REQUIRE(analysis.usable());
    analysis.findings.add(std::move(analysis.proof_findings));
    analysis.findings.sort();
    Proved made;
    for (const Diagnostic& finding : analysis.findings.list())
        made.found += (made.found.empty() ? "" : " ") + code_name(finding.code);
    made.summary = diagnosis_summary(*analysis.plan, *analysis.diagnosis);
    return made;
}

// The example of a page, or its cure.
std::string page(int code, std::size_t which) { return finding_pages::read(code).examples[which].files["example.plan"]; }

std::string with(std::string text, const std::string& old, const std::string& now) {
    const auto at = text.find(old);
    REQUIRE_MESSAGE(at != std::string::npos, old);
    return text.replace(at, old.size(), now);
}

bool holds(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

} // namespace

TEST_CASE("an allowance accepts a finding of the proof; one that the proof does not need is told, and only by the proof") {
    const std::string dead = page(705, 0), line = "  blames joint G1.-\n", allow = "  allow LS705 \"for the class\"\n";
    CHECK(proved(dead).found == "LS705");
    const std::string allowed = with(dead, line, line + allow);
    CHECK(proved(allowed).found.empty());
    CHECK(proved(with(page(705, 1), line, line + allow)).found == "LS312");
    MemoryDisk disk;
    disk.files["example.plan"] = with(page(705, 1), line, line + allow);
    Sources sources;
    CHECK(analyse(sources, disk, {"example.plan"}).findings.empty());
}

TEST_CASE("a verdict for what lies outside the circuit may wait for cars that no fault makes") {
    const std::string dead = page(705, 0);
    CHECK(proved(with(dead, "blames joint G1.-", "blames joint G1.- \"paint under the clamp\"")).found.empty());
    // so may one that goes on: what the car needs before its readings count
    CHECK(proved(with(dead, "  repair \"Clean it, tighten it\"\n  after  lit\n", "  repair \"Clean it, tighten it\"\n  -> lit\n"))
              .found.empty());
}

TEST_CASE("a check that finds nothing is not told where it proves a repair, or another is held against it") {
    const std::string idle = page(704, 0);
    CHECK(proved(idle).found == "LS704");
    CHECK(proved(with(idle, "  after  lit\n", "  after  lit fuse\n")).found.empty());
}

TEST_CASE("a ground point is not cleared while a wire that is bolted there may be at fault; the wire has to be named "
          "all the same") {
    const std::string sound = page(701, 1), run = "blames X1.2 to part G1.-";
    CHECK(proved(with(sound, run, "blames W4 W5 XE1 joint G1.-")).found.empty());
    CHECK(proved(with(sound, run, "blames W5 XE1 joint G1.-")).found == "LS701"); // W4 is not blamed
    CHECK(proved(with(sound, run, run + ", XE1 F1")).found == "LS702");           // the fuse is cleared, the stud is not
}

TEST_CASE("suspects that the plan names are held against the faults as a verdict is") {
    const std::string sound = page(701, 1), right = "fail \"Ground\" -> ground-bad";
    const std::string alone = sound.substr(0, sound.find("verdict ground-bad"));
    CHECK(proved(with(alone, right, "fail \"Ground\" -> suspects W5")).found == "LS701");
    CHECK(proved(with(alone, right, "fail \"Ground\" -> suspects X1.2 to part G1.-")).found.empty());
    CHECK(proved(with(alone, right, "fail \"Ground\" -> suspects")).found.empty());
}

TEST_CASE("bands of added ohms that touch are one range") {
    std::vector<Fault> list;
    for (const auto& [low, high] : {std::pair(0.01, 0.03), std::pair(0.03, 0.1), std::pair(3.0, 10.0), std::pair(10.0, 100.0),
                                    std::pair(100.0, 1e3), std::pair(1e3, 1e4)}) {
        Fault& fault = list.emplace_back();
        fault.kind = FaultKind::added;
        fault.value.emplace().si = (low + high) / 2;
        fault.value->plus_minus = (high - low) / 2;
    }
    std::vector<const Fault*> faults;
    for (const Fault& fault : list)
        faults.push_back(&fault);
    CHECK(faults_words(faults) == "0.01 .. 0.1 ohm or 3 ohm .. 10 kohm");
    Fault open;
    open.words = "open";
    faults.push_back(&open);
    CHECK(faults_words(faults) == "open, 0.01 .. 0.1 ohm or more than 3 ohm");
    faults.erase(faults.begin(), faults.begin() + 5);
    CHECK(faults_words(faults) == "open or more than 1000 ohm");
}

TEST_CASE("the summary answers first; then it names what is not surely found and what a verdict leaves") {
    const std::string good = proved(page(701, 1)).summary;
    CHECK(holds(good, "Of 100 cars with this complaint, this plan surely names the fault on 100.\n"));
    CHECK(holds(good, "parts, wires and joints that can cause it are surely found."));
    CHECK(holds(good, "feed-bad  11 "));
    CHECK_FALSE(holds(good, "lamp-bad  "));
    const std::string poor = proved(page(701, 0)).summary;
    CHECK(holds(poor, "it may blame something else."));
    CHECK(holds(poor, "joint G1.+        62 %   may end at lamp-bad\n"));
    CHECK(holds(poor, "W4, X1.2 to XE1   0 %    may end at lamp-bad\n"));
    CHECK(holds(proved(page(708, 0)).summary, "may be called sound\n"));
    std::istringstream lines(poor.substr(poor.find("not surely found")));
    std::size_t count = 0;
    for (std::string line; std::getline(lines, line) && !line.starts_with("Surely found"); ++count)
        if (line.starts_with("and ")) CHECK(count == 13); // the head and twelve
    CHECK(count <= 14);
}

TEST_CASE("of a plan whose complaint no fault causes nothing is proved, and nothing is found") {
    const std::string sound = page(701, 1);
    const Proved made = proved(with(sound, ": E1 dark or E1 dim", ": volts X1.1 to X1.2 above 20 V"));
    CHECK(made.found.empty());
    CHECK(made.summary.starts_with("Nothing is proved of this plan"));
}

TEST_CASE("suspects that a check names count among what does not hold") {
    const std::string horn = R"(plan GND-01 "Horn is silent"
  complaint "Horn is silent": H1 fails
battery G1 12.6 V
fuse F12 "Horn" 15 A
horn H1 "Horn" 1/2 5 A
ground XE1
ground XE2
wire W1 G1.+ -> F12.1 2.5 mm2 1 m
wire W3 F12.2 -> H1.1 1.5 mm2 1 m
wire W4 H1.2 -> XE1 1.5 mm2 1 m
wire W5 G1.- -> XE2 16 mm2 1 m
check horn-volts "Volts at the horn"
  volts H1.1 to H1.2
  expect above 11 V
  pass -> horn-bad
  fail -> gnd
check gnd "Ground"
  drop H1.2 to G1.-
  expect below 0.3 V
  pass -> suspects G1.+ to F12.1
  fail -> gnd-bad
check works "Horn works"
  look "It sounds": H1 works
  pass -> done
  fail -> suspects
verdict horn-bad "The horn has failed"
  blames H1 joint H1.1 joint H1.2 G1
  repair "Fit a new horn"
  after works
verdict gnd-bad "Ground is bad"
  blames H1.2 to joint G1.-
  repair "Clean it"
  after works
)";
    const std::string wrong = proved(horn).summary;
    CHECK(holds(wrong, "it may blame something else"));
    CHECK_FALSE(holds(wrong, "Every verdict holds"));
    CHECK(holds(wrong, "the suspects at gnd may be reached by a fault that they do not name"));
    const std::string right = proved(with(horn, "suspects G1.+ to F12.1", "suspects")).summary;
    CHECK_FALSE(holds(right, "the suspects at gnd"));
}

TEST_CASE("an alternator is not cleared where a reading that is too high leads: what it gives too much is not tried") {
    const std::string charging = R"(plan ALT-01 "Battery goes flat"
  complaint "The charging volts are poor": volts G1.+ to G1.- below 13.2 V
  with engine running
battery G1 "Battery" 12.6 V, 13.7 V when engine running, inner 6 mohm
battery G2 "Alternator" 14.4 V when engine running, inner 20 mohm, on engine
ground XE1
ground XE2, on engine
fuse F1 "Charge" 150 A
wire W1 G1.- -> XE1 35 mm2 0.7 m unfused
wire W2 XE1 -> XE2 35 mm2 0.7 m
wire W3 G2.- -> XE2 35 mm2 0.2 m
wire W4 G2.+ -> F1.1 25 mm2 1 m
wire W5 F1.2 -> G1.+ 25 mm2 0.5 m
check charge "Charging volts at the alternator"
  with engine running
  volts G2.+ to G2.-
  expect 13.2 .. 14.95 V
  pass -> cable
  high -> alt-high
  low -> suspects
verdict alt-high "It overcharges"
  blames G2
  repair "New regulator"
  after charge
verdict cable "The way to the battery"
  blames G1 G2 joint G2.+ to joint G1.+, joint G1.- to joint G2.-
  repair "Mend it"
  after charge
)";
    const std::string found = proved(charging).found;
    CHECK_FALSE(holds(found, "LS702"));
    CHECK_FALSE(holds(found, "LS705"));
}
