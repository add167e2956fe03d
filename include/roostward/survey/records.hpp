#pragma once

#include <compare>
#include <optional>
#include <string>
#include <vector>

#include "roostward/core/finding.hpp"
#include "roostward/core/point.hpp"
#include "roostward/core/time.hpp"
#include "roostward/geo/shape.hpp"

namespace roostward::survey {

/// What the written position of a pass belongs to.
enum class PlaceOf { not_told, animal, observer, recorder };

enum class Behaviour { unknown, commuting, foraging, emerging, returning, social, perched };

/// One flight noticed once. Positions are in the planning plane, bearings in its grid.
struct Pass {
    core::RowRef row;
    core::PlanePoint position;
    std::optional<core::Instant> time;
    core::Evening evening;
    std::string watch;  ///< name of the watch it was seen from; empty where not told
    double count = 1.0;
    std::optional<core::Degrees> bearing;  ///< the flight goes to
    core::Metres accuracy;                 ///< standard deviation of the position; 0 where not told
    core::Metres step;                     ///< it was told by marks so far apart, as squares; 0: as its layer
    std::optional<core::Metres> height;
    PlaceOf place_of = PlaceOf::not_told;
    Behaviour behaviour = Behaviour::unknown;
    std::string animal;
    std::string observer;  ///< who wrote it down; empty where not told

    /// Whether the position is the animal's, as it is where nobody says otherwise.
    [[nodiscard]] bool says_where() const {
        return place_of == PlaceOf::not_told || place_of == PlaceOf::animal;
    }
};

/// A flight followed along its path.
struct Track {
    core::RowRef row;
    geo::Line path;
    std::optional<core::Instant> time;
    core::Evening evening;
    std::string watch;
    double count = 1.0;
    std::string animal;
};

/// A line that somebody drew and gave a name, as "creek". What is told of animals may refer to it.
struct Route {
    core::RowRef row;
    std::string name;
    geo::Line line;
};

/// Somewhere people may stand to watch.
struct Station {
    core::RowRef row;
    core::PlanePoint position;
    std::string name;  ///< empty where not told
};

/// Flights that were counted together: "12 passes, mostly along the creek", or across a gate.
struct Tally {
    core::RowRef row;
    std::string watch;  ///< empty where not told
    /// From when to when; empty: as long as the watch.
    std::optional<core::Instant> start, end;
    std::optional<core::Evening> evening;  ///< empty: the watch's
    double count = 0.0;
    std::string along;      ///< name of a route; empty: anywhere in view, or across the gate
    double share = 1.0;     ///< of the count that flew along the route or across the gate; the rest anywhere
    bool both_ways = true;  ///< else all flew the way the route was drawn
    geo::Line gate;         ///< its two posts; empty where there is none
    Behaviour behaviour = Behaviour::unknown;
    std::string animal;
};

/// The part of the horizon somebody watched.
struct FieldOfView {
    core::Degrees look;   ///< grid bearing of its middle
    core::Degrees width;  ///< in (0, 360)
    friend auto operator<=>(const FieldOfView&, const FieldOfView&) = default;
};

/// Where somebody watched, from when to when and how far they could see.
struct Watch {
    core::RowRef row;
    std::string name;
    geo::Line path;  ///< one point for a station, more for a walk at constant speed
    core::Instant start;
    core::Instant end;
    core::Evening evening;
    core::Metres range;  ///< half-normal scale, half of how far a pass could be seen
    std::optional<FieldOfView> view;
    std::string observer;
    std::string seen_by;
    std::optional<core::Celsius> temperature;
    std::optional<core::MetresPerSecond> wind;
    std::optional<bool> rain;

    [[nodiscard]] core::Hours hours() const { return core::hours_between(start, end); }
};

}  // namespace roostward::survey
