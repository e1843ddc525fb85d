#include "commands/process.hpp"
#include "scratch.hpp"
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <doctest/doctest.h>
#include <nlohmann/json.hpp>
#include <regex>

namespace fs = std::filesystem;

namespace {
const std::string fan_path = LOOMSHEET_ROOT "/plans/cooling/fan.plan";
const std::string fan = read_file(fan_path);

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// Proof of one plan, through a file.
Ran proof(const std::string& text, const std::string& format = "short") {
    const Scratch scratch;
    scratch.write("x.plan", text);
    return run_program({"proof", "--format", format, "x.plan"}, {.folder = scratch.path.string()});
}

// Of a page as poppler reads it, with the signs that are typed in plans.
std::string page_words(const std::string& pdf, int page) {
    const std::string command = "pdftotext -raw -f " + std::to_string(page) + " -l " + std::to_string(page) + " '" + pdf + "' -";
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string words;
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe))
        words += static_cast<char>(c);
    REQUIRE(pclose(pipe) == 0);
    for (const auto& [from, to] : {std::pair<std::string, std::string>{"\u2212", "-"}, {"\u03A9", "ohm"}, {"\u00A0", " "}})
        for (std::size_t at = words.find(from); at != std::string::npos; at = words.find(from, at + to.size()))
            words.replace(at, from.size(), to);
    return words;
}

std::vector<std::string> shipped_plans() {
    std::vector<std::string> plans;
    for (const auto& entry : fs::recursive_directory_iterator(LOOMSHEET_ROOT "/plans"))
        if (entry.path().extension() == ".plan") plans.push_back(entry.path().string());
    std::sort(plans.begin(), plans.end());
    return plans;
}
} // namespace

TEST_CASE("every shipped plan is clean and prints as a sound PDF, on both papers, with the same bytes on every run") {
    const auto plans = shipped_plans();
    REQUIRE(plans.size() >= 3);
    for (const std::string paper : {"a4", "letter"}) {
        const Scratch one, two;
        const Ran first = run_program({"print", LOOMSHEET_ROOT "/plans", "--paper", paper, "-o", one.path.string()});
        CHECK(first.exit == 0);
        CHECK(first.err == "");
        CHECK(run_program({"print", LOOMSHEET_ROOT "/plans", "--paper", paper, "-o", two.path.string()}).exit == 0);
        CHECK(one.count() == plans.size());
        for (const std::string& plan : plans) {
            const std::string sheet = fs::path(plan).stem().string() + ".pdf";
            INFO(sheet);
            CHECK(holds(first.out, sheet));
            CHECK(std::system(("qpdf --check " + (one / sheet) + " > " + (one / "said") + " 2>&1").c_str()) == 0);
            CHECK((read_file(one / sheet) == read_file(two / sheet)));
        }
    }
}

TEST_CASE("standard input is a plan like others and is called so") {
    const Ran clean = run_program({"proof", "-"}, {.input = fan});
    CHECK(clean.exit == 0);
    CHECK(clean.out.ends_with("standard input: no findings\n"));
    const Ran bad = run_program({"proof", "--format", "short", "-"}, {.input = "fuse F1\n"});
    CHECK(bad.exit == 1);
    CHECK(bad.out.starts_with("standard input:1:"));
    const Scratch scratch;
    CHECK(run_program({"print", "-"}, {.input = fan, .folder = scratch.path.string()}).out.starts_with("standard-input.pdf, "));
    CHECK(read_file(scratch / "standard-input.pdf").starts_with("%PDF-"));
}

TEST_CASE("a class set is printed with one command; its cards read what predict says") {
    const Scratch scratch;
    const Ran printed = run_program({"print", "--class", fan_path, "-o", scratch.path.string()});
    CHECK(printed.exit == 0);
    for (const char* name : {"fan-lab.pdf", "fan-answer.pdf", "fan-card.pdf"})
        CHECK(printed.out.find(name) != std::string::npos);
    // Each reading with its range that stands on the back of a card.
    struct Card {
        int page;
        const char* fault;
    };
    for (const Card& card : {Card{2, "joint X30.1 2.2 ohm"}, {4, "K5.86/85 open"}, {6, "joint X1.47 open"}, {8, "W10 0.6 ohm"}}) {
        CAPTURE(card.fault);
        const std::string back = page_words(scratch / "fan-card.pdf", card.page);
        const std::string predicted = run_program({"predict", "--fault", card.fault, fan_path}).out;
        static const std::regex reading(R"(-?[0-9][0-9.]* m?(V|ohm) \([^)]*\))");
        std::size_t readings = 0;
        for (std::sregex_iterator at(back.begin(), back.end(), reading), end; at != end; ++at, ++readings)
            CHECK_MESSAGE(predicted.find(at->str()) != std::string::npos, at->str());
        CHECK(readings > 5);
    }
    CHECK(run_program({"print", "--class", "--sheet", "lab", fan_path}).exit == 2);
}

TEST_CASE("form fields are there when they are asked for") {
    const Scratch scratch;
    const auto printed = [&](std::vector<std::string> words) {
        CHECK(run_program(words, {.input = fan, .folder = scratch.path.string()}).exit == 0);
        return read_file(scratch / "standard-input.pdf");
    };
    CHECK(printed({"print", "--fillable", "-"}).find("/AcroForm") != std::string::npos);
    CHECK(printed({"print", "-"}).find("/AcroForm") == std::string::npos);
}

TEST_CASE("exit codes: 0 clean, 1 a plan with errors, 2 usage or files") {
    CHECK(run_program({"--version"}).exit == 0);
    CHECK(run_program({"proof", fan_path}).exit == 0);
    CHECK(proof("fuse F1\n").exit == 1);
    CHECK(run_program({}).exit == 2);
    CHECK(run_program({"proof"}).exit == 2);
    CHECK(run_program({"proof", "no-such.plan"}).exit == 2);
    CHECK(run_program({"explain", "LS299"}).exit == 2);
}

TEST_CASE("a file that is cut off anywhere is judged, not stumbled over") {
    for (std::size_t part = 0; part < 40; ++part) {
        const Ran ran = proof(fan.substr(0, fan.size() * part / 40 + part));
        INFO(part, ran.out, ran.err);
        CHECK((ran.exit == 0 || ran.exit == 1));
        CHECK(ran.err == "");
    }
}

TEST_CASE("bytes that are no text are found at their place") {
    std::string text = fan;
    text.insert(text.find("fuse   F14") + 4, "\xE9");
    const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<long>(text.find('\xE9')), '\n');
    const Ran bad = proof(text);
    CHECK(bad.exit == 1);
    CHECK(bad.out.starts_with("x.plan:" + std::to_string(line) + ":5: error LS001: "));

    std::string nul = fan;
    nul.insert(nul.find("fuse   F14") + 4, 1, '\0');
    const Ran with_nul = proof(nul);
    CHECK(with_nul.exit == 1);
    CHECK(with_nul.out.starts_with("x.plan:" + std::to_string(line) + ":5: error LS002: "));
}

TEST_CASE("a byte order mark and CRLF change nothing, places included") {
    CHECK(proof("\xEF\xBB\xBF" + fan).exit == 0);
    std::string crlf;
    for (const char c : fan)
        crlf += c == '\n' ? "\r\n" : std::string(1, c);
    CHECK(proof(crlf).exit == 0);
    const std::string wrong = "plan A-01 \"A\"\nfuse F1 \"Fan\", 40 volts\n";
    std::string wrong_crlf = "\xEF\xBB\xBF";
    for (const char c : wrong)
        wrong_crlf += c == '\n' ? "\r\n" : std::string(1, c);
    CHECK(proof(wrong).exit == 1);
    CHECK(proof(wrong).out == proof(wrong_crlf).out);
}

TEST_CASE("a line of 10 MB is refused in few words") {
    for (const std::string& text : {std::string(10'000'000, 'x'), "plan A-01 \"" + std::string(10'000'000, 'y') + "\"\n",
                                    fan + "# " + std::string(10'000'000, 'z')}) {
        for (const std::string format : {"text", "short", "json"}) {
            const Ran ran = proof(text, format);
            CHECK(ran.exit == 1);
            CHECK(holds(ran.out, "LS003"));
            CHECK(ran.out.size() < 20'000);
        }
    }
}

TEST_CASE("a hundred thousand wires are compiled") {
    std::string text = fan;
    for (int i = 0; i < 100'000; ++i) {
        const std::string number = std::to_string(1000 + i);
        text += "wire W" + number + " XE1 -> XE3  1 mm2 BN 0.5 m\n";
    }
    const Ran ran = proof(text);
    CHECK((ran.exit == 0 || ran.exit == 1));
    CHECK(ran.err == "");
}

TEST_CASE("what leads back into itself, and what goes very deep, ends") {
    const Scratch scratch;
    scratch.write("self.plan", "use \"self.plan\"\n" + fan);
    const Ran self = run_program({"proof", "--format", "short", scratch / "self.plan"});
    CHECK(self.exit == 1);
    CHECK(holds(self.out, "LS005"));
    scratch.write("a.plan", "use \"b.plan\"\n" + fan);
    scratch.write("b.plan", "use \"./a.plan\"\n");
    const Ran circle = run_program({"proof", "--format", "short", scratch / "a.plan"});
    CHECK(circle.exit == 1);
    CHECK(holds(circle.out, "LS005"));

    for (int i = 0; i < 2000; ++i)
        scratch.write("deep/" + std::to_string(i) + ".plan", "use \"" + std::to_string(i + 1) + ".plan\"\n");
    scratch.write("deep/2000.plan", fan);
    const Ran deep = run_program({"proof", scratch / "deep/0.plan"});
    CHECK((deep.exit == 0 || deep.exit == 1));

    std::string setups = fan + "setup s0: s0\n";
    for (int i = 1; i < 20'000; ++i)
        setups += "setup s" + std::to_string(i) + ": s" + std::to_string(i - 1) + "\n";
    CHECK(proof(setups).exit == 1);
}

TEST_CASE("odd files have their finding") {
    CHECK(holds(proof("").out, "LS006"));
    CHECK(holds(proof("\n\n# only words\n").out, "LS006"));
    CHECK(proof(std::string(100'000, '(')).exit == 1);
    CHECK(proof("plan A-01 \"A\"\nfuse F1 " + std::string(300, '9') + " A\n").exit == 1);
    CHECK(proof("plan A-01 \"" + std::string(3000, 'n') + "\"\nuse \"\"\n").exit == 1);
}

TEST_CASE("a used file that is not there is a finding, at the place that uses it") {
    const Ran ran = proof("use \"common/none.plan\"\n" + fan);
    CHECK(ran.exit == 1);
    CHECK(holds(ran.out, "x.plan:1:"));
    CHECK(holds(ran.out, "LS004"));
    CHECK(holds(ran.out, "common/none.plan"));
}

TEST_CASE("paths that cannot be read or written are named with the reason") {
    const Scratch scratch;
    const auto refused = [](const std::vector<std::string>& words, const std::string& path, const char* reason) {
        const Ran ran = run_program(words);
        INFO(ran.err);
        CHECK(ran.exit == 2);
        CHECK(holds(ran.err, path));
        CHECK(holds(ran.err, reason));
    };
    refused({"proof", scratch / "none.plan"}, scratch / "none.plan", "there is no such file");
    refused({"proof", fan_path + "/x.plan"}, fan_path + "/x.plan", "a part of its path is a file");
    refused({"proof", scratch.path.string()}, scratch.path.string(), "no file ending in .plan");
    refused({"print", fan_path, "-o", fan_path}, fan_path, "cannot be made");
    refused({"print", fan_path, "-o", fan_path + "/out"}, fan_path + "/out", "cannot be made");
    fs::create_directories(scratch / "fan.pdf");
    refused({"print", fan_path, "-o", scratch.path.string()}, scratch / "fan.pdf", "it is a folder");
}

TEST_CASE("a full disk leaves no half-written sheet") {
    const Scratch scratch;
    fs::create_symlink("/dev/full", scratch / "fan.pdf");
    const Ran ran = run_program({"print", fan_path, "-o", scratch.path.string()});
    CHECK(ran.exit == 2);
    CHECK(ran.out == "");
    CHECK(holds(ran.err, scratch / "fan.pdf" + " cannot be written: the disk is full"));
    CHECK(scratch.count() == 1);
    CHECK(run_program({"proof", fan_path}, {.out_to = "/dev/full"}).exit == 2);
    CHECK(run_program({"explain", "LS204"}, {.out_to = "/dev/full"}).exit == 2);
}

TEST_CASE("a folder of fonts without the fonts is named") {
    const Scratch scratch;
    const Ran ran = run_program({"print", fan_path, "-o", scratch / "out"}, {.variables = {{"LOOMSHEET_FONTS", scratch.path.string()}}});
    CHECK(ran.exit == 2);
    CHECK(ran.out == "");
    CHECK(holds(ran.err, scratch.path.string()));
    const Ran proofed = run_program({"proof", fan_path}, {.variables = {{"LOOMSHEET_FONTS", scratch.path.string()}}});
    CHECK(proofed.exit == 0); // nothing is drawn
}

TEST_CASE("JSON can be read by a program, from either command") {
    const std::string bad = "plan A-01 \"Caf\xC3\xA9\"\nfuse F1 \"a\x1b\", 40 volts\n";
    const auto list = nlohmann::json::parse(proof(bad, "json").out).at("findings");
    REQUIRE(list.is_array());
    REQUIRE(!list.empty());
    CHECK(list[0]["file"] == "x.plan");
    CHECK(list[0]["line"].is_number());
    const Ran printed = run_program({"print", "--format", "json", "-"}, {.input = bad});
    CHECK(nlohmann::json::parse(printed.err).size() == list.size());
}

TEST_CASE("colour and progress on a terminal, not with NO_COLOR, never elsewhere") {
    const Scratch scratch;
    const std::vector<std::string> words = {"proof", scratch.write("x.plan", "fuse F1\n"), scratch.write("y.plan", "fuse F1\n")};
    const auto on_terminal = [&](std::vector<std::pair<std::string, std::string>> variables) {
        return run_program(words, {.variables = std::move(variables), .terminal = true}).err;
    };
    const std::string plain = on_terminal({{"TERM", "xterm"}, {"NO_COLOR", "1"}});
    CHECK(holds(on_terminal({{"TERM", "xterm"}, {"NO_COLOR", ""}}), "\x1b[1;31m"));
    CHECK(holds(plain, "\x1b[K2 of 2"));
    CHECK_FALSE(holds(plain, "\x1b[1"));
    CHECK_FALSE(holds(on_terminal({{"TERM", "dumb"}}), "\x1b"));
    const Ran elsewhere = run_program(words, {.variables = {{"TERM", "xterm"}}});
    CHECK_FALSE(holds(elsewhere.out + elsewhere.err, "\x1b"));
}
