#include "drafts.hpp"

#include <algorithm>
#include <utility>

#include "roostward/evenings/sight.hpp"
#include "roostward/sun/position.hpp"

namespace roostward::evenings {

namespace {

/// How a team sees as the evening darkens.
Shift::FarthestAt farthest_of(const Team& team, core::GeographicPoint middle) {
    return [&team, middle](core::Instant at) {
        return farthest_seen(team, sun::position(at, middle).elevation);
    };
}

core::Instant begin_of(const std::vector<Stretch>& teams) {
    return std::ranges::min_element(teams, {}, &Stretch::begin)->begin;
}

}  // namespace

Drafts::Drafts(const RoundMaker& maker, const Asked& asked, const std::vector<HeldPost>& held,
               Watching watching)
    : maker_(maker), asked_(asked), held_(held), watching_(std::move(watching)) {
    for (std::size_t e = 0; e < asked_.evenings.size(); ++e) {
        of_.emplace_back(asked_.teams.size());
        for (std::size_t t = 0; t < asked_.teams.size(); ++t) {
            of_[e][t] = best(e, t);
            maker_.add(e, of_[e][t], watching_);
        }
    }
}

Draft Drafts::best(std::size_t evening, std::size_t team) {
    const std::vector<HeldPost> held = held_but_on(evening);
    return maker_.best({evening, asked_.evenings[evening][team],
                        farthest_of(asked_.teams[team], asked_.middle), asked_.settings.posts, held},
                       watching_);
}

std::vector<HeldPost> Drafts::held_but_on(std::size_t evening) const {
    std::vector<HeldPost> held = held_;
    for (std::size_t e = 0; e < of_.size(); ++e) {
        if (e == evening) continue;
        const core::Instant begin = begin_of(asked_.evenings[e]);
        for (const Draft& draft : of_[e])
            for (std::size_t i = 0; i < draft.places.size(); ++i)
                held.push_back(
                    {maker_.position(draft.places[i]), core::hours_between(begin, draft.shifts[i].start()),
                     core::hours_between(begin, draft.shifts[i].end()), draft.shifts[i].farthest() / 2.0});
    }
    return held;
}

void Drafts::lay(std::size_t evening) {
    watching_.clear(evening);
    for (const Draft& draft : of_[evening])
        maker_.add(evening, draft, watching_);
}

void Drafts::remake(std::size_t evening, std::size_t team) {
    const double before = watching_.worth();
    Draft old = std::exchange(of_[evening][team], {});
    lay(evening);
    of_[evening][team] = best(evening, team);
    lay(evening);
    if (watching_.worth() > before) return;
    of_[evening][team] = std::move(old);
    lay(evening);
}

void Drafts::sweep() {
    for (std::size_t e = 0; e < of_.size(); ++e)
        for (std::size_t t = 0; t < of_[e].size(); ++t)
            remake(e, t);
}

}  // namespace roostward::evenings
