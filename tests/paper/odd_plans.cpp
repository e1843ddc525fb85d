#include "odd_plans.hpp"
#include <fmt/format.h>
#include <iterator>
#include <random>
#include <string_view>
#include <vector>

namespace {

using Letters = std::vector<std::string_view>;
const Letters alphabets[] = {
    {"e", "n", "i", "s", "r", "a", "t", "d", "l", "o", "W", "m"},
    {"ä", "ö", "ß", "e", "n", "r", "Ü", "st", "i", "g"},
    {"α", "ε", "ή", "λ", "Σ", "τ", "ο", "ρ", "ν"},
    {"в", "е", "н", "т", "и", "л", "я", "Щ", "р"},
    {"電", "気", "線", "か", "テ", "灯", "車", "右"},
};
constexpr const char* colours[] = {"RD", "BU/WH", "BK", "GN/YE", "BN", "GY/BK", "VT", "OG/GN"};

class Odd {
public:
    explicit Odd(std::uint32_t seed) : random_(seed), letters_(&alphabets[seed % std::size(alphabets)]) {}

    std::string text() {
        const int cavities = some(8) ? 50 : 2 + below(6);
        const int checks = some(40) ? 0 : some(60) ? 200 : 1 + below(12);
        const int verdicts = checks == 0 ? 0 : 1 + below(std::min(checks, 28));
        std::string text =
            fmt::format("plan ODD-{} {}\n  vehicle {}\n  complaint {}\n  revision 1 2026-11-26\n  author {}\n  system 12 V\n", below(1000),
                        words(60), words(60), words(90), words(20));
        for (int i = below(3); i > 0; --i)
            text += fmt::format("  caution {}\n  note {}\n", words(120), words(280));
        text += fmt::format("battery G1 {}, 12.6 V, at {}\nground XE1 {}, at {}\n", words(30), words(40), words(30), words(60));
        text += fmt::format("fuse F1 {}, 20 A, at {}\n", words(60), words(60));
        text += fmt::format("access lid {}, 12 min, how {}\n", words(40), words(60));
        text += fmt::format("lamp E1 {}, 1/2 21 W, at {}, behind lid\n", words(60), words(60));
        text += fmt::format("connector X1 {}, {} pins, mates X2, half {} {}, at {}, lock \"at 3 o'clock\"\n", words(60), cavities,
                            words(15), words(15), words(60));
        text += fmt::format("connector X3 {}, 2 pins, on E1, lock {}\n", words(40), words(30));
        text += wire("W1", "G1.+", "F1.1", "4 mm2") + wire("W2", "F1.2", "X1.1", "2.5 mm2") + wire("W3", "X2.1", "X3.1", "2.5 mm2") +
                wire("W4", "X3.2", "X2.2", "2.5 mm2") + wire("W5", "X1.2", "XE1", "2.5 mm2") + wire("W6", "G1.-", "XE1", "16 mm2");
        for (int pin = 3; pin <= cavities; ++pin)
            if (some(2))
                text += wire(fmt::format("W{}", pin + 10), fmt::format("X1.{}", pin), "F1.2", "2.5 mm2") +
                        wire(fmt::format("W{}", pin + 110), fmt::format("X2.{}", pin), "X3.1", "2.5 mm2");
        for (int i = 0; i < checks; ++i)
            text += check(i, checks, verdicts);
        for (int i = 0; i < verdicts; ++i)
            text += verdict(i);
        return text;
    }

private:
    std::mt19937 random_;
    const Letters* letters_;

    int below(int end) { return static_cast<int>(random_() % static_cast<std::uint32_t>(end)); }
    bool some(int of) { return below(of) == 0; }

    // Quoted; up to `most` letters. Now and then one word alone.
    std::string words(int most) {
        const bool wide = letters_ == std::end(alphabets) - 1; // a sign says as much as two letters
        const int length = 1 + below(wide ? most / 2 : most);
        std::string text = "\"";
        int word = some(6) ? 40 : 1 + below(12);
        for (int i = 0; i < length; ++i) {
            if (word-- == 0 && i + 1 < length) text += " ", word = 1 + below(12);
            text += (*letters_)[static_cast<std::size_t>(below(static_cast<int>(letters_->size())))];
        }
        return text + "\"";
    }

    std::string wire(const std::string& name, const char* from, const char* to, const char* size) {
        return fmt::format("wire {} {} -> {} {} {} 0.5 m\n", name, from, to, size, colours[below(std::size(colours))]);
    }
    std::string wire(const std::string& name, const std::string& from, const char* to, const char* size) {
        return wire(name, from.c_str(), to, size);
    }

    std::string check(int index, int count, int verdicts) {
        std::string text = fmt::format("check c{} {}\n", index, words(60));
        if (some(2)) text += "  with X3 unplugged, F1 pulled\n";
        for (int i = below(3); i > 0; --i)
            text += fmt::format("  steps {}\n", words(80));
        const int rows = 1 + (some(3) ? below(6) : 0);
        const char* points[] = {"G1.+ to F1.1", "F1.2 to XE1", "X1.1 to XE1", "X2.1 to X2.2", "X3.1 to X3.2", "F1.1 to G1.-"};
        if (some(4))
            text += fmt::format("  look {}\n", words(80));
        else if (rows == 1)
            text += fmt::format("  volts {}\n  expect 0 .. 14 V\n", points[below(std::size(points))]);
        else {
            for (int i = 0; i < rows; ++i)
                text += fmt::format("  volts {} {}\n", words(30).insert(1, std::to_string(i + 1) + " "), points[i]);
            text += "  expect 0 .. 14 V\n";
        }
        if (some(3)) text += fmt::format("  caution {}\n", words(90));
        if (some(3)) text += fmt::format("  note {}\n", words(280));
        if (some(2)) text += fmt::format("  time {} min\n", 1 + below(20));
        if (some(5)) text += fmt::format("  question {}\n  answer {}\n", words(90), words(120));
        text += index + 1 < count ? fmt::format("  pass -> c{}\n", index + 1) : "  pass -> done\n";
        return text + (index < verdicts ? fmt::format("  fail -> v{}\n", index) : std::string("  fail -> suspects\n"));
    }

    std::string verdict(int index) {
        const char* blames[] = {"W1", "W2", "W3", "W4", "W5", "W6", "E1", "F1", "joint X1.1"};
        std::string text =
            fmt::format("verdict v{} {}\n  blames {}\n  repair {}\n", index, words(60), blames[below(std::size(blames))], words(120));
        if (some(3)) text += fmt::format("  note {}\n", words(200));
        if (some(4)) text += fmt::format("  caution {}\n", words(90));
        return text + "  after c0\n";
    }
};

} // namespace

std::string odd_plan(std::uint32_t seed) { return Odd(seed).text(); }
