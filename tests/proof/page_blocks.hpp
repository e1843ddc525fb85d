// Pages of Markdown as the tests read them: fenced blocks, and tables that a test holds in step with the program.
#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace loomsheet::pages {

struct Block {
    std::string kind; // what stands behind the fence: "plan", "plan part", "plan wrong", "text"
    std::string text;
    int line = 0; // of its first line in the page
};

std::string read(const std::string& path); // from the root of the project
std::vector<Block> blocks(std::string_view page);

// Hold a piece of a page to be `wanted`: what stands between `<!-- table NAME -->` and `<!-- end -->`, or in the fenced
// block that follows the text `before`. With LOOMSHEET_REFRESH in the environment the page is written anew instead.
void hold_table(const std::string& path, const std::string& name, const std::string& wanted);
void hold_block_after(const std::string& path, const std::string& before, const std::string& wanted);

} // namespace loomsheet::pages
