#include "roostward/siting/ways_in.hpp"

#include <array>
#include <cmath>

#include "roostward/canopy/round_view.hpp"

namespace roostward::siting {

namespace {

constexpr core::Degrees to_each_side{30.0};
constexpr core::Degrees all_round{180.0};
constexpr core::Degrees half_a_face{90.0};

/// Two for each ray, so that each ray stands in the middle of its own.
constexpr std::size_t sectors = 2 * canopy::rays;
constexpr double sector_width = 360.0 / static_cast<double>(sectors);

bool runs_over_the_stem(const LineOffset& line) {
    return line.offset <= core::Metres(0.0);
}

class Trunks {
 public:
    explicit Trunks(const Hanging& hanging) : hanging_(hanging), path_(hanging.latitude) {}

    [[nodiscard]] Outlook outlook(const std::optional<canopy::RoundView>& view,
                                  const std::optional<LineOffset>& line) const {
        Outlook outlook;
        if (line && !runs_over_the_stem(*line))
            outlook.way_in = core::normalised(line->toward + hanging_.meridian_convergence);
        if (!view) return outlook;
        for (std::size_t point = 0; point < compass_points; ++point)
            outlook.clear[point] =
                canopy::clear_toward(*view, in_grid(bearing_of_point(point)), to_each_side);
        return outlook;
    }

    /// Empty where the horizon before the face is not known.
    [[nodiscard]] std::optional<sun::FaceSun> sun_on(core::Degrees facing,
                                                     const canopy::RoundView& view) const {
        std::array<core::Degrees, sectors> horizon;
        for (std::size_t i = 0; i < sectors; ++i) {
            const core::Degrees bearing((static_cast<double>(i) + 0.5) * sector_width);
            const auto elevation = static_cast<double>(view.horizon[nearest_ray(bearing)]);
            const bool before_it = core::turn_between(bearing, facing) <= half_a_face;
            if (std::isnan(elevation) && before_it) return std::nullopt;
            horizon[i] = core::Degrees(std::isnan(elevation) ? 0.0 : elevation);
        }
        return path_.over(horizon).on_face(facing);
    }

 private:
    [[nodiscard]] core::Degrees in_grid(core::Degrees bearing) const {
        return core::normalised(bearing - hanging_.meridian_convergence);
    }
    [[nodiscard]] std::size_t nearest_ray(core::Degrees bearing) const {
        return static_cast<std::size_t>(std::lround(in_grid(bearing).value() / (2.0 * sector_width))) %
               canopy::rays;
    }

    Hanging hanging_;
    sun::SunPath path_;
};

}  // namespace

void measure_ways_in(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                     const std::optional<core::Raster>& canopy_height, const Hanging& hanging,
                     core::Threads threads) {
    const Trunks trunks(hanging);
    core::parallel_for(candidates.size(), 256, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            Candidate& candidate = candidates[i];
            if (candidate.verdict.state > trees::State::settle_first) continue;
            const trees::Tree& tree = inventory.rows[i];
            std::optional<canopy::RoundView> view;
            if (canopy_height)
                view = canopy::look_round(*canopy_height,
                                          {tree.stem, hanging.mounting.height,
                                           tree.crown_radius.value_or(hanging.unknown_crown_radius)});
            const auto& line = candidate.flight_line;
            candidate.facing = facing_of(hanging.mounting, trunks.outlook(view, line));
            if (!view) continue;
            candidate.sun = trunks.sun_on(*candidate.facing, *view);
            if (line)
                candidate.approach_clear = canopy::clear_toward(
                    *view, line->toward, runs_over_the_stem(*line) ? all_round : to_each_side);
        }
    });
}

}  // namespace roostward::siting
