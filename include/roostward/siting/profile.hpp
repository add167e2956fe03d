#pragma once

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
    std::string note;
};

}  // namespace roostward::siting
