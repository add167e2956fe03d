#include "roostward/survey/evening_hours.hpp"

#include <algorithm>

namespace roostward::survey {

namespace {

/// The stretch of a line between two shares of its length.
geo::Line stretch_of(const geo::Line& line, double from, double to) {
    const double length = geo::length_of(line).value();
    geo::Line stretch;
    double passed = 0.0;
    const auto put_at = [&](std::size_t i, double leg, double at) {
        const double part = leg > 0.0 ? std::clamp((at - passed) / leg, 0.0, 1.0) : 0.0;
        stretch.push_back({line[i].easting + part * (line[i + 1].easting - line[i].easting),
                           line[i].northing + part * (line[i + 1].northing - line[i].northing)});
    };
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const double leg = core::distance(line[i], line[i + 1]).value();
        const double begin = from * length, end = to * length;
        const bool last = i + 2 == line.size() || passed + leg >= end;
        if (stretch.empty() && (passed + leg > begin || last)) put_at(i, leg, begin);
        if (!stretch.empty() && last) put_at(i, leg, end);
        if (last) break;
        if (!stretch.empty()) stretch.push_back(line[i + 1]);
        passed += leg;
    }
    return stretch;
}

}  // namespace

std::optional<EveningHours::Window> EveningHours::of(core::Evening evening) {
    if (counted_.all || !sunset_of_) return std::nullopt;
    const auto known = known_.find(evening);
    if (known != known_.end()) return known->second;
    std::optional<Window> window;
    if (const auto sunset = sunset_of_(evening))
        window = Window{*sunset, *sunset - counted_.before_sunset, *sunset + counted_.after_sunset};
    return known_[evening] = window;
}

std::optional<Watch> part_in(const Watch& watch, const EveningHours::Window& window) {
    Watch part = watch;
    part.start = std::max(watch.start, window.from);
    part.end = std::min(watch.end, window.to);
    if (part.end <= part.start) return std::nullopt;
    if (watch.path.size() > 1) {
        const double whole = watch.hours().value();
        part.path = stretch_of(watch.path, core::hours_between(watch.start, part.start).value() / whole,
                               core::hours_between(watch.start, part.end).value() / whole);
    }
    return part;
}

}  // namespace roostward::survey
