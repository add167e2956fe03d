#pragma once

#include <iterator>
#include <utility>
#include <vector>

#include "roostward/activity/flight_lines.hpp"
#include "roostward/core/finding.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/siting/inputs.hpp"
#include "roostward/siting/mounting.hpp"
#include "roostward/survey/survey.hpp"
#include "roostward/trees/suitability.hpp"

/// What a plan and a screening share.
namespace roostward::plan {

/// Takes layers out of the inputs.
[[nodiscard]] trees::Surroundings surroundings_of(siting::Inputs& inputs, const survey::Matched& seen,
                                                  const std::vector<activity::FlightLine>& lines);

/// Rows as read, less those that matching set aside or apart.
[[nodiscard]] std::vector<core::RowCount> counts_after(std::vector<core::RowCount> counts,
                                                       const survey::Matched& seen);

/// Roosts of others go where they belong.
void sort_roosts(siting::Inputs& inputs, survey::Matched& seen, const survey::Settings& settings);

/// Tells where the hottest month was not told.
void tell_climate(const siting::Settings& settings, core::Findings& findings);

template <class... Rest>
[[nodiscard]] core::Findings joined(core::Findings all, Rest... rest) {
    const auto add = [&all](core::Findings& part) {
        all.insert(all.end(), std::make_move_iterator(part.begin()), std::make_move_iterator(part.end()));
    };
    (add(rest), ...);
    return all;
}

/// Of some ground.
struct Middle {
    core::PlanePoint in_plane;
    core::GeographicPoint place;
    core::Degrees meridian_convergence;
};
[[nodiscard]] Middle middle_of(const core::Box& box, const geo::Crs& plane);

[[nodiscard]] siting::Hemisphere hemisphere_of(core::GeographicPoint place);

}  // namespace roostward::plan
