#include "parks/model/evenings.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <numeric>
#include <string>
#include <utility>

#include "parks/model/choice.hpp"
#include "parks/model/noticing.hpp"
#include "parks/model/share.hpp"
#include "parks/model/stations.hpp"
#include "parks/model/truth.hpp"
#include "roostward/activity/bandwidth.hpp"
#include "roostward/activity/effort.hpp"
#include "roostward/evenings/sight.hpp"
#include "roostward/evenings/teams.hpp"
#include "roostward/sun/day.hpp"
#include "roostward/sun/position.hpp"

namespace roostward::parks {
namespace {

using core::PlanePoint;
using core::RandomStream;

constexpr double hours = 1.5;
constexpr std::size_t most_teams = 4;
constexpr core::GeographicPoint middle{core::Degrees(0.0), core::Degrees(37.8)};

core::Instant later(core::Instant start, double by) {
    return start + std::chrono::milliseconds(std::llround(by * 3.6e6));
}

evenings::Team team_of(const Conditions& conditions) {
    evenings::Team team;
    team.seen_by = conditions.by_eye ? "eye" : "thermal";
    team.farthest_seen = conditions.farthest;
    return team;
}

double time_in_evening(const Conditions& conditions, RandomStream& random) {
    if (!conditions.emergence_peak || random.uniform() >= 0.6) return random.uniform() * hours;
    while (true) {
        const double at = 0.5 + 0.2 * random.normal();
        if (at >= 0.0 && at < hours) return at;
    }
}

std::vector<geo::Line> straight_paths(RandomStream& random) {
    std::vector<geo::Line> paths;
    for (int i = 0; i < 2; ++i) {
        paths.push_back(
            {{random.uniform(0.0, park_width), 0.0}, {random.uniform(0.0, park_width), park_height}});
        paths.push_back(
            {{0.0, random.uniform(0.0, park_height)}, {park_width, random.uniform(0.0, park_height)}});
    }
    return paths;
}

core::Raster clumped_canopy(RandomStream& random) {
    core::Raster canopy;
    canopy.grid = core::grid_over({{-100, -100}, {park_width + 100, park_height + 100}}, core::Metres(5.0));
    canopy.values.assign(canopy.grid.size(), 0.0F);
    canopy.known.assign(canopy.grid.size(), 1);
    const std::size_t clump = 4;  // cells
    for (std::size_t row = 0; row < canopy.grid.rows; row += clump)
        for (std::size_t column = 0; column < canopy.grid.columns; column += clump) {
            if (random.uniform() < 0.5) continue;
            for (std::size_t r = row; r < std::min(row + clump, canopy.grid.rows); ++r)
                for (std::size_t c = column; c < std::min(column + clump, canopy.grid.columns); ++c)
                    canopy.values[canopy.grid.index({r, c})] = 5.0F;
        }
    return canopy;
}

/// Inventory and verdicts are all that is known of a park's trees.
evenings::KnownTrees known_of(const Park& park) {
    trees::Inventory inventory;
    for (const ParkTree& tree : park.trees) {
        inventory.rows.emplace_back();
        inventory.rows.back().stem = tree.stem;
    }
    if (park.passes.rows.empty()) {
        std::vector<trees::Verdict> verdicts(park.trees.size());
        for (std::size_t i = 0; i < verdicts.size(); ++i)
            if (!park.trees[i].suitable) verdicts[i].state = trees::State::ruled_out;
        return evenings::unwatched_trees(verdicts, inventory, {});
    }
    const activity::Bandwidth bandwidth = activity::choose_bandwidth(noted_in(park), {}, core::Threads{1});
    const survey::Survey flown = survey_of(park);
    const activity::FlightDensity density(flown, bandwidth, {});
    return evenings::known_trees(assess(park, flown, bandwidth, park_choice()), inventory, {}, flown,
                                 bandwidth, density.mean_rate());
}

}  // namespace

ParkEvenings::ParkEvenings(std::uint64_t seed, std::size_t evenings, const Conditions& conditions)
    : seed_(seed), conditions_(conditions), park_(make_park(seed, 0)) {
    best_ = true_use(park_, greedy_sites(park_, suitable_trees(park_), park_.truth));
    RandomStream standing(seed, "people's places"), ways(seed, "paths"), growing(seed, "canopy");
    std::vector<Stations> people;
    for (std::size_t teams = 1; teams <= most_teams; ++teams)
        people.emplace_back(park_.routes, teams, standing);
    if (conditions.on_paths) paths_ = straight_paths(ways);
    if (conditions.canopy) canopy_ = clumped_canopy(growing);
    RandomStream flying(seed, "evenings to come");
    for (std::size_t e = 0; e < evenings; ++e) {
        Evening& evening = evenings_.emplace_back();
        evening.evening = {std::chrono::sys_days(std::chrono::year(2031) / 4 / 1) +
                           std::chrono::days(7 * static_cast<int>(e))};
        evening.begin = sun::nightfall(evening.evening, middle).sunset.value();
        evening.end = later(evening.begin, hours);
        for (geo::Line& path : draw_evening(park_.routes, hours, usual_evening_sd, flying))
            evening.flights.push_back(
                {std::move(path), later(evening.begin, time_in_evening(conditions, flying))});
        for (Stations& stations : people) {
            if (e > 0) stations.move_some(park_.routes, standing);
            evening.people.emplace_back(stations.places().begin(), stations.places().end());
        }
    }
}

core::Metres ParkEvenings::farthest_at(core::Instant time) const {
    return evenings::farthest_seen(team_of(conditions_), sun::position(time, middle).elevation);
}

double ParkEvenings::through(PlanePoint eye, PlanePoint animal) const {
    return evenings::share_through(canopy_, {}, eye, animal, core::Metres(0.0));
}

std::vector<evenings::Round> ParkEvenings::by_people(std::size_t evening, std::size_t teams,
                                                     std::vector<evenings::Place>& places) const {
    const Evening& of = evenings_[evening];
    double squares = 0.0;
    constexpr int pieces = 18;
    for (int i = 0; i < pieces; ++i)
        squares += std::pow(farthest_at(later(of.begin, hours * (i + 0.5) / pieces)).value(), 2.0) / pieces;
    std::vector<evenings::Round> rounds;
    for (const PlanePoint place : of.people[teams - 1]) {
        evenings::Post post;
        post.place = places.size();
        post.start = of.begin;
        post.end = of.end;
        post.farthest_seen = core::Metres(std::sqrt(squares));
        places.push_back({place, {}});
        rounds.push_back({rounds.size(), {post}, core::Metres(0.0)});
    }
    return rounds;
}

evenings::Posts ParkEvenings::by_tool(const Park& noted, const Design& design, std::size_t teams,
                                      std::size_t from, std::size_t count) const {
    const std::vector<geo::Polygon> area{
        {{{0, 0}, {park_width, 0}, {park_width, park_height}, {0, park_height}, {0, 0}}, {}}};
    const core::Records<survey::Station> no_stations;
    const trees::Features nothing;
    const std::optional<core::Raster> flat;
    evenings::Asked asked;
    asked.settings.posts = design.posts;
    asked.teams.assign(teams, team_of(conditions_));
    for (std::size_t e = from; e < from + count; ++e)
        asked.evenings.emplace_back(teams, evenings::Stretch{evenings_[e].begin, evenings_[e].end});
    asked.middle = middle;
    asked.spacing = core::Metres(site_spacing);
    asked.sites = sites;
    return evenings::choose_posts({area, paths_, no_stations, {}, nothing, nothing, canopy_, flat},
                                  known_of(noted), asked, core::Threads{1});
}

void ParkEvenings::hold(Park& noted, std::size_t evening, std::span<const evenings::Round> rounds,
                        std::span<const evenings::Place> places) const {
    const Evening& of = evenings_[evening];
    RandomStream noticing(seed_, "noticing " + core::to_text(of.evening));
    RandomStream raining(seed_, "falls out " + core::to_text(of.evening));
    for (const evenings::Round& round : rounds)
        for (std::size_t i = 0; i < round.posts.size(); ++i) {
            if (conditions_.half_fall_out && raining.uniform() < 0.5) continue;
            const evenings::Post& post = round.posts[i];
            survey::Watch watch;
            watch.name =
                core::to_text(of.evening) + " " + std::to_string(round.team) + " " + std::to_string(i);
            watch.path = {places[post.place].position};
            watch.evening = of.evening;
            watch.start = post.start;
            watch.end = post.end;
            watch.range = post.farthest_seen / 2.0;
            watch.view = post.view;
            for (const Flight& flight : of.flights) {
                if (flight.time < watch.start || flight.time > watch.end) continue;
                auto pass = noticed(flight.path, watch, farthest_at(flight.time) / 2.0, noticing);
                if (!pass) continue;
                if (watch.view && core::turn_between(watch.view->look,
                                                     core::grid_bearing(watch.path.front(), pass->position))
                                          .value() > watch.view->width.value() / 2.0)
                    continue;
                if (canopy_ && noticing.uniform() >= through(watch.path.front(), pass->position)) continue;
                pass->row = noted.passes.rows.size() + 1;
                pass->time = flight.time;
                noted.passes.rows.push_back(std::move(*pass));
            }
            watch.row = noted.watches.rows.size() + 1;
            noted.watches.rows.push_back(std::move(watch));
        }
    noted.passes.read = noted.passes.rows.size();
    noted.watches.read = noted.watches.rows.size();
}

double ParkEvenings::share_of(const Park& noted) const {
    if (noted.passes.rows.empty()) return 0.0;
    const auto bandwidth = activity::choose_bandwidth(noted_in(noted), {}, core::Threads{1});
    return true_use(park_, siting::in_order_of_site(assess(noted, bandwidth, park_choice()))) / best_;
}

std::vector<double> ParkEvenings::shares(const Design& design, std::size_t teams,
                                         std::span<const std::size_t> counts) const {
    std::vector<double> all;
    Park noted = park_;
    std::size_t held = 0;
    for (const std::size_t count : counts) {
        if (design.by == Design::By::covering) {
            noted = park_;
            const evenings::Posts posts = by_tool(noted, design, teams, 0, count);
            for (std::size_t e = 0; e < count; ++e)
                hold(noted, e, posts.rounds[e], posts.places);
        }
        for (; design.by != Design::By::covering && held < count; ++held) {
            if (design.by == Design::By::people) {
                std::vector<evenings::Place> places;
                const auto rounds = by_people(held, teams, places);
                hold(noted, held, rounds, places);
                continue;
            }
            const evenings::Posts posts = by_tool(noted, design, teams, held, counts.back() - held);
            hold(noted, held, posts.rounds.front(), posts.places);
        }
        all.push_back(share_of(noted));
    }
    return all;
}

ParkEvenings::Watched ParkEvenings::watched(const Design& design, std::size_t teams,
                                            std::size_t evenings) const {
    Park noted = park_;
    const evenings::Posts posts = by_tool(noted, design, teams, 0, evenings);
    for (std::size_t e = 0; e < evenings; ++e)
        hold(noted, e, posts.rounds[e], posts.places);
    const survey::Survey survey = survey_of(noted);
    const activity::Effort effort(survey, core::Metres(0.0));
    std::vector<double> flown(evenings), hours(evenings), smoothed(evenings);
    std::size_t suitable = 0, enough = 0;
    for (const ParkTree& tree : park_.trees) {
        if (!tree.suitable) continue;
        std::ranges::fill(hours, 0.0);
        effort.add_at(tree.stem, flown.data(), hours.data(), smoothed.data());
        ++suitable;
        enough += std::accumulate(hours.begin(), hours.end(), 0.0) >= 0.25 ? 1 : 0;
    }
    return {posts.share_after.back(), static_cast<double>(enough) / static_cast<double>(suitable)};
}

}  // namespace roostward::parks
