#pragma once

#include <cstdint>
#include <vector>

#include "roostward/survey/survey.hpp"

namespace roostward::activity {

/// A straight piece of flight, or a point where the direction is unknown (half_length = 0).
struct Piece {
    core::PlanePoint middle;
    double east = 0.0, north = 0.0;  ///< unit vector along it
    double half_length = 0.0;        ///< m
    double weight = 0.0;             ///< metres flown: per metre, for a straight piece; in all, for a point
    double width = 0.0;              ///< h_i = √(h² + accuracy²), m
    std::uint32_t evening = 0;
};

/// The placed flights as straight pieces, in their order, none longer than `longest`.
[[nodiscard]] std::vector<Piece> pieces_of(const survey::Survey& survey, core::Metres h,
                                           core::Metres longest);

}  // namespace roostward::activity
