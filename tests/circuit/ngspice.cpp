#include "circuit/ngspice.hpp"
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <ngspice/sharedspice.h>
#include <string_view>

namespace loomsheet::lab {
namespace {

// reltol, vntol, abstol: when a solution counts as settled. A linear network settles at once; these leave no doubt of
// it. gmin: siemens that ngspice puts beside junctions, and tries at every node when a matrix looks singular. There are
// none here, and it must not hide one. Neither rshunt nor a pivot tolerance is touched: both would change the network
// solved.
constexpr const char* options = ".options reltol=1e-12 vntol=1e-15 abstol=1e-15 gmin=1e-15";

} // namespace

std::vector<std::string> netlist(const Network& network, const std::vector<char>& left_out, std::optional<double> red_volts) {
    const auto name = [&](int node) { return node == network.black ? "0" : fmt::format("n{}", node); };
    std::vector<std::string> lines{"network", options};
    for (std::size_t i = 0; i < network.elements.size(); ++i) {
        const Resistor& element = network.elements[i];
        if (std::isinf(element.ohms) || element.a == element.b) continue;
        if (left_out[element.a] || left_out[element.b]) continue;
        const std::string a = name(element.a), b = name(element.b);
        if (element.volts == 0) {
            lines.push_back(fmt::format("r{} {} {} {:.17g}", i, a, b, element.ohms));
        } else {
            lines.push_back(fmt::format("v{} {} m{} {:.17g}", i, a, i, element.volts));
            lines.push_back(fmt::format("r{} m{} {} {:.17g}", i, i, b, element.ohms));
        }
    }
    if (red_volts && network.red != network.black) lines.push_back(fmt::format("vred {} 0 {:.17g}", name(network.red), *red_volts));
    lines.emplace_back(".end");
    return lines;
}

Ngspice& Ngspice::get() {
    static Ngspice one;
    return one;
}

Ngspice::Ngspice() {
    // Called when ngspice gives up for good: nothing can be asked of it any more.
    const auto gave_up = [](int, NG_BOOL, NG_BOOL, int, void*) -> int { std::abort(); };
    ngSpice_Init(&Ngspice::said, nullptr, gave_up, nullptr, nullptr, nullptr, this);
}

int Ngspice::said(char* text, int, void* self) {
    const std::string_view line = text;
    for (const char* word : {"rror", "arning", "ingular", "stderr"})
        if (line.find(word) != std::string_view::npos) {
            static_cast<Ngspice*>(self)->complaints_.append(line).append("\n");
            break;
        }
    return 0;
}

void Ngspice::load(std::vector<std::string> netlist) {
    if (loaded_) {
        command("destroy all");
        command("remcirc");
    }
    complaints_.clear();
    std::vector<char*> lines;
    for (std::string& line : netlist)
        lines.push_back(line.data());
    lines.push_back(nullptr);
    ngSpice_Circ(lines.data());
    loaded_ = true;
}

void Ngspice::command(const std::string& line) { ngSpice_Command(const_cast<char*>(line.c_str())); }

std::optional<double> Ngspice::volts(int node) const {
    const vector_info* vector = ngGet_Vec_Info(const_cast<char*>(fmt::format("n{}", node).c_str()));
    if (!vector || vector->v_length != 1) return std::nullopt;
    return vector->v_realdata[0];
}

} // namespace loomsheet::lab
