#include "even_ground.hpp"

namespace roostward::survey {

std::vector<geo::Polygon> even_ground(const Noted& noted, const std::vector<geo::Polygon>& allowed_area) {
    constexpr core::Metres margin{50.0};
    if (!allowed_area.empty()) return geo::merged(allowed_area);
    std::vector<core::PlanePoint> seen;
    for (const auto& pass : noted.passes.rows)
        seen.push_back(pass.position);
    for (const auto& track : noted.tracks.rows)
        seen.insert(seen.end(), track.path.begin(), track.path.end());
    return geo::widened_hull(seen, margin);
}

}  // namespace roostward::survey
