#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "roostward/core/parallel.hpp"
#include "roostward/core/point.hpp"
#include "roostward/core/time.hpp"
#include "roostward/evenings/ground.hpp"
#include "roostward/evenings/known_trees.hpp"
#include "roostward/evenings/settings.hpp"
#include "roostward/evenings/to_come.hpp"

namespace roostward::evenings {

/// What posts are wanted for.
struct Asked {
    Settings settings;
    std::vector<Team> teams;                     ///< with everything told, see teams_of
    std::vector<std::vector<Stretch>> evenings;  ///< an evening to come: when each team watches
    core::GeographicPoint middle;                ///< of the site: where the sun is asked for
    core::Degrees meridian_convergence;          ///< true bearing = grid bearing + this
    core::Hours min_watch{0.25};                 ///< of effective watching, from which a tree counts
    core::Metres spacing{30.0};                  ///< between sites
    std::size_t sites = 6;
};

/// The posts of evenings to come, and what they will show.
struct Posts {
    std::vector<Place> places;               ///< those with a post, from west to east
    std::vector<std::vector<Round>> rounds;  ///< an evening: one a team; without posts where a team is spare
    double share_before = 0.0;               ///< as in ToCome
    std::vector<double> share_after;
    std::optional<core::Degrees> unwatched_toward;
    std::size_t unwatched_trees = 0;
    std::vector<SiteToConfirm> sites;
    core::Findings findings;
};

/// Which posts raise the flight at the trees that will be chosen most. The same for any number of threads.
/// Throws Error{inputs} as candidate_places does, and where there are more teams than places.
[[nodiscard]] Posts choose_posts(const Ground& ground, const KnownTrees& known, const Asked& asked,
                                 core::Threads threads);

}  // namespace roostward::evenings
