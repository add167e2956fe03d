#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "layers/layers.hpp"
#include "roostward/geo/crs.hpp"

namespace roostward::io {

/// Everything that was read, still in the systems of its files.
struct UnplacedInputs {
    std::optional<UnplacedPasses> passes;
    std::optional<UnplacedLayer<survey::Track>> tracks;
    std::optional<UnplacedTallies> tallies;
    std::optional<UnplacedWatches> watches;
    std::optional<UnplacedLayer<survey::Route>> routes;
    std::optional<UnplacedTrees> trees;
    std::optional<UnplacedLayer<trees::KnownRoost>> roosts;
    std::optional<UnplacedLayer<trees::Lamp>> lamps;
    std::optional<UnplacedLayer<trees::HungBox>> boxes;
    std::optional<UnplacedLayer<GroundShape>> roads, water;
    std::optional<UnplacedLayer<GroundShape>> allowed_area;
    std::optional<UnplacedLayer<GroundShape>> paths, keep_out;
    std::optional<UnplacedLayer<survey::Station>> stations;
    std::optional<UnplacedLayer<NamedGround>> squares;
    std::vector<UnplacedLayer<GroundShape>> avoid;
};

/// The system that the site file names, or the UTM zone of the allowed area, else of the watches, else of
/// what was seen, else of the trees, else of the squares. Throws Error{site_file} where it is no projected
/// system in metres, or is needed.
[[nodiscard]] geo::Crs planning_crs(const std::string& wanted, const UnplacedInputs& inputs);

/// The planning plane, and the ways into it.
class PlanningPlane {
 public:
    explicit PlanningPlane(geo::Crs crs) : crs_(std::move(crs)) {}
    [[nodiscard]] const geo::Crs& crs() const { return crs_; }

    /// Null where `from` is the plane itself. Not for several threads.
    [[nodiscard]] const geo::Transform* way_from(const geo::Crs& from);

 private:
    geo::Crs crs_;
    std::map<std::string, std::optional<geo::Transform>> ways_;
};

/// Grid north against true north over a site, by that at the four corners (bilinear between them: within
/// 0.001° over 100 km in UTM).
class GridNorth {
 public:
    GridNorth(const geo::Crs& plane, const core::Box& site);
    [[nodiscard]] core::Degrees grid_bearing(core::Degrees true_bearing, core::PlanePoint at) const;
    /// Furthest from 1 at the corners.
    [[nodiscard]] double worst_scale() const { return worst_scale_; }

 private:
    core::Box site_;
    double convergence_[4]{};  ///< south-west, south-east, north-west, north-east
    double worst_scale_ = 1.0;
};

}  // namespace roostward::io
