#include "filter_line.hpp"

#include "roostward/core/vector_clones.hpp"

namespace roostward::activity {

namespace {

/// out[i] += tap · (low[i] + high[i])
ROOSTWARD_VECTOR_CLONES
void add_pair(float* out, const float* low, const float* high, float tap, std::size_t n) {
    for (std::size_t i = 0; i < n; ++i)
        out[i] += tap * (low[i] + high[i]);
}

}  // namespace

void filter_line(const float* middle, std::size_t step, const std::vector<float>& taps, std::size_t n,
                 float share, float* out) {
    for (std::size_t i = 0; i < n; ++i)
        out[i] += share * taps[0] * middle[i];
    for (std::size_t k = 1; k < taps.size(); ++k)
        add_pair(out, middle - k * step, middle + k * step, share * taps[k], n);
}

}  // namespace roostward::activity
