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

std::optional<core::Metres> approach_of(const canopy::RoundView& view, const LineOffset& line) {
    return canopy::clear_toward(view, line.toward, line.offset.value() > 0.0 ? to_each_side : all_round);
}

class Sunshine {
 public:
    explicit Sunshine(const Hanging& hanging) : hanging_(hanging), path_(hanging.latitude) {}

    /// Empty where the horizon before the face is not known.
    [[nodiscard]] std::optional<sun::FaceSun> on_face(const canopy::RoundView& view) const {
        std::array<core::Degrees, sectors> horizon;
        for (std::size_t i = 0; i < sectors; ++i) {
            const core::Degrees bearing((static_cast<double>(i) + 0.5) * sector_width);
            const auto elevation = static_cast<double>(view.horizon[ray_at(bearing)]);
            const bool before_it = core::turn_between(bearing, hanging_.facing) <= half_a_face;
            if (std::isnan(elevation) && before_it) return std::nullopt;
            horizon[i] = core::Degrees(std::isnan(elevation) ? 0.0 : elevation);
        }
        return path_.over(horizon).on_face(hanging_.facing);
    }

 private:
    /// The ray nearest to a true bearing.
    [[nodiscard]] std::size_t ray_at(core::Degrees bearing) const {
        const double in_grid = core::normalised(bearing - hanging_.meridian_convergence).value();
        return static_cast<std::size_t>(std::lround(in_grid / (2.0 * sector_width))) % canopy::rays;
    }

    Hanging hanging_;
    sun::SunPath path_;
};

}  // namespace

void measure_ways_in(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                     const core::Raster& canopy_height, const Hanging& hanging, core::Threads threads) {
    const Sunshine sunshine(hanging);
    core::parallel_for(candidates.size(), 256, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            Candidate& candidate = candidates[i];
            if (candidate.verdict.state > trees::State::settle_first) continue;
            const trees::Tree& tree = inventory.rows[i];
            const canopy::RoundView view = canopy::look_round(
                canopy_height,
                {tree.stem, hanging.entrance, tree.crown_radius.value_or(hanging.unknown_crown_radius)});
            if (candidate.flight_line) candidate.approach_clear = approach_of(view, *candidate.flight_line);
            candidate.sun = sunshine.on_face(view);
        }
    });
}

}  // namespace roostward::siting
