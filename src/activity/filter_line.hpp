#pragma once

#include <cstddef>
#include <vector>

namespace roostward::activity {

/// Adds `share` of a symmetric filter along one direction: out[i] += share · Σ taps[|k|] · middle[i +
/// k·step]. `taps` is one side of it, the middle first.
void filter_line(const float* middle, std::size_t step, const std::vector<float>& taps, std::size_t n,
                 float share, float* out);

}  // namespace roostward::activity
