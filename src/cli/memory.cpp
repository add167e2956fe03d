#include "roostward/cli/memory.hpp"

#include <malloc.h>
#include <sys/mman.h>

#include <cstdint>
#include <cstdlib>
#include <limits>

namespace roostward::cli {

namespace {

constexpr std::size_t huge_page = std::size_t{2} << 20U;
/// Address space only: what is not used takes no memory.
constexpr std::size_t reserve = std::size_t{1} << 30U;

}  // namespace

void prefer_huge_pages() {
#ifdef __GLIBC__
    mallopt(M_MMAP_MAX, 0);
    mallopt(M_TRIM_THRESHOLD, std::numeric_limits<int>::max());
    mallopt(M_ARENA_MAX, 1);
    void* const block = std::malloc(reserve);
    if (block == nullptr) return;
    const auto begin = (reinterpret_cast<std::uintptr_t>(block) + huge_page - 1) / huge_page * huge_page;
    // NOLINTNEXTLINE(performance-no-int-to-ptr): rounding an address up is integer arithmetic
    madvise(reinterpret_cast<void*>(begin), reserve - huge_page, MADV_HUGEPAGE);
    std::free(block);
#endif
}

}  // namespace roostward::cli
