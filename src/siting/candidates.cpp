#include "roostward/siting/candidates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "roostward/core/error.hpp"
#include "roostward/siting/measures.hpp"

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
         fmt::format("Watched for {:.2f} effective hours; {:g} are needed to say anything.", hours,
                     min_watch.value())});
    candidate.verdict.state = std::max(candidate.verdict.state, trees::State::not_watched);
}

double score_of(const Subject& subject) {
    double sum = 0.0, weights = 0.0;
    for (const auto& measure : evidence_measures()) {
        const auto utility = measure.utility(subject);
        if (!utility) continue;
        sum += measure.weight * *utility;
        weights += measure.weight;
    }
    return weights > 0.0 ? std::round(sum / weights * 1e6) / 1e6 : 0.0;
}

/// Best first; the index makes the order unique.
struct Better {
    std::span<const Candidate> candidates;
    bool operator()(std::size_t a, std::size_t b) const {
        const auto& one = candidates[a];
        const auto& other = candidates[b];
        if (one.score != other.score) return one.score > other.score;
        if (one.activity.flight_density != other.activity.flight_density)
            return one.activity.flight_density > other.activity.flight_density;
        return a < b;
    }
};

template <class Place>
std::vector<std::size_t> in_order(std::span<const Candidate> candidates, Place place) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < candidates.size(); ++i)
        if (place(candidates[i])) order.push_back(i);
    std::ranges::sort(order, {}, [&](std::size_t i) { return *place(candidates[i]); });
    return order;
}

}  // namespace

std::vector<Candidate> candidates_of(std::vector<trees::Verdict> verdicts,
                                     std::span<const activity::PointActivity> activity,
                                     core::Hours min_watch) {
    if (verdicts.size() != activity.size())
        throw core::Error(core::Fault::internal, {}, "every tree needs one verdict and one activity");
    std::vector<Candidate> candidates(verdicts.size());
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        candidates[i].verdict = std::move(verdicts[i]);
        candidates[i].activity = activity[i];
        if (!activity[i].watched) mark_not_watched(candidates[i], min_watch);
    }
    return candidates;
}

double reference_density(std::span<const Candidate> candidates) {
    double largest = 0.0;
    for (const auto& candidate : candidates)
        if (candidate.can_be_chosen()) largest = std::max(largest, candidate.activity.flight_density);
    return largest;
}

bool has_enough_evidence(const activity::PointActivity& activity, double reference_density) {
    const bool enough_flight = activity.flight_density > 0.0 &&
                               activity.flight_density >= least_share_of_reference * reference_density;
    const bool enough_evenings =
        activity.evenings_watched < evenings_that_show_use || activity.evenings_used >= least_evenings_used;
    return enough_flight && enough_evenings;
}

void score_and_rank(std::vector<Candidate>& candidates, const trees::Inventory& inventory) {
    const double reference = reference_density(candidates);
    std::vector<std::size_t> choosable, to_settle;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        auto& candidate = candidates[i];
        if (!candidate.activity.watched) continue;
        candidate.score = score_of({inventory.rows[i], candidate.activity, reference});
        candidate.enough_evidence = has_enough_evidence(candidate.activity, reference);
        if (candidate.can_be_chosen()) choosable.push_back(i);
        if (candidate.verdict.state == trees::State::settle_first) to_settle.push_back(i);
    }
    const Better better{candidates};
    std::ranges::sort(choosable, better);
    for (std::size_t i = 0; i < choosable.size(); ++i)
        candidates[choosable[i]].rank = i + 1;
    for (const std::size_t i : to_settle)
        candidates[i].would_rank =
            1 + static_cast<std::size_t>(std::ranges::lower_bound(choosable, i, better) - choosable.begin());
}

std::vector<std::size_t> in_order_of_rank(std::span<const Candidate> candidates) {
    return in_order(candidates, [](const Candidate& c) { return c.rank; });
}

void choose(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
            const ChoiceSettings& settings) {
    std::vector<core::PlanePoint> taken;
    for (const std::size_t i : in_order_of_rank(candidates)) {
        if (taken.size() == settings.sites) return;
        if (!candidates[i].enough_evidence) continue;
        const core::PlanePoint stem = inventory.rows[i].stem;
        const auto too_close = [&](core::PlanePoint other) {
            return core::distance(stem, other) < settings.spacing;
        };
        if (std::ranges::any_of(taken, too_close)) continue;
        taken.push_back(stem);
        candidates[i].site = taken.size();
    }
}

std::vector<std::size_t> in_order_of_site(std::span<const Candidate> candidates) {
    return in_order(candidates, [](const Candidate& c) { return c.site; });
}

}  // namespace roostward::siting
