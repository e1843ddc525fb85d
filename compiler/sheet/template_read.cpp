#include "sheet/template_read.hpp"
#include "model/reader.hpp"
#include "sheet/block_rows.hpp"
#include "sheet/words/shipped.hpp"
#include "syntax/complain.hpp"
#include "syntax/parse.hpp"
#include <algorithm>
#include <array>

namespace loomsheet {
namespace {

// Index of the row of that name, or nothing.
template <class Row>
std::optional<std::size_t> row_named(std::span<const Row> rows, std::string_view name) {
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].name == name) return i;
    return std::nullopt;
}

template <class Row>
std::string near_rows(std::span<const Row> rows, std::string_view typed) {
    std::vector<std::string_view> names;
    for (const Row& row : rows)
        names.push_back(row.name);
    const std::string help = meant(typed, names);
    return help.empty() ? fmt::format("there are {}", fmt::join(names, ", ")) : help;
}

class TemplateReader {
public:
    TemplateReader(Sources& sources, Disk& disk, const TemplateWishes& wishes, Findings& findings)
        : sources_(sources), wishes_(wishes), findings_(findings), wording_(sources, disk, findings) {}

    std::optional<SheetTemplate> read(std::uint32_t file, const std::string& path) {
        file_ = file;
        path_ = path;
        const std::size_t before = findings_.list().size();
        tree_ = parse(sources_, file, findings_, sheet_vocabulary());
        words();
        for (const Statement& statement : tree_.statements)
            if (statement.row >= 0) take(statement);
        finish();
        const bool bad = findings_.list().size() > before;
        return bad ? std::nullopt : std::optional(std::move(sheet_));
    }

private:
    Sources& sources_;
    const TemplateWishes& wishes_;
    Findings& findings_;
    WordingReader wording_;
    std::uint32_t file_ = 0;
    std::string path_;
    Tree tree_;
    SheetTemplate sheet_;
    std::array<Span, 32> seen_{}; // by row of the statement, where it may stand once
    Span margins_at_, paper_at_;
    bool shows_page_ = false, shows_card_ = false;

    Form form_of(const Statement& statement) const { return sheet_vocabulary().statements[static_cast<std::size_t>(statement.row)].head; }
    Reader head(const Statement& statement) const { return {sources_, tree_, statement.first_head_arg, statement.head_args}; }
    std::string_view text(Span at) const { return sources_.text(at); }

    // The language first, then the words of the template over it.
    void words() {
        std::optional<LanguageName> asked = wishes_.language;
        for (const Statement& statement : tree_.statements)
            if (!asked && statement.row >= 0 && !statement.broken && form_of(statement) == Form::language) {
                Reader args = head(statement);
                const Span at = tree_.span(tree_.args[statement.first_head_arg].first, 1);
                const bool is_file = args.is(Atom::text);
                asked = LanguageName{is_file ? beside(path_, args.text()) : std::string(args.take_text()), is_file, at};
            }
        if (!asked) asked = LanguageName{"english", false, {file_, 0, 0}};
        if (asked->at == Span{}) asked->at = {file_, 0, 0};
        wording_.language(*asked);
        for (const Statement& statement : tree_.statements)
            if (statement.row >= 0 && !statement.broken && form_of(statement) == Form::word) wording_.word(tree_, statement);
        sheet_.words = wording_.wording();
    }

    bool is_first(const Statement& statement) {
        Span& first = seen_[static_cast<std::size_t>(statement.row)];
        const Span here = tree_.span(statement.first, 1);
        if (first == Span{}) return first = here, true;
        findings_.add({finding::twice_in_template,
                       here,
                       fmt::format("`{}` stands twice", text(here)),
                       "keep one of the two",
                       {{first, "first said here"}}});
        return false;
    }

    void take(const Statement& statement) {
        const Form form = form_of(statement);
        if (form != Form::word && form != Form::fields && !is_first(statement)) return;
        if (statement.broken) return;
        Reader args = head(statement);
        switch (form) {
        case Form::sheet: return title(args);
        case Form::shop: sheet_.shop = args.text(); return;
        case Form::paper:
            paper_at_ = tree_.span(statement.first, statement.count);
            sheet_.paper = papers()[*row_named(papers(), args.take_text())].paper;
            return;
        case Form::blocks: return blocks(args);
        case Form::page: shows_page_ = true; return shown(args, page_rows(), sheet_.page);
        case Form::card: shows_card_ = true; return shown(args, card_rows(), sheet_.card);
        case Form::margins:
            margins_at_ = tree_.span(statement.first, statement.count);
            return each_phrase(statement, [this](Reader& reader, Span at) { margin(reader, at); });
        case Form::sizes: return each_phrase(statement, [this](Reader& reader, Span at) { size(reader, at); });
        case Form::fields: return fields(args.take_text(), statement);
        default: return; // words are read
        }
    }

    template <class Use>
    void each_phrase(const Statement& statement, Use use) {
        for (auto i = statement.first_phrase; i < statement.first_phrase + statement.phrase_count; ++i) {
            const Phrase& phrase = tree_.phrases[i];
            Reader reader(sources_, tree_, phrase.first_arg, phrase.arg_count);
            use(reader, tree_.span(phrase));
        }
    }

    void title(Reader& args) {
        sheet_.name = std::string(args.take_text());
        if (args.is(Atom::text)) {
            sheet_.title = args.text();
            return;
        }
        const Span at = args.take();
        if (const std::optional<Word> found = find_word(text(at)))
            sheet_.title = sheet_.words.text(*found);
        else
            findings_.add(finding::unknown_to_templates, at, fmt::format("there is no word `{}` to be the title", text(at)),
                          "write the title in quotes");
    }

    void blocks(Reader& args) {
        std::vector<Span> places(block_rows().size());
        while (!args.done()) {
            const Span at = args.take();
            const auto row = row_named(block_rows(), text(at));
            if (!row) {
                findings_.add(finding::unknown_to_templates, at, fmt::format("there is no block `{}`", text(at)),
                              near_rows(block_rows(), text(at)));
            } else if (places[*row] == Span{}) {
                places[*row] = at;
                sheet_.blocks.push_back(&block_rows()[*row]);
            } else {
                findings_.add({finding::twice_in_template,
                               at,
                               fmt::format("the block `{}` stands twice", text(at)),
                               "keep one of the two",
                               {{places[*row], "first here"}}});
            }
        }
    }

    template <class Part>
    void shown(Reader& args, std::span<const PartRow> rows, Shown<Part>& parts) {
        args.skip_words();
        while (!args.done()) {
            const Span at = args.take();
            if (const auto row = row_named(rows, text(at)))
                parts.add(static_cast<Part>(*row));
            else
                findings_.add(finding::unknown_to_templates, at, fmt::format("there is no `{}` to show", text(at)),
                              near_rows(rows, text(at)));
        }
    }

    void margin(Reader& reader, Span at) {
        struct Edge {
            std::string_view name;
            double Margins::*mm;
            std::string_view why;
        };
        constexpr Edge edges[] = {{"left", &Margins::left, "printers leave so much white"},
                                  {"right", &Margins::right, "printers leave so much white"},
                                  {"top", &Margins::top, "the clip of the board bites there"},
                                  {"bottom", &Margins::bottom, "printers leave so much white"}};
        const Edge& edge = edges[*row_named(std::span<const Edge>(edges), reader.any_word())];
        const double mm = reader.quantity().si * 1e3, least = least_margins.*edge.mm;
        sheet_.margins.*edge.mm = mm;
        constexpr double most = 60;
        if (mm < least)
            findings_.add(finding::margins_do_not_do, at, fmt::format("{} mm are too little at the {} edge: {}", mm, edge.name, edge.why),
                          fmt::format("write `{} {} mm` or more", edge.name, least));
        else if (mm > most)
            findings_.add(finding::margins_do_not_do, at, fmt::format("{} mm at the {} edge leave too little of the paper", mm, edge.name),
                          fmt::format("write {} mm at most", most));
    }

    void size(Reader& reader, Span at) {
        struct Size {
            std::string_view name;
            double TypeSizes::*pt;
            std::string_view why;
        };
        constexpr Size sizes[] = {{"probing", &TypeSizes::probing, "what is read while probing is read at arm's length"},
                                  {"text", &TypeSizes::text, "smaller text is not read on a worn copy"},
                                  {"captions", &TypeSizes::caption, "smaller captions are not read on a worn copy"}};
        const Size& row = sizes[*row_named(std::span<const Size>(sizes), reader.any_word())];
        const double pt = reader.number(), least = least_sizes.*row.pt, most = most_sizes.*row.pt;
        sheet_.sizes.*row.pt = pt;
        if (pt < least)
            findings_.add(finding::type_size_out_of_bounds, at, fmt::format("{} pt are too small: {}", pt, row.why),
                          fmt::format("write `{} {} pt` or more", row.name, least));
        else if (pt > most)
            findings_.add(finding::type_size_out_of_bounds, at, fmt::format("{} pt are too large for the places of the sheet", pt),
                          fmt::format("write `{} {} pt` at most", row.name, most));
    }

    void fields(std::string_view place, const Statement& statement) {
        constexpr double columns = 12, least = 1.5;
        std::vector<Field> line;
        double sum = 0;
        each_phrase(statement, [&](Reader& reader, Span at) {
            Field field;
            if (reader.is(Atom::text)) {
                field.name = field.caption = reader.text();
            } else {
                const Span name = reader.take();
                const auto row = row_named(field_rows(), text(name));
                if (!row)
                    return findings_.add(finding::unknown_to_templates, name, fmt::format("there is no field `{}`", text(name)),
                                         near_rows(field_rows(), text(name)) + "; a field of your own has its caption in quotes");
                field.name = field_rows()[*row].name;
                field.caption = sheet_.words.text(field_rows()[*row].caption);
                field.filled = field_rows()[*row].filled;
            }
            field.columns = reader.number();
            if (!reader.done()) field.unit = reader.text();
            sum += field.columns;
            if (field.columns < least)
                findings_.add(finding::fields_do_not_fit, at, fmt::format("a field of {} columns is too narrow to write in", field.columns),
                              fmt::format("write {} or more", least));
            line.push_back(std::move(field));
        });
        const Span here = tree_.span(statement.first, 1);
        if (sum > columns + 1e-6)
            findings_.add(finding::fields_do_not_fit, here, fmt::format("these fields take {} columns, a row has {}", sum, columns),
                          "make some narrower, or begin another row with a further `fields`");
        if (line.empty()) return;
        FieldLines& lines = place == "head" ? sheet_.head : place == "sign-off" ? sheet_.sign_off : sheet_.approval;
        lines.push_back(std::move(line));
    }

    void finish() {
        const Span start{file_, 0, 0};
        if (findings_.has_errors()) return;
        if (sheet_.name.empty())
            findings_.add(finding::template_prints_nothing, start, "the template has no name", "begin with: sheet bay \"Bay sheet\"");
        if (sheet_.blocks.empty())
            findings_.add(finding::template_prints_nothing, start, "nothing is printed: the template has no blocks",
                          "for instance: blocks head, cautions, checks, verdicts, closing");
        if (wishes_.paper) sheet_.paper = *wishes_.paper;
        const PaperRow& paper = paper_row(sheet_.paper);
        const double room = paper.width - sheet_.margins.left - sheet_.margins.right;
        if (room < frame::least_narrow)
            findings_.add(
                finding::margins_do_not_do, margins_at_ == Span{} ? paper_at_ : margins_at_,
                fmt::format("{:.0f} mm are left between the margins of {}, {:.0f} mm are needed", room, paper.name, frame::least_narrow),
                "write smaller margins, or take larger paper");
        if (!shows_page_)
            for (std::size_t i = 0; i < page_rows().size(); ++i)
                sheet_.page.add(static_cast<PagePart>(i));
        if (!shows_card_)
            for (std::size_t i = 0; i < card_rows().size(); ++i)
                if (card_rows()[i].usual) sheet_.card.add(static_cast<CardPart>(i));
    }
};

} // namespace

TemplateResult read_template(Sources& sources, Disk& disk, const std::string& path, const TemplateWishes& wishes, Findings& findings) {
    std::string text;
    if (DiskError error = disk.read(path, text); !error.empty()) return {std::nullopt, std::move(error)};
    const std::uint32_t file = sources.add(path, std::move(text));
    return {TemplateReader(sources, disk, wishes, findings).read(file, path), {}};
}

TemplateResult shipped_template(Sources& sources, Disk& disk, const std::string& name, const TemplateWishes& wishes, Findings& findings) {
    const std::string path = name + ".sheet";
    const std::uint32_t file = sources.add(path, std::string(shipped_file(path)));
    return {TemplateReader(sources, disk, wishes, findings).read(file, path), {}};
}

const SheetTemplate& workshop_template() {
    static const SheetTemplate workshop = [] {
        Sources sources;
        MemoryDisk disk;
        Findings findings;
        return shipped_template(sources, disk, "workshop", {}, findings).sheet.value();
    }();
    return workshop;
}

} // namespace loomsheet
