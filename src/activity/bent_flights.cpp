#include "roostward/activity/bent_flights.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "direction_field.hpp"

namespace roostward::activity {

namespace {

constexpr int turns = 3;
constexpr double longer = 1.5;  ///< than the straight piece
constexpr std::size_t parts_each_way = 4;

bool has_bearing(const survey::Flight& flight) {
    return flight.placed && flight.noted_in == survey::NotedIn::passes && flight.path.size() == 2 &&
           flight.path.front() != flight.path.back() && flight.behaviour != survey::Behaviour::foraging;
}

Sighting sighting_of(const geo::Line& piece) {
    const core::PlanePoint from = piece.front(), to = piece.back();
    const double length = core::distance(from, to).value();
    return {{0.5 * (from.easting + to.easting), 0.5 * (from.northing + to.northing)},
            {(to.easting - from.easting) / length, (to.northing - from.northing) / length}};
}

core::PlanePoint moved(core::PlanePoint from, Direction along, double metres) {
    return {from.easting + metres * along.east, from.northing + metres * along.north};
}

/// The ends of the parts on one side of a pass, nearest first. Each part has the direction at its middle.
geo::Line parts_of(const DirectionField& field, Sighting from, double length) {
    geo::Line ends;
    for (std::size_t i = 0; i < parts_each_way; ++i) {
        if (i > 0) from.direction = field.at(moved(from.place, from.direction, 0.5 * length), from.direction);
        from.place = moved(from.place, from.direction, length);
        ends.push_back(from.place);
    }
    return ends;
}

geo::Line bent_piece(const DirectionField& field, const Sighting& pass, double length) {
    const double part = length / static_cast<double>(2 * parts_each_way);
    geo::Line piece = parts_of(field, {pass.place, {-pass.direction.east, -pass.direction.north}}, part);
    std::ranges::reverse(piece);
    piece.push_back(pass.place);
    const geo::Line ahead = parts_of(field, pass, part);
    piece.insert(piece.end(), ahead.begin(), ahead.end());
    return piece;
}

}  // namespace

survey::Survey bend_flights(survey::Survey survey, core::Threads threads) {
    constexpr std::size_t grain = 256;
    std::vector<std::size_t> which;
    std::vector<Sighting> passes;
    for (std::size_t i = 0; i < survey.flights.size(); ++i) {
        if (!has_bearing(survey.flights[i])) continue;
        which.push_back(i);
        passes.push_back(sighting_of(survey.flights[i].path));
    }
    const DirectionField as_noted(passes);
    core::parallel_for(passes.size(), grain, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            for (int turn = 0; turn < turns; ++turn)
                passes[i].direction = as_noted.at(passes[i].place, passes[i].direction);
    });
    const DirectionField turned(passes);
    core::parallel_for(passes.size(), grain, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            geo::Line& path = survey.flights[which[i]].path;
            path = bent_piece(turned, passes[i], longer * core::distance(path.front(), path.back()).value());
        }
    });
    return survey;
}

}  // namespace roostward::activity
