#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <vector>

#include "in_turn.hpp"
#include "roostward/core/grid.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/evenings/ground.hpp"

namespace roostward::evenings {

/// Of a straight line where nothing is in the way: ways wind. Common practice, no source.
inline constexpr double way_winds = 1.3;

/// How far it is on foot from place to place. Refers to what it is given.
class Walking {
 public:
    /// Ways longer than `farthest` are not looked for. Where water, ground to keep out of or paths are given,
    /// people go around the first two, over water only on a path, and choose paths where that is less far;
    /// else it is the straight line and a bit.
    Walking(const Ground& ground, std::span<const Place> places, core::Metres farthest,
            core::Threads threads);

    /// Infinite where there is no way as short as that. Not for several threads at once.
    [[nodiscard]] core::Metres way(std::size_t from, std::size_t to) const;
    [[nodiscard]] Ways between(std::span<const std::size_t> places) const;

 private:
    [[nodiscard]] std::optional<std::size_t> door_of(core::PlanePoint place, const Ground& ground) const;
    [[nodiscard]] std::vector<double> ways_from(std::size_t place) const;

    std::span<const Place> places_;
    core::Metres farthest_;
    core::Grid grid_;                                ///< empty: nothing is in the way
    std::vector<float> slowness_;                    ///< a cell, of a straight metre; 0: nobody walks there
    std::vector<std::optional<std::size_t>> doors_;  ///< a place: the cell that it is left by
    mutable std::map<std::size_t, std::vector<double>> known_;  ///< from a place to all others
};

}  // namespace roostward::evenings
