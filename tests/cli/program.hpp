#pragma once

#include <fcntl.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "io/scratch_folder.hpp"

namespace roostward::testing {

struct Ran {
    int exit_code = -1;  ///< -1 where it was killed
    std::string out;
    std::string err;
};

/// Starts the program with its standard output and error in files of `scratch`.
inline ::pid_t start_program(const std::vector<std::string>& arguments, const ScratchFolder& scratch,
                             ::rlim_t largest_file = RLIM_INFINITY) {
    const ::pid_t child = ::fork();
    if (child != 0) return child;
    for (const auto& [name, descriptor] :
         {std::pair{"out.txt", STDOUT_FILENO}, std::pair{"err.txt", STDERR_FILENO}})
        ::dup2(::open((scratch / name).c_str(), O_CREAT | O_TRUNC | O_WRONLY, 0600), descriptor);
    if (largest_file != RLIM_INFINITY) {
        ::signal(SIGXFSZ, SIG_IGN);
        const ::rlimit limit{largest_file, largest_file};
        ::setrlimit(RLIMIT_FSIZE, &limit);
    }
    std::vector<char*> words{const_cast<char*>(ROOSTWARD_PROGRAM)};
    for (const auto& argument : arguments)
        words.push_back(const_cast<char*>(argument.c_str()));
    words.push_back(nullptr);
    ::execv(ROOSTWARD_PROGRAM, words.data());
    ::_exit(127);
}

inline int exit_code_of(::pid_t child) {
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

inline Ran run_program(const std::vector<std::string>& arguments, ::rlim_t largest_file = RLIM_INFINITY) {
    const ScratchFolder scratch;
    Ran ran;
    ran.exit_code = exit_code_of(start_program(arguments, scratch, largest_file));
    ran.out = text_of(scratch / "out.txt");
    ran.err = text_of(scratch / "err.txt");
    return ran;
}

inline std::filesystem::path demo() {
    return std::filesystem::path(ROOSTWARD_SOURCE_DIR) / "data" / "demo";
}

/// A copy of the demo that a test may spoil.
inline void copy_demo(const ScratchFolder& to) {
    for (const auto& entry : std::filesystem::directory_iterator(demo()))
        if (entry.is_regular_file())
            std::filesystem::copy_file(entry, to / entry.path().filename().string(),
                                       std::filesystem::copy_options::overwrite_existing);
}

/// Every file of a folder with its bytes, for comparing folders.
inline std::vector<std::pair<std::string, std::string>> bytes_of(const std::filesystem::path& folder) {
    std::vector<std::pair<std::string, std::string>> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        files.emplace_back(entry.path().filename().string(), text_of(entry.path()));
    std::ranges::sort(files);
    return files;
}

}  // namespace roostward::testing
