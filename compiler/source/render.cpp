#include "source/render.hpp"
#include "source/catalogue.hpp"
#include "source/excerpt.hpp"
#include "source/utf8.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <vector>

namespace loomsheet {

namespace {
constexpr std::string_view word_of(Severity severity) {
    switch (severity) {
    case Severity::note: return "note";
    case Severity::warning: return "warning";
    case Severity::error: break;
    }
    return "error";
}

// ANSI: bold, and red, yellow or cyan.
struct Paint {
    bool on;
    std::string operator()(std::string_view code, std::string_view text) const {
        return on ? fmt::format("\x1b[{}m{}\x1b[0m", code, text) : std::string(text);
    }
    std::string operator()(Severity severity, std::string_view text) const {
        constexpr std::string_view codes[] = {"1;36", "1;33", "1;31"};
        return (*this)(codes[static_cast<std::size_t>(severity)], text);
    }
};

std::string place(const Sources& sources, Span at) {
    const Position position = sources[at.file].position(at.begin);
    return fmt::format("{}:{}:{}", printable(sources[at.file].name()), position.line, position.column);
}

// Those that are shown, in their order. When there are too many, errors go before warnings, warnings before notes.
std::vector<const Diagnostic*> chosen(const Findings& findings, std::size_t most) {
    std::vector<const Diagnostic*> list;
    for (const Diagnostic& finding : findings.list())
        list.push_back(&finding);
    if (list.size() <= most) return list;
    std::stable_sort(list.begin(), list.end(), [](const Diagnostic* a, const Diagnostic* b) { return severity_of(*a) > severity_of(*b); });
    list.resize(most);
    std::sort(list.begin(), list.end()); // they point into one array: its order
    return list;
}

std::string and_more(const Findings& findings, std::size_t shown) {
    return findings.list().size() > shown ? fmt::format("and {} more\n", findings.list().size() - shown) : std::string{};
}

// The line as typed with its underline, numbered, behind a bar.
void add_excerpt(std::string& out, const Sources& sources, Span at, std::size_t margin, std::string_view mark) {
    const SourceFile& file = sources[at.file];
    const Excerpt excerpt = excerpt_of(file, at);
    out += fmt::format("  {:>{}} | {}\n", file.position(at.begin).line, margin, excerpt.line);
    out += fmt::format("  {:>{}} | {:{}}{}\n", "", margin, "", excerpt.before, mark);
}

std::string underline(const Sources& sources, Span at) { return std::string(excerpt_of(sources[at.file], at).marked, '^'); }

// A help may run over several lines; those after the first stand under it.
void add_help(std::string& out, std::string_view help, std::size_t margin, const Paint& paint) {
    std::string_view lead = "help: ";
    while (!help.empty()) {
        const std::size_t end = help.find('\n');
        out += fmt::format("  {:>{}} {}{}\n", "", margin, paint("1", lead), printable(help.substr(0, end)));
        lead = "      ";
        help = end == std::string_view::npos ? std::string_view{} : help.substr(end + 1);
    }
}

std::size_t digits(std::uint32_t number) { return fmt::formatted_size("{}", number); }

std::string one_line(std::string_view text) {
    std::string joined(text);
    std::replace(joined.begin(), joined.end(), '\n', ' ');
    return printable(joined);
}

void add_text(std::string& out, const Sources& sources, const Diagnostic& finding, const Paint& paint) {
    const Severity severity = severity_of(finding);
    std::size_t margin = digits(sources[finding.at.file].position(finding.at.begin).line);
    for (const Related& related : finding.related)
        margin = std::max(margin, digits(sources[related.at.file].position(related.at.begin).line));

    out += fmt::format("{}: {}: {}\n", paint("1", place(sources, finding.at)),
                       paint(severity, fmt::format("{} {}", word_of(severity), code_name(finding.code))), one_line(finding.says));
    add_excerpt(out, sources, finding.at, margin, paint(severity, underline(sources, finding.at)));
    for (const Related& related : finding.related) {
        out += fmt::format("  {:>{}} {}: {}\n", "", margin, place(sources, related.at), one_line(related.says));
        add_excerpt(out, sources, related.at, margin, paint("1", underline(sources, related.at)));
    }
    add_help(out, finding.help, margin, paint);
}

nlohmann::ordered_json json_place(const Sources& sources, Span at) {
    const SourceFile& file = sources[at.file];
    const Position begin = file.position(at.begin);
    const Position end = file.position(at.end);
    return {{"file", file.name()}, {"line", begin.line}, {"column", begin.column}, {"end_line", end.line}, {"end_column", end.column}};
}
} // namespace

std::string render_text(const Sources& sources, const Findings& findings, const RenderOptions& options) {
    std::string out;
    const auto list = chosen(findings, options.most);
    for (const Diagnostic* finding : list)
        add_text(out, sources, *finding, Paint{options.colour});
    return out + and_more(findings, list.size());
}

std::string render_short(const Sources& sources, const Findings& findings, const RenderOptions& options) {
    std::string out;
    const auto list = chosen(findings, options.most);
    const Paint paint{options.colour};
    for (const Diagnostic* finding : list) {
        const Severity severity = severity_of(*finding);
        out += fmt::format("{}: {} {}: {}", place(sources, finding->at), paint(severity, word_of(severity)), code_name(finding->code),
                           one_line(finding->says));
        out += finding->help.empty() ? "\n" : fmt::format(" ({})\n", one_line(finding->help));
    }
    return out + and_more(findings, list.size());
}

std::string render_json(const Sources& sources, const Findings& findings) {
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const Diagnostic& finding : findings.list()) {
        nlohmann::ordered_json one = {{"code", code_name(finding.code)}, {"severity", word_of(severity_of(finding))}};
        one.update(json_place(sources, finding.at));
        one["says"] = finding.says;
        if (!finding.help.empty()) one["help"] = finding.help;
        for (const Related& related : finding.related) {
            nlohmann::ordered_json other = json_place(sources, related.at);
            other["says"] = related.says;
            one["related"].push_back(std::move(other));
        }
        list.push_back(std::move(one));
    }
    return list.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

std::string summary(const Findings& findings) {
    std::string out;
    for (const Severity severity : {Severity::error, Severity::warning, Severity::note}) {
        const std::size_t count = findings.count(severity);
        if (count == 0) continue;
        out += fmt::format("{}{} {}{}", out.empty() ? "" : ", ", count, word_of(severity), count == 1 ? "" : "s");
    }
    return out.empty() ? "no findings" : out;
}

} // namespace loomsheet
