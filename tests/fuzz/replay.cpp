// Feeds every file of the folders named on the command line, as an ordinary test: a crash names the file last said.
#include "fuzz/take.hpp"
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

int main(int argc, char** argv) {
    std::vector<std::string> files;
    for (int i = 1; i < argc; ++i)
        for (const auto& entry : std::filesystem::recursive_directory_iterator(argv[i]))
            if (entry.is_regular_file()) files.push_back(entry.path().string());
    std::sort(files.begin(), files.end());
    for (const std::string& path : files) {
        std::printf("%s\n", path.c_str());
        std::fflush(stdout);
        std::ifstream file(path, std::ios::binary);
        take(std::string(std::istreambuf_iterator<char>(file), {}));
    }
    std::printf("%zu files\n", files.size());
    return files.empty() ? 1 : 0; // a replay of nothing proves nothing
}
