// The templates and words that travel inside the program: the files of templates/.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace loomsheet {

// The text of "workshop.sheet", "german.words"; empty when none of that name ships.
std::string_view shipped_file(std::string_view name);
// "workshop", "pocket" ... for ".sheet", sorted; "english" ... for ".words".
std::vector<std::string> shipped_names(std::string_view ending);

} // namespace loomsheet
