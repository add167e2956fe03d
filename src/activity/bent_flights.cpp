#include "roostward/activity/bent_flights.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "course_field.hpp"
#include "roostward/activity/kernel.hpp"

namespace roostward::activity {

namespace {

constexpr double longer = 2.0;  ///< than the straight piece
constexpr std::size_t parts_each_way = 4;
constexpr double keeps_aside = 30.0;  ///< m along, in which a flight's distance from the middle falls to 1/e

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

Direction left_of(Direction along) {
    return {-along.north, along.east};
}

Direction turned(Direction along, double slope) {
    const double length = std::sqrt(1.0 + slope * slope);
    return {(along.east - slope * along.north) / length, (along.north + slope * along.east) / length};
}

/// A flight on its way: how far to the left of the middle it started, and where it is now.
struct OnCourse {
    double aside = 0.0;
    Sighting now;
};

/// The ends of the parts ahead, nearest first.
geo::Line ahead_of(const CourseField& field, OnCourse flight, double part) {
    const double keep = exp_of(-part / keeps_aside);
    geo::Line ends;
    for (std::size_t i = 0; i < parts_each_way; ++i) {
        auto& [place, along] = flight.now;
        place = moved(place, along, part);
        const Course course = field.at(place, along);
        flight.aside *= keep;
        along = turned(along, course.slope);
        place = moved(place, left_of(along), course.aside + flight.aside);
        ends.push_back(place);
    }
    return ends;
}

geo::Line bent_piece(const CourseField& field, const Sighting& pass, double length) {
    const double part = length / static_cast<double>(2 * parts_each_way);
    const Course course = field.at(pass.place, pass.direction);
    const Direction along = turned(pass.direction, course.slope);
    geo::Line piece = ahead_of(field, {course.aside, {pass.place, {-along.east, -along.north}}}, part);
    std::ranges::reverse(piece);
    piece.push_back(pass.place);
    const geo::Line ahead = ahead_of(field, {-course.aside, {pass.place, along}}, part);
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
    const CourseField field(passes);
    core::parallel_for(passes.size(), grain, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            geo::Line& path = survey.flights[which[i]].path;
            path = bent_piece(field, passes[i], longer * core::distance(path.front(), path.back()).value());
        }
    });
    return survey;
}

}  // namespace roostward::activity
