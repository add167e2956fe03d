#pragma once

#include <span>
#include <vector>

#include "parks/model/route.hpp"

namespace roostward::parks {

/// The place, off by so much on each axis (standard deviation, metres).
[[nodiscard]] core::PlanePoint blurred(core::PlanePoint place, double sd, core::RandomStream& random);

/// A place in the park beside the route.
[[nodiscard]] core::PlanePoint beside(const Route& route, double sd, core::RandomStream& random);

/// Places where people would stand: every other one that is placed, the first among them, near a route.
class Stations {
 public:
    Stations(std::span<const Route> routes, std::size_t count, core::RandomStream& random);

    void move_some(std::span<const Route> routes, core::RandomStream& random);
    [[nodiscard]] std::span<const core::PlanePoint> places() const { return places_; }

 private:
    [[nodiscard]] core::PlanePoint next(std::span<const Route> routes, core::RandomStream& random);
    [[nodiscard]] bool stands_apart(core::PlanePoint place) const;

    bool near_route_ = false;
    std::vector<core::PlanePoint> places_;
};

}  // namespace roostward::parks
