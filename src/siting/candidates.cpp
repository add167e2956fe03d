#include "roostward/siting/candidates.hpp"

#include <algorithm>
#include <cmath>

#include "evidence.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::siting {

namespace {

constexpr double least_share_of_reference = 0.1;
constexpr std::uint32_t evenings_that_show_use = 3;
constexpr std::uint32_t least_evenings_used = 2;

void mark_not_watched(Candidate& candidate, core::Hours min_watch) {
    const double hours = candidate.activity.watch_hours.value();
    candidate.verdict.reasons.push_back(
        {"not watched",
         trees::State::not_watched,
         {},
         hours,
         min_watch.value(),
         core::said("reason.not_watched", {{"hours", hours}, {"needed", min_watch.value()}}),
         {}});
    candidate.verdict.state = std::max(candidate.verdict.state, trees::State::not_watched);
}

template <class Place>
std::vector<std::size_t> in_order(std::span<const Candidate> candidates, Place place) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < candidates.size(); ++i)
        if (place(candidates[i])) order.push_back(i);
    std::ranges::sort(order, {}, [&](std::size_t i) { return *place(candidates[i]); });
    return order;
}

}  // namespace

const LineOffset* line_beside(const Candidate& candidate) {
    constexpr core::Metres next_to{25.0};
    const auto& line = candidate.flight_line;
    return line && line->offset <= next_to ? &*line : nullptr;
}

std::vector<Candidate> candidates_of(std::vector<trees::Verdict> verdicts,
                                     std::span<const activity::PointActivity> activity, core::Hours min_watch,
                                     core::Threads threads) {
    if (verdicts.size() != activity.size())
        throw core::Error(core::Fault::internal, {}, "every tree needs one verdict and one activity");
    std::vector<Candidate> candidates(verdicts.size());
    core::parallel_for(candidates.size(), 512, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            candidates[i].verdict = std::move(verdicts[i]);
            candidates[i].activity = activity[i];
            if (!activity[i].watched) mark_not_watched(candidates[i], min_watch);
        }
    });
    return candidates;
}

double reference_density(std::span<const Candidate> candidates) {
    double largest = 0.0;
    for (const auto& candidate : candidates)
        if (candidate.can_be_chosen()) largest = std::max(largest, candidate.activity.flight_density);
    return largest;
}

double enough_flight(double reference_density) {
    return least_share_of_reference * reference_density;
}

bool has_enough_evidence(const activity::PointActivity& activity, double reference_density) {
    const bool flight =
        activity.flight_density > 0.0 && activity.flight_density >= enough_flight(reference_density);
    const std::uint32_t least = activity.evenings_watched >= evenings_that_show_use ? least_evenings_used : 1;
    return flight && activity.evenings_used >= least;
}

void score_and_rank(std::vector<Candidate>& candidates, const trees::Inventory& inventory) {
    const double reference = reference_density(candidates);
    std::vector<Contender> choosable, to_settle;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        auto& candidate = candidates[i];
        if (!candidate.activity.watched) continue;
        const Evidence evidence = evidence_of({inventory.rows[i], candidate.activity, reference});
        candidate.evidence = evidence.score;
        candidate.score = score_of(evidence, candidate.kept.middle);
        candidate.enough_evidence = evidence.enough;
        if (candidate.can_be_chosen()) choosable.push_back(contender_of(candidates, i));
        if (candidate.verdict.state == trees::State::settle_first)
            to_settle.push_back(contender_of(candidates, i));
    }
    std::ranges::sort(choosable, better);
    for (std::size_t i = 0; i < choosable.size(); ++i)
        candidates[choosable[i].tree].rank = i + 1;
    for (const Contender& tree : to_settle)
        candidates[tree.tree].would_rank =
            1 +
            static_cast<std::size_t>(std::ranges::lower_bound(choosable, tree, better) - choosable.begin());
}

std::vector<std::size_t> in_order_of_rank(std::span<const Candidate> candidates) {
    return in_order(candidates, [](const Candidate& c) { return c.rank; });
}

std::vector<std::size_t> worth_settling(std::span<const Candidate> candidates, std::size_t sites) {
    std::vector<Contender> worth;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        const auto& rank = candidates[i].would_rank;
        if (rank && *rank <= 3 * sites && candidates[i].enough_evidence)
            worth.push_back(contender_of(candidates, i));
    }
    std::ranges::sort(worth, better);
    std::vector<std::size_t> trees;
    trees.reserve(worth.size());
    for (const Contender& contender : worth)
        trees.push_back(contender.tree);
    return trees;
}

std::vector<std::size_t> in_order_of_site(std::span<const Candidate> candidates) {
    return in_order(candidates, [](const Candidate& c) { return c.site; });
}

}  // namespace roostward::siting
