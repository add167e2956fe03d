#include "roostward/siting/mounting.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <tuple>

#include "roostward/core/point.hpp"

namespace roostward::siting {

namespace {

constexpr core::Degrees quarter_turn{90.0};
constexpr core::Degrees east{90.0};
constexpr core::Degrees off_the_way_in{45.0};
constexpr core::Degrees before_a_face{45.0};
constexpr FacingArc morning_sun{core::Degrees(67.5), core::Degrees(112.5)};

core::Degrees middle_of(const FacingArc& arc) {
    return core::normalised(arc.from + 0.5 * core::normalised(arc.to - arc.from));
}

/// Judges the compass points of one tree.
class Points {
 public:
    Points(const Mounting& mounting, const Outlook& outlook) : mounting_(mounting), outlook_(outlook) {}

    [[nodiscard]] bool looks_at_a_road(std::size_t point) const {
        return outlook_.road && core::turn_between(bearing_of_point(point), *outlook_.road) <= before_a_face;
    }
    [[nodiscard]] bool too_hot(std::size_t point) const {
        const auto& sun = outlook_.hot_sun[point];
        return mounting_.most_hot_sun && sun && *sun > *mounting_.most_hot_sun;
    }

    /// What the first box would face if it could face anything.
    [[nodiscard]] std::size_t wished() const {
        return best([&](std::size_t point) { return wish(point); });
    }
    [[nodiscard]] std::size_t first() const {
        return best([&](std::size_t point) {
            return std::tuple(looks_at_a_road(point), too_hot(point), wish(point));
        });
    }
    [[nodiscard]] std::size_t next(const std::vector<std::size_t>& taken) const {
        return best([&](std::size_t point) {
            core::Degrees nearest(180.0);
            for (const std::size_t other : taken)
                nearest =
                    std::min(nearest, core::turn_between(bearing_of_point(point), bearing_of_point(other)));
            const bool crowded = nearest < quarter_turn;
            const core::Degrees off_east = core::turn_between(bearing_of_point(point), east);
            return std::tuple(crowded, looks_at_a_road(point), too_hot(point), blocked(point),
                              off_east > quarter_turn,
                              crowded ? quarter_turn - nearest : nearest - quarter_turn, off_east, point);
        });
    }

 private:
    template <class Cost>
    [[nodiscard]] static std::size_t best(const Cost& cost) {
        std::array<decltype(cost(0)), compass_points> costs;
        for (std::size_t point = 0; point < compass_points; ++point)
            costs[point] = cost(point);
        return static_cast<std::size_t>(std::ranges::min_element(costs) - costs.begin());
    }

    [[nodiscard]] bool blocked(std::size_t point) const {
        return outlook_.clear[point].value_or(mounting_.clear_approach) < mounting_.clear_approach;
    }
    using Wish = std::tuple<bool, bool, core::Degrees, core::Degrees, std::size_t>;
    [[nodiscard]] Wish wish(std::size_t point) const {
        const core::Degrees bearing = bearing_of_point(point);
        const core::Degrees aim = outlook_.way_in.value_or(middle_of(mounting_.sunny));
        const bool off = outlook_.way_in && core::turn_between(bearing, *outlook_.way_in) > off_the_way_in;
        return {off, blocked(point), turn_outside(mounting_.sunny, bearing), core::turn_between(bearing, aim),
                point};
    }

    const Mounting& mounting_;
    const Outlook& outlook_;
};

}  // namespace

Mounting mounting_of(const Settings& settings, Hemisphere hemisphere) {
    const Profile& profile = settings.profile;
    const bool north = hemisphere == Hemisphere::north;
    Mounting mounting;
    mounting.height = entrance_height(profile);
    mounting.sunny = settings.climate.hot() ? morning_sun
                     : north                ? profile.facing_north.value
                                            : profile.facing_south.value;
    mounting.clear_approach = profile.clear_approach.value;
    mounting.boxes = settings.choice.boxes_per_site;
    if (settings.box.heats_up()) mounting.most_hot_sun = settings.climate.most_hot_sun;
    return mounting;
}

core::Degrees bearing_of_point(std::size_t point) {
    return core::Degrees(360.0 * static_cast<double>(point) / static_cast<double>(compass_points));
}

core::Degrees turn_outside(const FacingArc& arc, core::Degrees bearing) {
    const core::Degrees past = core::normalised(bearing - arc.from);
    if (past <= core::normalised(arc.to - arc.from)) return core::Degrees(0.0);
    return std::min(core::turn_between(bearing, arc.from), core::turn_between(bearing, arc.to));
}

Facings facings_of(const Mounting& mounting, const Outlook& outlook) {
    const Points points(mounting, outlook);
    std::vector<std::size_t> taken{points.first()};
    while (taken.size() < mounting.boxes)
        taken.push_back(points.next(taken));

    Facings facings;
    for (const std::size_t point : taken)
        facings.boxes.push_back(bearing_of_point(point));
    const std::size_t wished = points.wished();
    facings.wished = bearing_of_point(wished);
    facings.off_the_road = wished != taken.front() && points.looks_at_a_road(wished);
    facings.off_the_heat = wished != taken.front() && points.too_hot(wished);
    return facings;
}

std::string_view compass_point(core::Degrees bearing) {
    static constexpr std::array<std::string_view, 16> points{
        "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"};
    const auto sixteenth = static_cast<std::size_t>(std::lround(core::normalised(bearing).value() / 22.5));
    return points[sixteenth % points.size()];
}

}  // namespace roostward::siting
