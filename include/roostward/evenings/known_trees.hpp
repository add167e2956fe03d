#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "roostward/activity/bandwidth.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/core/point.hpp"
#include "roostward/core/units.hpp"
#include "roostward/evenings/worth.hpp"
#include "roostward/siting/candidates.hpp"
#include "roostward/survey/survey.hpp"
#include "roostward/trees/suitability.hpp"

namespace roostward::evenings {

/// A tree that could hold a box, and what is known of the flight at it.
struct TreeKnown {
    std::size_t tree = 0;  ///< of the inventory
    core::PlanePoint stem;
    core::Metres crown_radius;
    core::Hours watched;           ///< effective watching so far
    std::size_t evenings = 0;      ///< on which it was watched for long enough
    std::optional<Belief> passes;  ///< passes at the stem, an hour; empty before anybody watched anywhere
    bool chosen = false;           ///< the choice of now holds it
};

/// A post that was held.
struct HeldPost {
    core::PlanePoint place;
    core::Hours from, to;  ///< after the evening's first watch began
    core::Metres range;    ///< half-normal scale
};

struct KnownTrees {
    std::vector<TreeKnown> trees;  ///< all that could hold a box, in the order of the inventory
    std::vector<HeldPost> held;    ///< stations so far, walks left out
};

/// Before anybody watched: all trees that could hold a box, now or once something is settled.
[[nodiscard]] KnownTrees unwatched_trees(std::span<const trees::Verdict> verdicts,
                                         const trees::Inventory& inventory,
                                         const trees::Settings& suitability);

/// The same after watches that saw nothing: hours are known, and no more.
[[nodiscard]] KnownTrees watched_in_vain(KnownTrees unwatched, const survey::Survey& survey);

/// The same as a plan knows them; `mean_rate`: λ̄. What is believed of a watched tree is its flight density,
/// as far as the hours behind it and the evenings tell; of one that was not watched, what passes ahead and
/// behind foretell. How far that is from the truth was set on invented parks: common practice, no source.
[[nodiscard]] KnownTrees known_trees(std::span<const siting::Candidate> candidates,
                                     const trees::Inventory& inventory, const trees::Settings& suitability,
                                     const survey::Survey& survey, const activity::Bandwidth& bandwidth,
                                     double mean_rate, core::Threads threads = {});

}  // namespace roostward::evenings
