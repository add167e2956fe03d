#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "parks/model/park.hpp"
#include "roostward/evenings/choose_posts.hpp"

namespace roostward::parks {

/// What evenings to come are like.
struct Conditions {
    core::Metres farthest{80.0};  ///< seen in good light
    bool by_eye = false;          ///< as far as the light of an evening at the equinox lets eyes see
    bool emergence_peak =
        false;                   ///< six flights in ten within 12 min (standard deviation) of the 30th minute
    bool half_fall_out = false;  ///< of the posts, at random: rain, a team that stays at home
    bool on_paths = false;       ///< people stand on four straight paths across the park
    bool canopy = false;         ///< half of the ground is under crowns of 5 m, in clumps of 20 m
};

/// How the posts of a park are found.
struct Design {
    enum class By { people, covering, sequence } by = By::people;
    std::optional<std::size_t> posts;  ///< an evening and team; empty: as many as the tool finds best
};

/// Three words: the park's flights of some evenings, 1.5 hours each from sunset, the same for whoever
/// watches.
class ParkEvenings {
 public:
    ParkEvenings(std::uint64_t seed, std::size_t evenings, const Conditions& conditions);

    /// What the five chosen trees get of the best possible choice among all suitable trees, watched or not,
    /// after each number of evenings in `counts`, ascending. Planned at once for each of them, or evening by
    /// evening from what was seen.
    [[nodiscard]] std::vector<double> shares(const Design& design, std::size_t teams,
                                             std::span<const std::size_t> counts) const;

    /// The share of suitable trees that are watched for min_watch hours, as it is told beforehand and as the
    /// watches that were held make it.
    struct Watched {
        double told = 0.0, held = 0.0;
    };
    [[nodiscard]] Watched watched(const Design& design, std::size_t teams, std::size_t evenings) const;

 private:
    struct Flight {
        geo::Line path;
        core::Instant time;
    };
    struct Evening {
        core::Evening evening;
        core::Instant begin, end;
        std::vector<Flight> flights;
        std::vector<std::vector<core::PlanePoint>> people;  ///< where so many teams would stand, from 1 on
    };

    [[nodiscard]] std::vector<evenings::Round> by_people(std::size_t evening, std::size_t teams,
                                                         std::vector<evenings::Place>& places) const;
    [[nodiscard]] evenings::Posts by_tool(const Park& noted, const Design& design, std::size_t teams,
                                          std::size_t from, std::size_t count) const;
    void hold(Park& noted, std::size_t evening, std::span<const evenings::Round> rounds,
              std::span<const evenings::Place> places) const;
    [[nodiscard]] double share_of(const Park& noted) const;
    [[nodiscard]] core::Metres farthest_at(core::Instant time) const;
    [[nodiscard]] double through(core::PlanePoint eye, core::PlanePoint animal) const;

    std::uint64_t seed_;
    Conditions conditions_;
    Park park_;
    double best_ = 0.0;
    std::vector<Evening> evenings_;
    std::vector<geo::Line> paths_;
    std::optional<core::Raster> canopy_;
};

}  // namespace roostward::parks
