#pragma once

#include <tuple>

#include "roostward/survey/records.hpp"

// What each record says, for core::put_in_order: everything but the row it was read from. When comes first,
// so that neighbours in the order are neighbours in time.
namespace roostward::survey {

[[nodiscard]] inline auto content(const Pass& p) {
    return std::tie(p.evening, p.time, p.position, p.watch, p.count, p.bearing, p.accuracy, p.step, p.height,
                    p.place_of, p.behaviour, p.animal, p.observer);
}

[[nodiscard]] inline auto content(const Track& t) {
    return std::tie(t.evening, t.time, t.path, t.watch, t.count, t.animal);
}

[[nodiscard]] inline auto content(const Watch& w) {
    return std::tie(w.start, w.end, w.path, w.range, w.view, w.observer, w.seen_by, w.temperature, w.wind,
                    w.rain, w.name);
}

[[nodiscard]] inline auto content(const Tally& t) {
    return std::tie(t.evening, t.start, t.end, t.watch, t.along, t.gate, t.count, t.share, t.both_ways,
                    t.behaviour, t.animal);
}

[[nodiscard]] inline auto content(const Station& s) {
    return std::tie(s.position, s.name);
}

[[nodiscard]] inline auto content(const Route& r) {
    return std::tie(r.name, r.line);
}

}  // namespace roostward::survey
