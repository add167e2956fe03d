#pragma once

/// Marks a function that is compiled for several vector widths, the processor choosing at start-up.
/// Contraction is off and sums run in fixed lanes, so every clone gives the same bits. Sanitizers cannot run
/// the choosing code.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__) && \
    !defined(__SANITIZE_THREAD__)
#define ROOSTWARD_VECTOR_CLONES __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define ROOSTWARD_VECTOR_CLONES
#endif
