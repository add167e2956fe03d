#include "tallies.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace roostward::survey {

namespace {

constexpr double farthest_in_ranges = 3.0;
constexpr double pieces_a_range = 5.0;

core::PlanePoint between(core::PlanePoint a, core::PlanePoint b, double share) {
    return {a.easting + share * (b.easting - a.easting), a.northing + share * (b.northing - a.northing)};
}

/// Into how many equal pieces a stretch is cut.
std::size_t parts_of(core::Metres stretch, core::Metres range) {
    return static_cast<std::size_t>(std::ceil(pieces_a_range * (stretch / range)));
}

double share(std::size_t part, std::size_t of) {
    return static_cast<double>(part) / static_cast<double>(of);
}

/// A half-normal view, from a station or as the mean over a walk.
class View {
 public:
    explicit View(const Watch& watch) : watch_(watch) {
        stations_ = {watch.path.front()};
        for (std::size_t i = 0; i + 1 < watch.path.size(); ++i) {
            const std::size_t parts = parts_of(core::distance(watch.path[i], watch.path[i + 1]), watch.range);
            for (std::size_t k = 1; k <= parts; ++k)
                stations_.push_back(between(watch.path[i], watch.path[i + 1], share(k, parts)));
        }
    }

    [[nodiscard]] double at(core::PlanePoint p) const {
        double sum = 0.0;
        for (const core::PlanePoint station : stations_)
            sum += from(station, p);
        return sum / static_cast<double>(stations_.size());
    }

 private:
    [[nodiscard]] double from(core::PlanePoint station, core::PlanePoint p) const {
        const double squared = core::squared_distance(station, p), range = watch_.range.value();
        if (squared > std::pow(farthest_in_ranges * range, 2)) return 0.0;
        const bool in_view =
            !watch_.view || squared == 0.0 ||
            core::turn_between(core::grid_bearing(station, p), watch_.view->look) <= 0.5 * watch_.view->width;
        return in_view ? std::exp(-squared / (2.0 * range * range)) : 0.0;
    }

    const Watch& watch_;
    std::vector<core::PlanePoint> stations_;
};

}  // namespace

core::Metres metres_in_view(core::Metres range) {
    return std::sqrt(2.0 * std::numbers::pi) * range;
}

core::Metres metres_flown_in_view(core::Metres in_view, core::Metres flight_length) {
    return in_view / (1.0 + in_view / flight_length);
}

std::vector<Flight> laid_along(const geo::Line& line, const Watch& watch) {
    const View view(watch);
    std::vector<Flight> pieces;
    double metres = 0.0, most = 0.0;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const core::Metres length = core::distance(line[i], line[i + 1]);
        const std::size_t parts = parts_of(length, watch.range);
        for (std::size_t k = 0; k < parts; ++k) {
            const double seen = view.at(between(line[i], line[i + 1], share(2 * k + 1, 2 * parts)));
            if (seen == 0.0) continue;
            Flight piece;
            piece.path = {between(line[i], line[i + 1], share(k, parts)),
                          between(line[i], line[i + 1], share(k + 1, parts))};
            piece.count = seen * length.value() / static_cast<double>(parts);
            metres += piece.count;
            most = std::max({most, seen, view.at(piece.path.front()), view.at(piece.path.back())});
            pieces.push_back(std::move(piece));
        }
    }
    for (Flight& piece : pieces) {
        piece.count /= metres;
        piece.length = core::Metres(metres / most);
    }
    return pieces;
}

Watch at_gate(const geo::Line& gate, const Watch& watch) {
    Watch there = watch;
    there.path = {between(gate.front(), gate.back(), 0.5)};
    there.range = core::distance(gate.front(), gate.back()) / metres_in_view(core::Metres(1.0)).value();
    there.view.reset();
    return there;
}

geo::Line way_through(const geo::Line& gate, const Watch& gate_watch) {
    const core::Degrees through = core::grid_bearing(gate.front(), gate.back()) + core::Degrees(90.0);
    const core::Metres away = farthest_in_ranges * gate_watch.range;
    return {core::moved(gate_watch.path.front(), through, core::Metres(-away.value())),
            core::moved(gate_watch.path.front(), through, away)};
}

}  // namespace roostward::survey
