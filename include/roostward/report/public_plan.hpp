#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "roostward/core/document.hpp"
#include "roostward/core/point.hpp"
#include "roostward/plan/plan.hpp"
#include "roostward/report/plan_document.hpp"

/// A copy of the plan for everybody: it holds no tree, no person, no roost and no place more exact than a
/// square of 100 m.
namespace roostward::report {

inline constexpr core::Metres public_square{100.0};
/// Fewer trees than these would be as good as a place.
inline constexpr std::size_t least_public_trees = 3;

struct PublicSquare {
    core::PlanePoint south_west;  ///< whole hundreds of metres in the planning plane
    /// Within 20 m of a place, the mean of the watched ground; empty where that is less than half of it.
    std::optional<double> flights_an_hour;
    std::size_t boxes = 0;  ///< planned in it
};

/// All that a public copy is composed from.
struct PublicPlan {
    std::string number;  ///< of the plan that it is a copy of
    std::string site_name, animal, crs_name;
    std::vector<PublicSquare> squares;  ///< from north to south, then from west to east
    std::size_t boxes = 0;              ///< planned in all
    std::size_t boxes_elsewhere = 0;    ///< of these, those in no square that is told
    std::string nobody_checked, caveat;
    std::vector<std::string> cannot_show;
};

/// A square is told where at least three trees of the inventory stand in it, and either it was watched or
/// boxes are planned in it; its boxes are told where at least three trees of it may hold one. Squares are
/// neither moved nor joined: a square that grew with what it holds would tell of it. Three and 100 m: common
/// practice, no source.
[[nodiscard]] PublicPlan blurred(const plan::Plan& plan);

/// report.html of a public copy: one file that needs nothing else, and no scripts.
[[nodiscard]] std::string public_page(const PublicPlan& plan);

/// plan.json of a public copy. It has no command, no settings and no names of files that were read.
[[nodiscard]] core::Document public_document(const PublicPlan& plan, const RunFacts& facts);

/// For a terminal.
[[nodiscard]] std::string public_text(const PublicPlan& plan, const std::string& folder);

}  // namespace roostward::report
