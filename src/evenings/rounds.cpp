#include "rounds.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

#include "in_turn.hpp"

namespace roostward::evenings {

namespace {

constexpr std::size_t seeds_tried = 4;
constexpr core::Metres seeds_apart{60.0}, usual_leg{100.0};
/// Nobody moves by less: it shows nothing new. Common practice, no source.
constexpr core::Metres posts_apart{25.0};
constexpr std::size_t places_a_piece = 64;

std::vector<core::PlanePoint> positions_of(std::span<const Place> places) {
    std::vector<core::PlanePoint> all;
    all.reserve(places.size());
    for (const Place& place : places)
        all.push_back(place.position);
    return all;
}

core::Hours as_hours(std::chrono::milliseconds time) {
    return core::hours_between(core::Instant{}, core::Instant{time});
}

std::chrono::milliseconds as_time(core::Hours hours) {
    return std::chrono::milliseconds(std::llround(hours.value() * 3.6e6));
}

/// Where `posts` posts share the hours with so much time on the way; empty where that is too short.
std::optional<std::chrono::milliseconds> each_of(const Stretch& hours, std::size_t posts,
                                                 core::Hours on_the_way) {
    const auto moves = static_cast<double>(posts) - 1.0;
    const core::Hours post =
        (core::hours_between(hours.begin, hours.end) - as_hours(to_settle) * moves - on_the_way) /
        static_cast<double>(posts);
    if (post < as_hours(least_post)) return std::nullopt;
    return as_time(post);
}

/// How much a place was watched early so far, rather than late.
double due_late(core::PlanePoint place, std::span<const HeldPost> held, core::Hours evening) {
    double due = 0.0;
    for (const HeldPost& post : held) {
        const double near = std::exp(-core::squared_distance(place, post.place) /
                                     (2.0 * post.range.value() * post.range.value()));
        const double middle = (post.from + post.to) / evening;  // 0 at the begin, 2 at the end
        due += near * (post.to - post.from).value() * (1.0 - middle);
    }
    constexpr double a_second = 3600.0;
    return std::round(due * a_second) / a_second;
}

}  // namespace

RoundMaker::RoundMaker(std::span<const Place> places, const std::vector<std::vector<Sighted>>& views,
                       const Walking& walking, double walk_m_per_min, core::Metres reach,
                       core::Threads threads)
    : places_(places),
      views_(views),
      walking_(walking),
      walk_m_per_min_(walk_m_per_min),
      reach_(reach),
      threads_(threads),
      index_(positions_of(places)) {}

core::Hours RoundMaker::time_on(core::Metres way) const {
    return core::Hours(way.value() / walk_m_per_min_ / 60.0);
}

std::vector<double> RoundMaker::gains(std::size_t evening, const Shift& shift,
                                      const Watching& watching) const {
    std::vector<double> all(places_.size());
    core::parallel_for(places_.size(), places_a_piece, threads_, [&](std::size_t begin, std::size_t end) {
        for (std::size_t p = begin; p < end; ++p)
            all[p] = watching.gain(evening, views_[p], shift);
    });
    return all;
}

std::vector<std::size_t> RoundMaker::seeds(const std::vector<double>& gains) const {
    std::vector<std::size_t> order(gains.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::sort(order, {}, [&](std::size_t p) { return std::pair{-gains[p], p}; });
    std::vector<std::size_t> found;
    for (const std::size_t p : order) {
        if (found.size() == seeds_tried || gains[p] <= 0.0) break;
        if (std::ranges::all_of(found, [&](std::size_t q) {
                return core::distance(places_[p].position, places_[q].position) >= seeds_apart;
            }))
            found.push_back(p);
    }
    return found;
}

std::vector<std::size_t> RoundMaker::grown_from(std::size_t seed, const RoundWanted& wanted,
                                                const Shift& usual, std::size_t posts,
                                                Watching& watching) const {
    std::vector<std::size_t> picked{seed};
    std::vector<Watching::Lent> lent;
    double total = watching.gain(wanted.evening, views_[seed], usual);
    watching.lend(wanted.evening, views_[seed], usual, lent);
    const std::vector<std::size_t> near = index_.within(places_[seed].position, longest_leg);
    while (picked.size() < posts) {
        const double an_hour = total / (static_cast<double>(picked.size()) * usual.hours());
        struct {
            double worth = -std::numeric_limits<double>::infinity(), gain = 0.0;
            std::size_t place = 0;
        } best;
        for (const std::size_t p : near) {
            const bool apart = std::ranges::all_of(picked, [&](std::size_t q) {
                return core::distance(places_[p].position, places_[q].position) >= posts_apart;
            });
            if (!apart) continue;
            core::Metres leg(std::numeric_limits<double>::infinity());
            for (const std::size_t q : picked)
                leg = std::min(leg, walking_.way(q, p));
            if (leg > longest_leg) continue;
            const double gain = watching.gain(wanted.evening, views_[p], usual);
            const double worth = gain - an_hour * time_on(leg).value();
            if (worth > best.worth) best = {worth, gain, p};
        }
        if (best.gain <= 0.0) break;
        picked.push_back(best.place);
        total += best.gain;
        watching.lend(wanted.evening, views_[best.place], usual, lent);
    }
    watching.give_back(lent);
    return picked;
}

std::optional<Draft> RoundMaker::timed(const std::vector<std::size_t>& places, const RoundWanted& wanted,
                                       Watching& watching) const {
    const core::Hours evening = core::hours_between(wanted.hours.begin, wanted.hours.end);
    std::vector<double> due;
    for (const std::size_t p : places)
        due.push_back(due_late(places_[p].position, wanted.held, evening));
    const Ways ways = walking_.between(places);
    const std::vector<std::size_t> order = in_turn(ways, due);
    Draft draft;
    draft.walk = way_past(ways, order);
    if (draft.walk > longest_leg * static_cast<double>(places.size())) return std::nullopt;
    const auto post = each_of(wanted.hours, places.size(), time_on(draft.walk));
    if (!post) return std::nullopt;
    std::vector<Watching::Lent> lent;
    core::Instant start = wanted.hours.begin;
    std::size_t before = 0;
    for (const std::size_t i : order) {
        const std::size_t place = places[i];
        if (!draft.places.empty()) start += to_settle + as_time(time_on(ways[before][i]));
        before = i;
        const Shift shift(start, start + *post, reach_, wanted.farthest);
        start = shift.end();
        draft.gain += watching.gain(wanted.evening, views_[place], shift);
        watching.lend(wanted.evening, views_[place], shift, lent);
        draft.places.push_back(place);
        draft.shifts.push_back(shift);
    }
    watching.give_back(lent);
    return draft;
}

Draft RoundMaker::with_posts(const RoundWanted& wanted, std::size_t posts, Watching& watching) const {
    Draft best;
    const core::Hours on_the_way = time_on(usual_leg) * (static_cast<double>(posts) - 1.0);
    const auto post = each_of(wanted.hours, posts, on_the_way);
    if (!post) return best;
    const Shift whole(wanted.hours.begin, wanted.hours.end, reach_, wanted.farthest);
    const Shift usual = whole.lasting(*post);
    for (const std::size_t seed : seeds(gains(wanted.evening, usual, watching))) {
        const auto draft = timed(grown_from(seed, wanted, usual, posts, watching), wanted, watching);
        if (draft && draft->gain > best.gain) best = *draft;
    }
    return best;
}

Draft RoundMaker::best(const RoundWanted& wanted, Watching& watching) const {
    Draft best;
    for (std::size_t posts = wanted.posts.value_or(most_posts); posts > 0; --posts) {
        Draft draft = with_posts(wanted, posts, watching);
        if (draft.gain > best.gain) best = std::move(draft);
        if (wanted.posts && !best.places.empty()) break;
    }
    return best;
}

void RoundMaker::add(std::size_t evening, const Draft& draft, Watching& watching) const {
    for (std::size_t i = 0; i < draft.places.size(); ++i)
        watching.add(evening, views_[draft.places[i]], draft.shifts[i]);
}

}  // namespace roostward::evenings
