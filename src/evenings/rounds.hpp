#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "roostward/core/parallel.hpp"
#include "roostward/evenings/choose_posts.hpp"
#include "walking.hpp"
#include "watching.hpp"

namespace roostward::evenings {

/// Nobody settles in less, nor sees enough in a shorter post: common practice, no source.
inline constexpr std::chrono::minutes to_settle{5}, least_post{15};
inline constexpr std::size_t most_posts = 6;
/// No leg is longer.
inline constexpr core::Metres longest_leg{500.0};

/// A team's posts of one evening, before anybody settled for them.
struct Draft {
    std::vector<std::size_t> places;  ///< in turn
    std::vector<Shift> shifts;        ///< one a place
    core::Metres walk;
    double gain = 0.0;
};

/// A round that is asked for: of one team on one evening.
struct RoundWanted {
    std::size_t evening = 0;
    Stretch hours;
    Shift::FarthestAt farthest;
    std::optional<std::size_t> posts;  ///< as many as fit, at most; empty: as many as are best
    std::span<const HeldPost> held;    ///< on other evenings: who was watched early is due late
};

/// Makes rounds, each the best that it finds on top of what is settled. Refers to what it is given.
class RoundMaker {
 public:
    RoundMaker(std::span<const Place> places, const std::vector<std::vector<Sighted>>& views,
               const Walking& walking, double walk_m_per_min, core::Metres reach, core::Threads threads);

    /// Empty of posts where nothing is gained. Leaves `watching` as it was.
    [[nodiscard]] Draft best(const RoundWanted& wanted, Watching& watching) const;
    [[nodiscard]] core::PlanePoint position(std::size_t place) const { return places_[place].position; }
    /// Settles for a round.
    void add(std::size_t evening, const Draft& draft, Watching& watching) const;

 private:
    [[nodiscard]] Draft with_posts(const RoundWanted& wanted, std::size_t posts, Watching& watching) const;
    [[nodiscard]] std::vector<std::size_t> grown_from(std::size_t seed, const RoundWanted& wanted,
                                                      const Shift& usual, std::size_t posts,
                                                      Watching& watching) const;
    [[nodiscard]] std::optional<Draft> timed(const std::vector<std::size_t>& places,
                                             const RoundWanted& wanted, Watching& watching) const;
    [[nodiscard]] std::vector<double> gains(std::size_t evening, const Shift& shift,
                                            const Watching& watching) const;
    [[nodiscard]] std::vector<std::size_t> seeds(const std::vector<double>& gains) const;
    [[nodiscard]] core::Hours time_on(core::Metres way) const;

    std::span<const Place> places_;
    const std::vector<std::vector<Sighted>>& views_;
    const Walking& walking_;
    double walk_m_per_min_;
    core::Metres reach_;
    core::Threads threads_;
    geo::PointIndex index_;
};

}  // namespace roostward::evenings
