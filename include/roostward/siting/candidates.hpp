#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "roostward/activity/flight_density.hpp"
#include "roostward/activity/ranges.hpp"
#include "roostward/canopy/at_stem.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/siting/fitness.hpp"
#include "roostward/siting/mounting.hpp"
#include "roostward/siting/settings.hpp"
#include "roostward/sun/hours.hpp"
#include "roostward/trees/suitability.hpp"

namespace roostward::siting {

/// From a tree's stem to the nearest flight line.
struct LineOffset {
    std::size_t line = 0;  ///< index into the lines
    core::Metres offset;
    core::Degrees toward;  ///< grid bearing; 0 where the line runs over the stem
};

/// What the site file says of a tree by its name.
enum class Wish { none, must, never };

/// Shares of draws, see give_acceptability.
struct Acceptability {
    double by_weights = 0.0;  ///< chosen with other weights, on the evenings as they were
    double chosen = 0.0;      ///< chosen with other weights on re-drawn evenings
    double first = 0.0;       ///< the best score with other weights on re-drawn evenings
};

/// Animals whose path comes within 20 m of the stem, each flight once, in an hour: the mean over evenings
/// that nobody saw, and what it might be. Means something where the tree was watched.
struct NearFlights {
    double per_hour = 0.0;
    bool none_seen = false;  ///< no flight came near: per_hour and the low end are 0
    std::optional<activity::Range> range;
};

/// One tree with all that its rank depends on. In the order of the inventory.
struct Candidate {
    trees::Verdict verdict;
    canopy::AtStem canopy;  ///< see measure_canopy
    activity::PointActivity activity;
    NearFlights flights;
    double evidence = 0.0;         ///< 0–1, what the watches say
    double score = 0.0;            ///< 0–1: evidence · kept; comparable within one plan only
    bool enough_evidence = false;  ///< see has_enough_evidence
    Wish wish = Wish::none;
    std::optional<std::size_t> rank;              ///< from 1, among the trees that can be chosen
    std::optional<std::size_t> would_rank;        ///< of a tree to settle first: its rank if it were settled
    std::optional<std::size_t> site;              ///< from 1, among the chosen
    std::optional<activity::Range> flight_range;  ///< of the flight density, see give_flight_figures
    std::optional<activity::Range> score_range;   ///< empty below three watched evenings
    double stays_chosen = 0.0;                    ///< share of re-drawn evenings in which the choice holds it
    Acceptability acceptability;
    std::optional<std::size_t> group;  ///< from 1: trees that cannot be told apart, see give_acceptability
    std::optional<LineOffset> flight_line;       ///< empty where not watched, or where there is no line
    std::optional<Facings> facings;              ///< empty where ruled out or not watched
    std::optional<core::Metres> approach_clear;  ///< see measure_ways_in
    std::optional<core::Metres> drop_clear;      ///< the same
    std::optional<sun::FaceSun> sun;             ///< on the first box, see measure_ways_in
    std::optional<core::Metres> road_distance, water_distance, box_distance;  ///< see measure_distances
    /// From the crown's edge to the nearest feature of each layer to avoid, in their order; the same.
    std::vector<std::optional<core::Metres>> avoid_distances;
    std::optional<Fitness> fitness;  ///< empty where ruled out, not watched, or no part takes part
    Kept kept;
    /// Free way toward the 16 compass points, see Outlook; empty where there is no canopy model.
    std::vector<std::optional<core::Metres>> open;

    [[nodiscard]] bool can_be_chosen() const { return verdict.state == trees::State::can_be_chosen; }
    /// Now, or once something is settled.
    [[nodiscard]] bool may_hold_a_box() const { return verdict.state <= trees::State::settle_first; }
};

/// The flight line that the way in comes from: one next to the tree, at most 25 m from its stem (common
/// practice, no source). Null where there is none.
[[nodiscard]] const LineOffset* line_beside(const Candidate& candidate);

/// Joins what is known of each tree. A tree in ground that was not watched for `min_watch` becomes "not
/// watched", unless it is ruled out.
[[nodiscard]] std::vector<Candidate> candidates_of(std::vector<trees::Verdict> verdicts,
                                                   std::span<const activity::PointActivity> activity,
                                                   core::Hours min_watch, core::Threads threads);

/// λ_ref: the largest flight density among the trees that can be chosen; 0 where there are none.
[[nodiscard]] double reference_density(std::span<const Candidate> candidates);

/// The flight density from which on there is enough of it: 0.1 λ_ref.
[[nodiscard]] double enough_flight(double reference_density);

/// λ ≥ 0.1 λ_ref, and used on two evenings or more where three or more were watched, on one where fewer were
/// (all inclusive): what was only heard shows no tree, nor what no evening watched for long enough.
[[nodiscard]] bool has_enough_evidence(const activity::PointActivity& activity, double reference_density);

/// Gives every watched tree its evidence, the weighted mean of the evidence utilities, and its score, both
/// rounded to 1e-6; ranks those that can be chosen, best first (then the higher flight density, then the
/// order of the inventory); and tells those to settle first where they would rank.
void score_and_rank(std::vector<Candidate>& candidates, const trees::Inventory& inventory);

/// Tree indices in order of rank.
[[nodiscard]] std::vector<std::size_t> in_order_of_rank(std::span<const Candidate> candidates);

/// The trees to settle first that have enough evidence and would rank among the first three times `sites`,
/// best first.
[[nodiscard]] std::vector<std::size_t> worth_settling(std::span<const Candidate> candidates,
                                                      std::size_t sites);

/// Tree indices in order of site number.
[[nodiscard]] std::vector<std::size_t> in_order_of_site(std::span<const Candidate> candidates);

}  // namespace roostward::siting
