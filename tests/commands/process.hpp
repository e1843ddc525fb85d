// The built program, run as a process of its own.
#pragma once
#include <string>
#include <utility>
#include <vector>

struct Ran {
    int exit = -1; // -1: ended by a signal
    std::string out, err;
};
struct Surround {
    std::string input = {};                                          // for standard input
    std::string folder = {};                                         // to run in; empty: here
    std::vector<std::pair<std::string, std::string>> variables = {}; // on top of ours
    std::string out_to = {};                                         // standard output goes there instead
    bool terminal = false; // standard error (and output) is a terminal; all of it comes back as `err`
};
Ran run_program(const std::vector<std::string>& arguments, const Surround& surround = {});
