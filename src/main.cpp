#include "roostward/cli/run.hpp"

/// Read by jemalloc as it starts: huge pages, for fresh small ones cost a third of a plan; one arena, whose
/// freed memory is kept for what comes next.
extern "C" const char* const malloc_conf = "thp:always,narenas:1,oversize_threshold:0,dirty_decay_ms:-1";

int main(int argc, char** argv) {
    return roostward::cli::run(argc, argv);
}
