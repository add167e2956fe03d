#pragma once

#include <vector>

#include "heard.hpp"
#include "roostward/survey/survey.hpp"

namespace roostward::survey {

/// Placed passes of one watch within 10 s and 15 m of each other (inclusive), that flew the same way (within
/// 45°, or one of them told no way), may be one flight that two people wrote down, or one person twice. On a
/// busy route chance alone brings flights as close: as often as others of that watch, from 20 to 120 s apart,
/// lie within 15 m the same way, for each second of time between them. What is more than that is told, with
/// both numbers.
///
/// By `how` the later one of such a pair is set apart, so that each flight counts once: of two writers, of
/// any, or of none. Distances and times are common practice, no source. O(passes within 2 minutes of each
/// other).
void count_once(std::vector<SeenPass>& passes, WrittenTwice how, const core::Records<Pass>& layer,
                core::Findings& findings);

}  // namespace roostward::survey
