#include "roostward/activity/flights_past.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>
#include <optional>

#include "roostward/core/by_square.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::activity {

namespace {

constexpr double longest_segment = 20.0;  // m
/// A segment within reach of a point has its middle in the point's square or one beside it.
constexpr double square_side = past_reach.value() + 0.5 * longest_segment;
/// Mean chord of a disc, of its radius.
constexpr double mean_chord = 0.5 * std::numbers::pi;
/// The same where longer chords count for more.
constexpr double weighted_chord = 16.0 / (3.0 * std::numbers::pi);
constexpr double reach = past_reach.value();
/// Flights within 20 m in an hour, of metres per m² and hour where flight is even: disc over mean chord.
constexpr double past_even_flight = std::numbers::pi * reach / mean_chord;
constexpr double flown_disc = std::numbers::pi * flown_reach.value() * flown_reach.value();

std::int64_t square_number(std::int64_t column, std::int64_t row) {
    return (row << 32) + column;
}

std::int64_t cell(double metres) {
    return static_cast<std::int64_t>(std::floor(metres / square_side));
}

}  // namespace

/// How flights went past a point: sums over them, weighed by the flights that they stand for.
struct FlightsPast::Passing {
    double weight = 0.0;
    double cos2 = 0.0, sin2 = 0.0;           ///< of doubled angles
    double off_east = 0.0, off_north = 0.0;  ///< from the point to their course, m
    double half_chord = 0.0;                 ///< m

    void add(double flights, const Segment& nearest, double aside, double chord) {
        weight += flights;
        cos2 += flights * (nearest.east * nearest.east - nearest.north * nearest.north);
        sin2 += flights * 2.0 * nearest.east * nearest.north;
        off_east -= flights * aside * nearest.north;
        off_north += flights * aside * nearest.east;
        half_chord += flights * 0.5 * chord;
    }
    [[nodiscard]] std::optional<Effort::Axis> axis() const {
        if (cos2 == 0.0 && sin2 == 0.0) return std::nullopt;
        const double angle = 0.5 * std::atan2(sin2, cos2);
        return Effort::Axis{std::cos(angle), std::sin(angle)};
    }
    [[nodiscard]] core::PlanePoint moved_onto_course(core::PlanePoint p) const {
        if (weight == 0.0) return p;
        return {p.easting + off_east / weight, p.northing + off_north / weight};
    }
    [[nodiscard]] core::Metres reach_along() const {
        return core::Metres(weight > 0.0 ? half_chord / weight : 0.5 * mean_chord * reach);
    }
};

FlightsPast::FlightsPast(const survey::Survey& flown) : effort_(flown, core::Metres(1.0)) {
    double past = 0.0, past2 = 0.0, metres = 0.0, metres2 = 0.0;
    std::vector<Segment> segments;
    std::vector<std::int64_t> squares;
    for (const auto& flight : flown.flights) {
        if (!flight.placed || flight.path.empty()) continue;
        const auto number = static_cast<std::uint32_t>(flights_.size());
        const double length = geo::length_of(flight.path).value();
        flights_.push_back(
            {flight.metres(), length, flight.count * survey::laid_on_path(flight), flight.evening});
        const Weight& weight = flights_.back();
        const double whole_past = weight.metres / (length + mean_chord * reach);
        past += whole_past;
        past2 += whole_past * whole_past;
        const double near = weight.per_metre * (length > 0.0 ? weighted_chord * flown_reach.value() : 1.0);
        metres += near;
        metres2 += near * near;
        const auto add = [&](core::PlanePoint from, double east, double north, double piece) {
            squares.push_back(square_number(cell(from.easting + 0.5 * piece * east),
                                            cell(from.northing + 0.5 * piece * north)));
            segments.push_back({from, east, north, piece, number});
        };
        if (length == 0.0) add(flight.path.front(), 0.0, 0.0, 0.0);
        for (std::size_t i = 0; i + 1 < flight.path.size(); ++i) {
            const core::PlanePoint a = flight.path[i], b = flight.path[i + 1];
            const double whole = core::distance(a, b).value();
            if (whole == 0.0) continue;
            const double east = (b.easting - a.easting) / whole, north = (b.northing - a.northing) / whole;
            const double parts = std::ceil(whole / longest_segment), piece = whole / parts;
            for (double k = 0.0; k < parts; k += 1.0)
                add({a.easting + k * piece * east, a.northing + k * piece * north}, east, north, piece);
        }
    }
    if (past > 0.0) one_flight_ = past2 / past;
    if (metres > 0.0) one_flown_ = metres2 / metres;
    std::vector<std::size_t> order(segments.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return squares[i]; });
    for (const std::size_t i : order) {
        segments_.push_back(segments[i]);
        square_.push_back(squares[i]);
    }
}

std::vector<FlightsPast::Segment> FlightsPast::segments_about(core::PlanePoint middle) const {
    std::vector<Segment> about;
    const std::int64_t column = cell(middle.easting), row = cell(middle.northing);
    for (std::int64_t r = row - 1; r <= row + 1; ++r) {
        const auto begin = std::ranges::lower_bound(square_, square_number(column - 1, r));
        const auto end = std::upper_bound(begin, square_.end(), square_number(column + 1, r));
        about.insert(about.end(), segments_.begin() + (begin - square_.begin()),
                     segments_.begin() + (end - square_.begin()));
    }
    std::ranges::stable_sort(about, {}, &Segment::flight);
    return about;
}

FlightsPast::Passing FlightsPast::count_past(core::PlanePoint p, std::span<const Segment> about,
                                             PastTable& table, std::size_t row) const {
    constexpr double reach2 = reach * reach, flown2 = flown_reach.value() * flown_reach.value();
    Passing passing;
    for (std::size_t i = 0; i < about.size();) {
        const std::uint32_t number = about[i].flight;
        double nearest2 = std::numeric_limits<double>::max(), nearest_aside = 0.0, within = 0.0;
        const Segment* nearest = nullptr;
        for (; i < about.size() && about[i].flight == number; ++i) {
            const Segment& s = about[i];
            const double dx = p.easting - s.from.easting, dy = p.northing - s.from.northing;
            const double along = dx * s.east + dy * s.north, aside = dx * s.north - dy * s.east;
            if (aside * aside > reach2) continue;
            const double past_end = along - std::clamp(along, 0.0, s.length);
            const double distance2 = s.length > 0.0 ? aside * aside + past_end * past_end : dx * dx + dy * dy;
            if (distance2 > reach2) continue;
            if (distance2 < nearest2) {
                nearest2 = distance2;
                nearest_aside = aside;
                nearest = &s;
            }
            if (distance2 > flown2) continue;
            const double half = std::sqrt(std::max(0.0, flown2 - aside * aside));
            within += s.length > 0.0
                          ? std::max(0.0, std::min(s.length, along + half) - std::max(0.0, along - half))
                          : 1.0;
        }
        if (nearest == nullptr) continue;
        const Weight& weight = flights_[number];
        const std::size_t at = table.at(row, weight.evening);
        const double chord = weight.length > 0.0
                                 ? 2.0 * std::sqrt(reach * reach - nearest_aside * nearest_aside)
                                 : mean_chord * reach;
        const double flights = weight.metres / (weight.length + chord);
        table.flights[at] += flights;
        table.metres[at] += weight.per_metre * within;
        ++table.seen[row];
        passing.add(flights, *nearest, nearest_aside, chord);
    }
    return passing;
}

void FlightsPast::add_hours(core::PlanePoint p, const Passing& passing, PastTable& table,
                            std::size_t row) const {
    const auto axis = passing.axis();
    if (effort_.views().empty()) {
        const double even = effort_.of_even_ground(p).smoothed;
        for (std::size_t n = 0; n < table.evenings; ++n)
            table.hours[table.at(row, n)] += even;
        return;
    }
    const core::PlanePoint on_course = passing.moved_onto_course(p);
    effort_.for_each_view_near(on_course, [&](const Effort::View& view) {
        const double seen = effort_.along_course(view, on_course, axis, passing.reach_along());
        for (const auto& sitting : view.sittings) {
            const std::size_t at = table.at(row, sitting.evening);
            table.hours[at] += sitting.hours * seen;
            const double unplaced = sitting.unplaced_per_hour * sitting.hours * seen;
            table.flights[at] += past_even_flight * unplaced;
            table.metres[at] += flown_disc * unplaced;
        }
    });
}

PastTable FlightsPast::at(std::span<const core::PlanePoint> points, core::Threads threads) const {
    PastTable table;
    table.evenings = effort_.evenings();
    table.one_flight = one_flight_;
    table.one_flown = one_flown_;
    for (auto* values : {&table.flights, &table.metres, &table.hours})
        values->assign(points.size() * table.evenings, 0.0);
    table.seen.assign(points.size(), 0);
    const core::Squares squares = core::by_square(points, core::Metres(square_side));
    core::parallel_for(squares.size(), 1, threads, [&](std::size_t square, std::size_t) {
        const auto members = squares.members(square);
        const std::vector<Segment> about = segments_about(points[members.front()]);
        for (const std::size_t i : members)
            add_hours(points[i], count_past(points[i], about, table, i), table, i);
    });
    return table;
}

}  // namespace roostward::activity
