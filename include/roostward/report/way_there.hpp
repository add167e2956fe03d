#pragma once

#include <memory>
#include <string>
#include <vector>

#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// Somewhere with a name that people know.
struct NamedPlace {
    core::PlanePoint position;
    std::string name;
};

/// What ways are told by. The inventory and the surroundings must outlive it.
struct Landmarks {
    std::string site_name;
    core::Degrees meridian_convergence;  ///< true bearing = grid bearing + this
    core::PlanePoint middle;             ///< of the allowed area, else of the ground that the matter is about
    const trees::Inventory& trees;
    const trees::Surroundings& around;
    std::vector<NamedPlace> watch_places;
};

/// Tells in words how to find a tree: "45 m north-east of the watch place bridge-1; 8 m south of the water; 9
/// m west of tree 0151". First comes the nearest watch place within 300 m, else the middle. Water, roads and
/// what a box keeps away from are told within 30 m, the nearest only; the next tree within 30 m. Directions
/// are true, of eight.
class WaysThere {
 public:
    explicit WaysThere(Landmarks landmarks);
    /// The plan must outlive it.
    explicit WaysThere(const plan::Plan& plan);
    ~WaysThere();
    WaysThere(WaysThere&&) noexcept;
    WaysThere& operator=(WaysThere&&) noexcept;

    [[nodiscard]] std::string to(std::size_t tree) const;
    /// To a place that is no tree.
    [[nodiscard]] std::string to(core::PlanePoint place) const;

 private:
    struct Indices;
    std::unique_ptr<Indices> indices_;
};

}  // namespace roostward::report
