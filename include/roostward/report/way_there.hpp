#pragma once

#include <memory>
#include <string>

#include "roostward/plan/plan.hpp"

namespace roostward::report {

/// Tells in words how to find a tree: "45 m north-east of the watch place bridge-1; 8 m south of the water; 9
/// m west of tree 0151". First comes the nearest watch place within 300 m, else the middle of the allowed
/// area, else of the watched ground. Water, roads and what a box keeps away from are told within 30 m, the
/// nearest only; the next tree within 30 m. Directions are true, of eight. The plan must outlive it.
class WaysThere {
 public:
    explicit WaysThere(const plan::Plan& plan);
    ~WaysThere();
    WaysThere(WaysThere&&) noexcept;
    WaysThere& operator=(WaysThere&&) noexcept;

    [[nodiscard]] std::string to(std::size_t tree) const;

 private:
    struct Landmarks;
    std::unique_ptr<Landmarks> landmarks_;
};

}  // namespace roostward::report
