#include "roostward/siting/mounting.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <tuple>

#include "roostward/core/point.hpp"

namespace roostward::siting {

namespace {

constexpr core::Metres out_of_reach{4.0};
constexpr core::Degrees quarter_turn{90.0};
constexpr core::Degrees east{90.0};
constexpr core::Degrees off_the_way_in{45.0};

core::Degrees middle_of(const FacingArc& arc) {
    return core::normalised(arc.from + 0.5 * core::normalised(arc.to - arc.from));
}

/// The points that the choice is among; never empty.
std::vector<std::size_t> open_points(const Mounting& mounting, const Outlook& outlook) {
    std::vector<std::size_t> toward, open;
    for (std::size_t point = 0; point < compass_points; ++point) {
        if (outlook.way_in && core::turn_between(bearing_of_point(point), *outlook.way_in) > off_the_way_in)
            continue;
        toward.push_back(point);
        if (outlook.clear[point].value_or(mounting.clear_approach) >= mounting.clear_approach)
            open.push_back(point);
    }
    return open.empty() ? toward : open;
}

}  // namespace

core::Metres entrance_height(const Profile& profile) {
    return std::max(profile.mount_height.value.typical, out_of_reach);
}

Mounting mounting_of(const Profile& profile, Hemisphere hemisphere, std::size_t boxes) {
    return {entrance_height(profile),
            hemisphere == Hemisphere::north ? profile.facing_north.value : profile.facing_south.value,
            profile.clear_approach.value, boxes};
}

core::Degrees bearing_of_point(std::size_t point) {
    return core::Degrees(360.0 * static_cast<double>(point) / static_cast<double>(compass_points));
}

core::Degrees turn_outside(const FacingArc& arc, core::Degrees bearing) {
    const core::Degrees past = core::normalised(bearing - arc.from);
    if (past <= core::normalised(arc.to - arc.from)) return core::Degrees(0.0);
    return std::min(core::turn_between(bearing, arc.from), core::turn_between(bearing, arc.to));
}

core::Degrees facing_of(const Mounting& mounting, const Outlook& outlook) {
    const core::Degrees aim = outlook.way_in.value_or(middle_of(mounting.sunny));
    const auto cost = [&](std::size_t point) {
        const core::Degrees bearing = bearing_of_point(point);
        return std::tuple(turn_outside(mounting.sunny, bearing), core::turn_between(bearing, aim), point);
    };
    return bearing_of_point(std::ranges::min(open_points(mounting, outlook), {}, cost));
}

std::vector<core::Degrees> facings_of(const Mounting& mounting, core::Degrees first) {
    const core::Degrees left = core::normalised(first - quarter_turn),
                        right = core::normalised(first + quarter_turn);
    const bool by_left = core::turn_between(left, east) <= core::turn_between(right, east);
    std::vector<core::Degrees> facings;
    for (std::size_t i = 0; i < mounting.boxes; ++i) {
        const core::Degrees turned = static_cast<double>(i) * quarter_turn;
        facings.push_back(core::normalised(by_left ? first - turned : first + turned));
    }
    return facings;
}

std::string_view compass_point(core::Degrees bearing) {
    static constexpr std::array<std::string_view, 16> points{
        "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"};
    const auto sixteenth = static_cast<std::size_t>(std::lround(core::normalised(bearing).value() / 22.5));
    return points[sixteenth % points.size()];
}

}  // namespace roostward::siting
