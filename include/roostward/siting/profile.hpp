#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/units.hpp"
#include "roostward/trees/tree.hpp"

namespace roostward::siting {

/// Where a number comes from. Printed beside the number wherever it decides something.
enum class Status { published, common_practice, from_memory };
[[nodiscard]] std::string_view to_text(Status status);

struct Provenance {
    Status status = Status::common_practice;
    std::string source;  ///< the publication in words, where published
};

template <class Value>
struct Sourced {
    Value value{};
    Provenance provenance;
};

struct HeightRange {
    core::Metres min, typical, max;
};
struct Span {
    double min = 0.0, max = 0.0;
};
/// Bearings from `from` clockwise to `to`.
struct FacingArc {
    core::Degrees from, to;
};

/// A utility in [0, 1] by what was measured: straight between the points, level beyond the first and last.
struct Curve {
    struct Point {
        double measured = 0.0, utility = 0.0;
    };
    std::vector<Point> points;  ///< ascending in `measured`; never empty

    [[nodiscard]] double at(double measured) const;
};

/// What makes a place better or worse for the animals. Empty: it makes no difference, or nobody knows.
struct Utilities {
    std::optional<Sourced<Curve>> approach;  ///< by free way toward the flight line, m
    std::optional<Sourced<Curve>> sun;  ///< by warm half-year's sun on the face, mean h a day, cool climate
    std::optional<Sourced<Curve>> sun_hot;  ///< the same in a hot climate
    std::optional<Sourced<Curve>> lux;      ///< by lamp light at the entrance, lx
    std::optional<Sourced<Curve>> lamp;     ///< by distance to the nearest lamp, m, where it has no numbers
    std::optional<Sourced<Curve>> road;     ///< by distance to the nearest road, m
};

/// Animals that must not live near by.
struct UnfitNeighbours {
    std::vector<std::string> animals;  ///< as words
    core::Metres within;               ///< of their boxes and nests
    core::Metres seen_within;          ///< of where they were seen; 0: it does not matter
};

/// Months of the year, the last one included; may run over the turn of the year.
struct Season {
    std::chrono::month from, to;

    [[nodiscard]] bool holds(std::chrono::month month) const {
        return from <= to ? from <= month && month <= to : month >= from || month <= to;
    }
};

/// What an animal group needs of a box and its place.
struct Profile {
    std::string id;    ///< "small-crevice-bat"
    std::string name;  ///< "Small crevice bats"
    Sourced<HeightRange> mount_height;
    std::string entrance_kind;  ///< "slot" or "hole"
    Sourced<Span> entrance_mm;
    Sourced<core::Metres> clear_approach;
    Sourced<core::Metres> clear_drop;
    Sourced<Span> spacing_m;
    Sourced<FacingArc> facing_north;  ///< northern hemisphere
    Sourced<FacingArc> facing_south;
    Sourced<core::Centimetres> min_dbh;
    Sourced<core::Metres> min_height;
    Sourced<std::vector<trees::Condition>> conditions;
    Sourced<std::vector<std::string>> avoid_species;
    Sourced<UnfitNeighbours> keep_from;
    /// Groups of animals that count, or words; and words for others. Empty: all count.
    Sourced<std::vector<std::string>> counted_animals, left_out_animals;
    Sourced<std::chrono::minutes> watch_end;                    ///< after sunset
    std::optional<Sourced<std::chrono::minutes>> first_flight;  ///< after sunset, usually; empty: not known
    std::optional<Sourced<Season>> active_north, active_south;  ///< empty: all year
    Utilities utilities;
    std::optional<Sourced<Span>> entrance_doubtful_mm;  ///< narrower or wider is told; empty: entrance_mm
    std::string note;
};

/// When the animals are about at this latitude; null where they are all year, or between the tropics, where
/// no season is known.
[[nodiscard]] const Season* active_season(const Profile& profile, core::Degrees latitude);

/// Ground at the trunk to the entrance: the profile's usual height, but 4 m or more where the public can
/// reach.
[[nodiscard]] core::Metres entrance_height(const Profile& profile);

}  // namespace roostward::siting
