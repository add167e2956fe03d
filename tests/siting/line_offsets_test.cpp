#include "roostward/siting/line_offsets.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace roostward::siting {
namespace {

Candidate watched(bool is_watched) {
    Candidate candidate;
    candidate.activity.watched = is_watched;
    return candidate;
}

trees::Inventory stems(std::initializer_list<core::PlanePoint> places) {
    trees::Inventory inventory;
    for (const core::PlanePoint place : places) {
        inventory.rows.emplace_back();
        inventory.rows.back().stem = place;
    }
    return inventory;
}

activity::FlightLine line(geo::Line path) {
    activity::FlightLine made;
    made.path = std::move(path);
    return made;
}

const std::vector two_lines{line({{0, 0}, {100, 0}}), line({{0, 50}, {100, 50}})};

// Distances from points to straight pieces, by hand: across where the foot lies on the piece, else to its
// end.
TEST(LineOffsets, AreThoseToTheNearestLine) {
    std::vector<Candidate> candidates(3, watched(true));
    measure_line_offsets(candidates, stems({{50, 10}, {50, 43}, {103, -4}}), two_lines, core::Threads{1});
    EXPECT_EQ(candidates[0].flight_line->line, 0U);
    EXPECT_DOUBLE_EQ(candidates[0].flight_line->offset.value(), 10.0);
    EXPECT_EQ(candidates[1].flight_line->line, 1U);
    EXPECT_DOUBLE_EQ(candidates[1].flight_line->offset.value(), 7.0);
    EXPECT_DOUBLE_EQ(candidates[2].flight_line->offset.value(), 5.0);
}

TEST(LineOffsets, OfEquallyNearLinesTheFirstCounts) {
    std::vector<Candidate> candidates(1, watched(true));
    measure_line_offsets(candidates, stems({{50, 25}}), two_lines, core::Threads{1});
    EXPECT_EQ(candidates[0].flight_line->line, 0U);
}

TEST(LineOffsets, AreUnknownWhereNobodyWatchedOrNoLineIs) {
    std::vector<Candidate> candidates{watched(false), watched(true)};
    measure_line_offsets(candidates, stems({{50, 10}, {50, 10}}), {}, core::Threads{1});
    EXPECT_FALSE(candidates[1].flight_line);
    measure_line_offsets(candidates, stems({{50, 10}, {50, 10}}), two_lines, core::Threads{1});
    EXPECT_FALSE(candidates[0].flight_line);
    EXPECT_TRUE(candidates[1].flight_line);
}

}  // namespace
}  // namespace roostward::siting
