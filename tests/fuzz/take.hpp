// What a fuzzer, or the replay of its corpus, feeds with bytes. Each of parse.cpp and pages.cpp defines it for its
// target; it stops the program when a promise is broken.
#pragma once
#include <cstdio>
#include <cstdlib>
#include <string_view>

void take(std::string_view bytes);

inline void promise(bool kept, const char* what) {
    if (kept) return;
    std::fprintf(stderr, "broken promise: %s\n", what);
    std::abort();
}
