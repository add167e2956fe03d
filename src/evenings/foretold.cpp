#include "foretold.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>
#include <tuple>

#include "roostward/geo/shape.hpp"

namespace roostward::evenings {

namespace {

constexpr double fades_in = 100.0, spread = 8.0, spread_a_metre = 0.15;  // metres
constexpr double looked = 250.0;                                         // metres ahead and behind
constexpr double widest = 3.0;                                           // standard deviations aside
/// A pass seen where nearly nobody looks stands for no more than this lets it.
constexpr double least_hours = 0.2;
/// Passes this near to each other, and as much the same way, go on as one.
constexpr double square = 10.0;  // metres
constexpr double ways = 24.0;    // in half a turn

/// Passes that go on together: where, along which axis, and how many an hour.
struct Stream {
    core::PlanePoint at;
    double east = 0.0, north = 0.0;
    double an_hour = 0.0;
};

double hours_at(const activity::Effort& effort, core::PlanePoint at, std::size_t evenings) {
    std::vector<double> flown(evenings), watched(evenings), smoothed(evenings);
    effort.add_at(at, flown.data(), watched.data(), smoothed.data());
    return std::max(least_hours, std::accumulate(watched.begin(), watched.end(), 0.0));
}

std::vector<Stream> streams_of(const survey::Survey& flown, const activity::Effort& effort) {
    std::map<std::tuple<double, double, double>, Stream> together;
    for (const survey::Flight& flight : flown.flights) {
        if (!flight.place_was_seen() || flight.path.size() < 2) continue;
        const core::PlanePoint a = flight.path.front(), b = flight.path.back();
        const double length = core::distance(a, b).value();
        if (length <= 0.0) continue;
        const core::PlanePoint at{0.5 * (a.easting + b.easting), 0.5 * (a.northing + b.northing)};
        const double turn = std::fmod(core::grid_bearing(a, b).value(), 180.0) / 180.0 * ways;
        Stream& stream =
            together[{std::floor(at.easting / square), std::floor(at.northing / square), std::floor(turn)}];
        // The first of them tells where, since flights come in the order of their content.
        if (stream.an_hour == 0.0)
            stream = {at, (b.easting - a.easting) / length, (b.northing - a.northing) / length, 0.0};
        stream.an_hour += flight.count / hours_at(effort, at, flown.evenings.size());
    }
    std::vector<Stream> streams;
    streams.reserve(together.size());
    for (const auto& [where, stream] : together)
        streams.push_back(stream);
    return streams;
}

double felt_at(const Stream& stream, core::PlanePoint place) {
    const double dx = place.easting - stream.at.easting, dy = place.northing - stream.at.northing;
    const double along = std::fabs(dx * stream.east + dy * stream.north);
    const double aside = dx * stream.north - dy * stream.east;
    const double deviation = spread + spread_a_metre * along;
    const double z = aside / deviation;
    if (std::fabs(z) > widest) return 0.0;
    return stream.an_hour * std::exp(-along / fades_in - 0.5 * z * z) /
           (deviation * std::sqrt(2.0 * std::numbers::pi));
}

}  // namespace

std::vector<double> foretold(const survey::Survey& flown, const activity::Effort& effort,
                             std::span<const core::PlanePoint> places, core::Threads threads) {
    const std::vector<Stream> streams = streams_of(flown, effort);
    std::vector<core::PlanePoint> at;
    at.reserve(streams.size());
    for (const Stream& stream : streams)
        at.push_back(stream.at);
    const geo::PointIndex index(at);
    std::vector<double> felt(places.size(), 0.0);
    constexpr std::size_t places_a_piece = 64;
    core::parallel_for(places.size(), places_a_piece, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            for (const std::size_t s : index.within(places[i], core::Metres(looked)))
                felt[i] += felt_at(streams[s], places[i]);
    });
    return felt;
}

}  // namespace roostward::evenings
