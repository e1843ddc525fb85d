#include "commands/process.hpp"
#include "scratch.hpp"
#include <cstdlib>
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {
void put(const std::string& path, int flags, int as) {
    const int opened = open(path.c_str(), flags, 0600);
    if (opened < 0 || dup2(opened, as) < 0) _exit(99);
}

// The far end of a new terminal, and the name of its near end.
int new_terminal(std::string& name) {
    const int master = posix_openpt(O_RDWR | O_NOCTTY);
    if (master < 0 || grantpt(master) != 0 || unlockpt(master) != 0) throw std::runtime_error("no terminal");
    name = ptsname(master);
    return master;
}

std::string drain(int master) {
    std::string text;
    char buffer[4096];
    ssize_t got = 0;
    while ((got = read(master, buffer, sizeof buffer)) > 0)
        text.append(buffer, static_cast<std::size_t>(got));
    return text;
}
} // namespace

Ran run_program(const std::vector<std::string>& arguments, const Surround& surround) {
    const Scratch scratch;
    scratch.write("in", surround.input);
    std::string terminal;
    const int master = surround.terminal ? new_terminal(terminal) : -1;
    const std::string out = !terminal.empty() ? terminal : surround.out_to.empty() ? scratch / "out" : surround.out_to;
    const std::string err = !terminal.empty() ? terminal : scratch / "err";

    std::vector<char*> words = {const_cast<char*>(LOOMSHEET_PROGRAM)};
    for (const std::string& argument : arguments)
        words.push_back(const_cast<char*>(argument.c_str()));
    words.push_back(nullptr);

    const pid_t child = fork();
    if (child == 0) {
        put(scratch / "in", O_RDONLY, STDIN_FILENO);
        put(out, O_WRONLY | O_CREAT | O_NOCTTY, STDOUT_FILENO);
        put(err, O_WRONLY | O_CREAT | O_NOCTTY, STDERR_FILENO);
        if (!surround.folder.empty() && chdir(surround.folder.c_str()) != 0) _exit(99);
        for (const auto& [name, value] : surround.variables)
            setenv(name.c_str(), value.c_str(), 1);
        execv(words[0], words.data());
        _exit(99);
    }
    Ran ran;
    if (master >= 0) ran.err = drain(master);
    int status = 0;
    waitpid(child, &status, 0);
    if (master >= 0) close(master);
    if (WIFEXITED(status)) ran.exit = WEXITSTATUS(status);
    if (surround.out_to.empty() && terminal.empty()) ran.out = read_file(out);
    if (terminal.empty()) ran.err = read_file(err);
    return ran;
}
