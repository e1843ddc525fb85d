// How fast a file is parsed, beside how fast the same bytes are read: bench_parse FILE. Medians of ten.
#include "source/disk.hpp"
#include "syntax/parse.hpp"
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <vector>

using namespace loomsheet;

namespace {
template <typename Work>
double median_seconds(Work work) {
    std::vector<double> seconds;
    for (int i = 0; i < 10; ++i) {
        const auto start = std::chrono::steady_clock::now();
        work();
        seconds.push_back(std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
    }
    std::sort(seconds.begin(), seconds.end());
    return (seconds[4] + seconds[5]) / 2;
}
} // namespace

int main(int argc, char** argv) {
    if (argc != 2) return 2;
    RealDisk disk;
    std::string text;
    const double reading = median_seconds([&] {
        if (const DiskError error = disk.read(argv[1], text); !error.empty()) std::puts(error.c_str());
    });
    std::size_t statements = 0, findings = 0;
    Sources sources;
    const std::uint32_t file = sources.add(argv[1], text);
    const double parsing = median_seconds([&] {
        Findings found;
        statements = parse(sources, file, found).statements.size();
        findings = found.list().size();
    });
    const double megabytes = static_cast<double>(text.size()) / 1e6;
    std::printf("  plain read   %7.0f MB/s\n", megabytes / reading);
    std::printf("  parsing      %7.0f MB/s   (%.1f MB, %zu statements, %zu findings)\n", megabytes / parsing, megabytes, statements,
                findings);
    return 0;
}
