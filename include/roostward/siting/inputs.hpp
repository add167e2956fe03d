#pragma once

#include <optional>
#include <string>
#include <vector>

#include "roostward/core/finding.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/siting/settings.hpp"
#include "roostward/survey/records.hpp"
#include "roostward/trees/suitability.hpp"

namespace roostward::siting {

/// A file that was read.
struct InputFile {
    std::string role;  ///< "passes", "avoid[0]", "canopy" …
    std::string file;  ///< as the site file names it
    std::string sha256;
    std::string crs;        ///< of the file
    std::string operation;  ///< how its coordinates came into the planning plane; empty where they were in it
    std::optional<core::Metres> accuracy;
    /// Which column was taken for which field, as "dbh_cm ← girth_cm (girth, in cm)".
    std::vector<std::string> columns;
};

/// All that was read, in the planning plane.
struct Inputs {
    geo::Crs planning_crs;
    core::Records<survey::Pass> passes;
    core::Records<survey::Track> tracks;
    core::Records<survey::Tally> tallies;
    core::Records<survey::Watch> watches;
    core::Records<survey::Route> routes;
    trees::Inventory trees;
    core::Records<trees::KnownRoost> roosts;
    core::Records<trees::Lamp> lamps;
    core::Records<trees::HungBox> boxes;
    trees::Features roads, water;
    std::vector<geo::Polygon> allowed_area;
    std::vector<geo::Line> paths;             ///< people walk on them
    core::Records<survey::Station> stations;  ///< where people may stand; then nowhere else
    std::vector<geo::Polygon> keep_out;       ///< where nobody may stand
    std::vector<trees::AvoidLayer> avoid;
    std::optional<core::Raster> canopy_height;  ///< metres above ground
    std::optional<core::Raster> ground_height;  ///< metres above sea on the same cells
    std::vector<core::RowCount> counts;         ///< one a vector layer, as read
    std::vector<InputFile> files;
    core::Findings findings;
    /// In passes, tracks and watches; where nobody watched, that of the last inspection or roost seen.
    std::optional<core::Date> latest_date;
};

}  // namespace roostward::siting
