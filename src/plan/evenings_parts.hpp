#pragma once

#include <vector>

#include "roostward/core/parallel.hpp"
#include "roostward/evenings/choose_posts.hpp"
#include "roostward/plan/plan.hpp"

/// What a plan says to evenings to come.
namespace roostward::plan {

/// What nobody has watched could hold a box, unless something speaks against it.
[[nodiscard]] std::vector<trees::Verdict> before_watching(const std::vector<siting::Candidate>& candidates);

[[nodiscard]] evenings::KnownTrees known_of(const Plan& plan, const std::vector<trees::Verdict>& verdicts,
                                            core::Threads threads);

/// Without teams and evenings.
[[nodiscard]] evenings::Asked asked_of(const Plan& plan);

/// Where people may go besides the ground that a plan knows.
struct GroundForPeople {
    std::vector<geo::Line> paths;
    core::Records<survey::Station> stations;
    std::vector<geo::Polygon> keep_out;
};
/// Refers to both.
[[nodiscard]] evenings::Ground ground_of(const trees::Surroundings& around, const GroundForPeople& people);

}  // namespace roostward::plan
