#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>
#include <string>
#include <vector>

#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// A straight stretch of placed flight, or a point where both ends are the same.
struct Stretch {
    core::PlanePoint from, to;
    double metres = 0.0;        ///< flown and seen, times animals
    double observations = 0.0;  ///< animals, shared out over a flight's stretches by their length
    std::uint32_t evening = 0;
    std::uint32_t blur = 0;  ///< index into the blurs
};

/// Effective watching about one place: hours · e^(−r²/2ρ²), perhaps in a sector. A walk is several.
struct Spot {
    core::PlanePoint place;
    double range = 0.0;  ///< ρ, m
    double hours = 0.0;
    double per_metre = 0.0;           ///< 1/ℓ_w, of the animals whose place was seen
    double unplaced_rate = 0.0;       ///< metres heard but not placed, per m² and hour of effective watching
    double middle = 0.0, half = 4.0;  ///< sector, radians from east, counter-clockwise; half > π: all round
    std::uint32_t evening = 0;
    [[nodiscard]] bool has_edges() const { return half <= std::numbers::pi; }
};

/// Positions of one accuracy, and their share of all metres placed.
struct Blur {
    double accuracy = 0.0;  ///< m
    double share = 1.0;
    [[nodiscard]] double flown_width(double h) const { return std::hypot(h, accuracy); }
    [[nodiscard]] double effort_width(double h) const { return std::sqrt(h * h + 2.0 * accuracy * accuracy); }
};

/// A survey as the likelihood sees it: what was flown and watched each evening, and what the others' mean is.
struct EveningModel {
    std::size_t evenings = 0;
    std::vector<Stretch> stretches;  ///< by evening
    std::vector<Spot> spots;         ///< by evening
    std::vector<Blur> blurs;
    bool unplaced = false;                  ///< some spot has an unplaced rate
    bool has_edges = false;                 ///< of ground or of fields of view: effort jumps there
    std::vector<geo::Polygon> even_ground;  ///< watched for one hour an evening, where there are no spots
    std::vector<double> even_per_metre;     ///< 1/ℓ, one an evening
    std::vector<double> mean_rate;          ///< λ̄_{−n}, one an evening
    std::string why_not;                    ///< empty where there is a likelihood
};

[[nodiscard]] EveningModel model_of(const survey::Survey& survey, std::uint64_t seed);

/// Beyond this many ranges a spot is left out: 4e-5 of its effort.
inline constexpr double spot_reach = 4.5;

}  // namespace roostward::activity
