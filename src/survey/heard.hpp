#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "roostward/survey/survey.hpp"

namespace roostward::survey {

/// A pass and the watch that it was seen from.
struct SeenPass {
    const Pass* pass = nullptr;
    std::uint32_t watch = 0;
    bool placed = true;    ///< the position is the animal's
    double counted = 1.0;  ///< share of the pass that counts
};

/// Positions that are where the watch stood are no places of animals: where more than half of the passes of a
/// station, and three or more, lie within 1 m of it, those count as heard somewhere in its view, with a
/// finding that says how many. Passes whose `place_of` is animal are believed. Common practice, no source.
void find_heard(std::vector<SeenPass>& passes, std::span<const Watch> watches,
                const core::Records<Pass>& layer, core::Findings& findings);

/// A note of how many passes are said to be placed where the observer or recorder was.
void tell_said_to_be_heard(const std::vector<SeenPass>& passes, const core::Records<Pass>& layer,
                           core::Findings& findings);

/// A doubt where four in five of 20 and more passes, with no accuracy told, lie at five points.
void tell_heaped(const std::vector<SeenPass>& passes, const core::Records<Pass>& layer,
                 core::Findings& findings);

/// A doubt where flights were heard and none has a place.
void tell_if_nothing_is_placed(const Survey& survey, core::Findings& findings);

/// Feeding passes of one watch within `once` of the first count as one: each an equal share, with a finding.
void merge_feeding(std::vector<SeenPass>& passes, std::chrono::minutes once, const core::Records<Pass>& layer,
                   core::Findings& findings);

}  // namespace roostward::survey
