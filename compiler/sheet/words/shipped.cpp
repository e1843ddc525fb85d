#include "sheet/words/shipped.hpp"
#include <utility>

namespace loomsheet {

extern const std::pair<std::string_view, std::string_view> sheet_files[]; // written by grammar/embed.cmake
extern const unsigned long sheet_files_count;

std::string_view shipped_file(std::string_view name) {
    for (unsigned long i = 0; i < sheet_files_count; ++i)
        if (sheet_files[i].first == name) return sheet_files[i].second;
    return {};
}

std::vector<std::string> shipped_names(std::string_view ending) {
    std::vector<std::string> names;
    for (unsigned long i = 0; i < sheet_files_count; ++i)
        if (const std::string_view file = sheet_files[i].first; file.ends_with(ending))
            names.emplace_back(file.substr(0, file.size() - ending.size()));
    return names; // the names of the files are sorted
}

} // namespace loomsheet
