#include "roostward/evenings/choose_posts.hpp"

#include <algorithm>
#include <utility>

#include "drafts.hpp"
#include "outlook.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/evenings/sight.hpp"
#include "values.hpp"

namespace roostward::evenings {

namespace {

/// How often every round is made anew.
constexpr int sweeps = 1;
/// Views reach so far, in what is farthest seen: beyond, under a twentieth is noticed.
constexpr double view_reach = 1.25;

core::Metres farthest_of(const std::vector<Team>& teams) {
    core::Metres most{0.0};
    for (const Team& team : teams)
        most = std::max(most, farthest_seen(team, core::Degrees(0.0)));
    return most;
}

Places places_for(const Ground& ground, const KnownTrees& known, const Asked& asked) {
    std::vector<core::PlanePoint> stems;
    stems.reserve(known.trees.size());
    for (const TreeKnown& tree : known.trees)
        stems.push_back(tree.stem);
    Places places = candidate_places(ground, stems, farthest_of(asked.teams));
    if (asked.teams.size() > places.places.size())
        throw core::Error(core::Fault::inputs, {},
                          core::said("error.more_teams_than_places",
                                     {{"teams", asked.teams.size()}, {"places", places.places.size()}}));
    return places;
}

/// Places that have a post, and their number among them.
class Used {
 public:
    Used(std::vector<Place>& places, const std::vector<std::vector<Draft>>& drafts)
        : number_(places.size(), none) {
        for (const auto& evening : drafts)
            for (const Draft& draft : evening)
                for (const std::size_t p : draft.places)
                    number_[p] = 0;
        for (std::size_t p = 0; p < places.size(); ++p) {
            if (number_[p] == none) continue;
            number_[p] = kept_.size();
            kept_.push_back(std::move(places[p]));
        }
    }
    [[nodiscard]] std::size_t operator[](std::size_t place) const { return number_[place]; }
    [[nodiscard]] std::vector<Place> kept() && { return std::move(kept_); }

 private:
    static constexpr std::size_t none = ~std::size_t{0};
    std::vector<std::size_t> number_;
    std::vector<Place> kept_;
};

Round round_of(const Draft& draft, std::size_t team, const Used& used) {
    Round round;
    round.team = team;
    round.walk = draft.walk;
    for (std::size_t i = 0; i < draft.places.size(); ++i) {
        const Shift& shift = draft.shifts[i];
        Post post;
        post.place = used[draft.places[i]];
        post.start = shift.start();
        post.end = shift.end();
        post.farthest_seen = shift.farthest();
        round.posts.push_back(std::move(post));
    }
    return round;
}

}  // namespace

Posts choose_posts(const Ground& ground, const KnownTrees& known, const Asked& asked, core::Threads threads) {
    Places places = places_for(ground, known, asked);
    const core::Metres reach = farthest_of(asked.teams) * view_reach;
    const std::vector<Spot> spots = spots_of(known.trees, asked.spacing);
    const auto views = sighted_from(places.places, spots, ground, reach, threads);
    const Walking walking(ground, places.places, longest_leg, threads);
    const RoundMaker maker(places.places, views, walking, asked.settings.walk_m_per_min, reach, threads);
    Drafts drafts(maker, asked, known.held,
                  Watching(spots, values_of(spots, known, asked), asked.evenings.size()));
    for (int i = 0; i < sweeps; ++i)
        drafts.sweep();

    Posts posts;
    posts.findings = std::move(places.findings);
    Used used(places.places, drafts.all());
    for (const auto& evening : drafts.all()) {
        auto& rounds = posts.rounds.emplace_back();
        for (std::size_t t = 0; t < evening.size(); ++t)
            rounds.push_back(round_of(evening[t], t, used));
    }
    posts.places = std::move(used).kept();
    tell_outlook(posts, ground, known, asked);
    return posts;
}

}  // namespace roostward::evenings
