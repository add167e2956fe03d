#pragma once

#include <functional>

namespace roostward::cli {

/// While it lives, Ctrl-C and SIGTERM run the cleanup of the moment and end the program with 130. Must be
/// made before any thread. One at a time.
class Interrupts {
 public:
    Interrupts();
    ~Interrupts();
    Interrupts(const Interrupts&) = delete;
    Interrupts& operator=(const Interrupts&) = delete;

    /// While it lives, `action` runs when the program is interrupted. One at a time.
    class Cleanup {
     public:
        explicit Cleanup(std::function<void()> action);
        ~Cleanup();
        Cleanup(const Cleanup&) = delete;
        Cleanup& operator=(const Cleanup&) = delete;
    };
};

}  // namespace roostward::cli
