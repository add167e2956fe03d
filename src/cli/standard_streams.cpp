#include "roostward/cli/standard_streams.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::cli {

void hold_standard_streams() {
    for (const int descriptor : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
        if (::fcntl(descriptor, F_GETFD) < 0 && errno == EBADF)
            (void)::open("/dev/null", descriptor == STDIN_FILENO ? O_WRONLY : O_RDONLY);
}

void print_answer(std::string_view text, std::string_view stands) {
    errno = 0;
    const bool whole = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
    if (whole && std::fflush(stdout) == 0) return;
    std::string sentence = core::said("error.standard_output", {{"why", std::strerror(errno)}});
    if (!stands.empty()) sentence.append(" ").append(stands);
    throw core::Error(core::Fault::outputs, {}, sentence);
}

void print_note(std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), stderr);
}

}  // namespace roostward::cli
