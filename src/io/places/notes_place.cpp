#include "places/notes_place.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "roostward/core/catalogue.hpp"
#include "roostward/io/bearings.hpp"
#include "words/bounds.hpp"

namespace roostward::io {

namespace {

// Standard deviations of a place told by eye.
constexpr double of_distance = 0.2;                          // of the distance: common practice, no source
constexpr double of_degrees = 5.0;                           // common practice, no source
const double of_compass_word = 11.25 / std::numbers::sqrt3;  // 16 words: within 11.25° to either side, evenly

/// Along and across the line of sight as one standard deviation of both axes.
core::Metres accuracy_of(double distance_m, double direction_sd_deg) {
    const double across = direction_sd_deg * std::numbers::pi / 180.0;
    return core::Metres(distance_m * std::sqrt(0.5 * (of_distance * of_distance + across * across)));
}

bool has_digit(std::string_view text) {
    return std::ranges::any_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

std::vector<FieldSpec> with_notes_fields(std::vector<FieldSpec> specs) {
    specs.push_back({"distance_m",
                     "m",
                     Dimension::length,
                     {{"distance"}, {"dist"}, {"distm"}, {"metresaway"}, {"distanceft", "ft"}}});
    specs.push_back({"direction", {}, Dimension::angle, {{"directiondeg"}, {"bearingfromstation"}}});
    specs.push_back({"square", {}, Dimension::plain, {{"gridsquare"}, {"cell"}}});
    specs.push_back(
        {"near_tree", {}, Dimension::plain, {{"neartree"}, {"nearesttree"}, {"bytree"}, {"attree"}}});
    return specs;
}

NotesPlace::NotesPlace(const OpenLayer& layer)
    : distance_(layer.fields.at("distance_m")),
      direction_(layer.fields.at("direction")),
      square_(layer.fields.at("square")),
      near_tree_(layer.fields.at("near_tree")),
      told_(distance_.given() || square_.given() || near_tree_.given()) {}

std::optional<Whereabouts> NotesPlace::of(const RowReader& row) const {
    if (!says_nothing(row.text(distance_))) return from_station(row);
    if (const std::string tree = row.text(near_tree_); !says_nothing(tree)) return NearTree{tree};
    if (const std::string square = row.text(square_); !says_nothing(square)) return InSquare{square};
    return std::nullopt;
}

std::optional<Whereabouts> NotesPlace::from_station(const RowReader& row) const {
    const std::optional<double> distance =
        row.number(distance_, bounds::distance_m, OtherwiseRow::is_set_aside);
    if (!distance) return std::nullopt;
    if (*distance == 0.0) return FromStation{};
    const std::string written = row.text(direction_);
    const Reading<double> reading =
        says_nothing(written) ? Trouble{"no direction", "finding.no_direction"} : read_bearing(written);
    if (const double* degrees = value_in(reading)) {
        const double sd = has_digit(written) ? of_degrees : of_compass_word;
        return FromStation{core::Metres(*distance), core::Degrees(*degrees), accuracy_of(*distance, sd)};
    }
    row.report().set_aside(direction_.name, trouble_in(reading).kind, written,
                           core::said(trouble_in(reading).key));
    return std::nullopt;
}

}  // namespace roostward::io
