#include "roostward/cli/interrupts.hpp"

#include <pthread.h>
#include <signal.h>  // NOLINT(modernize-deprecated-headers): sigwait and sigset_t are POSIX, not C
#include <unistd.h>

#include <mutex>
#include <thread>
#include <utility>

namespace roostward::cli {

namespace {

constexpr int interrupted = 130;

struct Undo {
    std::mutex mutex;
    std::function<void()> action;
};

/// Lives as long as the program, because the waiting thread does.
Undo& undo() {
    static auto* const the_undo = new Undo;
    return *the_undo;
}

sigset_t awaited() {
    sigset_t set;
    sigemptyset(&set);
    sigaddset(&set, SIGINT);
    sigaddset(&set, SIGTERM);
    return set;
}

[[noreturn]] void wait_for_signal() {
    const sigset_t set = awaited();
    int signal = 0;
    while (sigwait(&set, &signal) != 0) {
    }
    const std::scoped_lock lock(undo().mutex);
    if (undo().action) undo().action();
    _exit(interrupted);
}

}  // namespace

Interrupts::Interrupts() {
    const sigset_t set = awaited();
    pthread_sigmask(SIG_BLOCK, &set, nullptr);
    std::thread(wait_for_signal).detach();
}

Interrupts::~Interrupts() {
    const std::scoped_lock lock(undo().mutex);
    undo().action = nullptr;
}

Interrupts::Cleanup::Cleanup(std::function<void()> action) {
    const std::scoped_lock lock(undo().mutex);
    undo().action = std::move(action);
}

Interrupts::Cleanup::~Cleanup() {
    const std::scoped_lock lock(undo().mutex);
    undo().action = nullptr;
}

}  // namespace roostward::cli
