#include "roostward/siting/mounting.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "roostward/core/point.hpp"

namespace roostward::siting {

namespace {

constexpr core::Metres out_of_reach{4.0};
constexpr core::Degrees quarter_turn{90.0};
constexpr core::Degrees east{90.0};

}  // namespace

core::Metres entrance_height(const Profile& profile) {
    return std::max(profile.mount_height.value.typical, out_of_reach);
}

Mounting mounting_of(const Profile& profile, Hemisphere hemisphere, std::size_t boxes) {
    const FacingArc arc =
        hemisphere == Hemisphere::north ? profile.facing_north.value : profile.facing_south.value;
    const core::Degrees first = core::normalised(arc.from + 0.5 * core::normalised(arc.to - arc.from));
    const core::Degrees left = core::normalised(first - quarter_turn),
                        right = core::normalised(first + quarter_turn);
    const bool by_left = core::turn_between(left, east) <= core::turn_between(right, east);
    Mounting mounting{entrance_height(profile), {}};
    for (std::size_t i = 0; i < boxes; ++i) {
        const core::Degrees turned = static_cast<double>(i) * quarter_turn;
        mounting.facings.push_back(core::normalised(by_left ? first - turned : first + turned));
    }
    return mounting;
}

std::string_view compass_point(core::Degrees bearing) {
    static constexpr std::array<std::string_view, 16> points{
        "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"};
    const auto sixteenth = static_cast<std::size_t>(std::lround(core::normalised(bearing).value() / 22.5));
    return points[sixteenth % points.size()];
}

}  // namespace roostward::siting
