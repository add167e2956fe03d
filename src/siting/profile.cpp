#include "roostward/siting/profile.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace roostward::siting {

std::string_view to_text(Status status) {
    switch (status) {
        case Status::published:
            return "published";
        case Status::common_practice:
            return "common practice";
        case Status::from_memory:
            return "from memory";
    }
    return "from memory";
}

const Season* active_season(const Profile& profile, core::Degrees latitude) {
    constexpr double tropic = 23.44;  // of Cancer and of Capricorn
    const auto& active = latitude.value() < 0.0 ? profile.active_south : profile.active_north;
    return active && std::abs(latitude.value()) >= tropic ? &active->value : nullptr;
}

core::Metres entrance_height(const Profile& profile) {
    constexpr core::Metres out_of_reach{4.0};
    return std::max(profile.mount_height.value.typical, out_of_reach);
}

double Curve::at(double measured) const {
    const auto after = std::ranges::find_if(points, [&](const Point& p) { return p.measured > measured; });
    if (after == points.begin()) return points.front().utility;
    const Point& before = *std::prev(after);
    if (after == points.end()) return before.utility;
    const double part = (measured - before.measured) / (after->measured - before.measured);
    return before.utility + part * (after->utility - before.utility);
}

}  // namespace roostward::siting
