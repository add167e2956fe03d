#pragma once

#include "roostward/plan/plan.hpp"

namespace roostward::plan {

/// No passes, tracks or tallies are given, or their sheets are blank.
[[nodiscard]] bool nothing_seen(const siting::Inputs& inputs);

/// Which trees could hold a box, which to settle and with whom, which are ruled out: before anybody watched.
[[nodiscard]] Plan screen(siting::Settings settings, siting::Inputs inputs, core::Threads threads);

}  // namespace roostward::plan
