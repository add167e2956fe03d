#pragma once

#include "roostward/geo/crs.hpp"
#include "roostward/plan/plan.hpp"

namespace roostward::testing {

/// A park with two trees, of which T7 is chosen and T8, 12 m to its south, is not: at 52° north on the middle
/// meridian of UTM zone 30, so that grid north is true north.
inline plan::Plan one_site() {
    plan::Plan plan;
    plan.planning_crs = {"EPSG:32630"};
    plan.settings.site_name = "Mill Park";
    plan.settings.profile.entrance_kind = "slot";
    plan.settings.profile.clear_drop.value = core::Metres(2.5);
    plan.settings.choice.sites = 1;
    plan.middle = {core::Degrees(-3), core::Degrees(52)};
    plan.mounting.height = core::Metres(4.5);
    plan.mounting.boxes = 2;
    const core::PlanePoint stem =
        geo::Transform(geo::wgs84(), plan.planning_crs)(core::PlanePoint{-3.0, 52.0});
    plan.surfaces.flight_density.grid = core::grid_over(
        {{stem.easting - 50.0, stem.northing - 50.0}, {stem.easting + 50.0, stem.northing + 50.0}},
        core::Metres(1.0));
    plan.trees.rows.resize(2);
    plan.candidates.resize(2);
    plan.trees.rows[0].id = "T7";
    plan.trees.rows[0].stem = stem;
    plan.trees.rows[0].species = "Tilia cordata";
    plan.trees.rows[0].dbh = core::Centimetres(41);
    plan.trees.rows[1].id = "T8";
    plan.trees.rows[1].stem = {stem.easting, stem.northing - 12.0};
    for (siting::Candidate& candidate : plan.candidates)
        candidate.facings = siting::Facings{{core::Degrees(157.5), core::Degrees(90)}, core::Degrees(157.5)};
    plan.candidates[0].site = plan.candidates[0].rank = 1;
    plan.candidates[1].rank = 2;
    plan.chosen = {0};
    plan.ranked = {0, 1};
    survey::Watch gate;
    gate.name = "gate";
    gate.path = {stem};
    plan.survey.watches = {gate};
    return plan;
}

}  // namespace roostward::testing
