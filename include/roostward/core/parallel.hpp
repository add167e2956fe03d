#pragma once

#include <cstddef>
#include <functional>

namespace roostward::core {

/// How many threads to use; 0 means one a core.
struct Threads {
    unsigned count = 0;
};

/// Calls `work(begin, end)` over disjoint pieces of [0, count), each of at most `piece` items, on several
/// threads. Every item is handled by exactly one call, so a loop that writes only its own items gives the
/// same bits for any number of threads. The first exception (lowest piece) is thrown again here, after all
/// threads have ended.
void parallel_for(std::size_t count, std::size_t piece, Threads threads,
                  const std::function<void(std::size_t begin, std::size_t end)>& work);

}  // namespace roostward::core
