#include "roostward/core/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace roostward::core {

namespace {

/// Keeps the exception of the lowest piece, so that the same fault is reported however threads run.
class FirstFault {
 public:
    void keep(std::size_t piece, std::exception_ptr fault) {
        const std::scoped_lock lock(mutex_);
        if (!fault_ || piece < piece_) {
            piece_ = piece;
            fault_ = std::move(fault);
        }
    }
    void rethrow() const {
        if (fault_) std::rethrow_exception(fault_);
    }

 private:
    std::mutex mutex_;
    std::size_t piece_ = 0;
    std::exception_ptr fault_;
};

}  // namespace

void parallel_for(std::size_t count, std::size_t piece, Threads threads,
                  const std::function<void(std::size_t, std::size_t)>& work) {
    if (count == 0) return;
    piece = std::max<std::size_t>(piece, 1);
    const std::size_t pieces = (count + piece - 1) / piece;
    std::atomic<std::size_t> next{0};
    FirstFault fault;
    const auto run = [&] {
        for (std::size_t i = next++; i < pieces; i = next++) {
            try {
                work(i * piece, std::min(count, (i + 1) * piece));
            } catch (...) {
                fault.keep(i, std::current_exception());
            }
        }
    };
    const unsigned cores = std::max(1U, std::thread::hardware_concurrency());
    const std::size_t workers = std::min<std::size_t>(threads.count == 0 ? cores : threads.count, pieces);
    {
        std::vector<std::jthread> helpers;
        helpers.reserve(workers - 1);
        for (std::size_t i = 1; i < workers; ++i)
            helpers.emplace_back(run);
        run();
    }
    fault.rethrow();
}

}  // namespace roostward::core
