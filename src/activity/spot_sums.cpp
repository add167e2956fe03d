#include "spot_sums.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>
#include <vector>

#include "roostward/activity/kernel.hpp"
#include "roostward/core/vector_clones.hpp"

namespace roostward::activity {

namespace {

/// b as a share of the narrowest kernel. A smaller one asks for closer nodes, a larger one for more a place.
constexpr double second_share = 0.45;
/// σ in spacings of nodes.
constexpr double nodes_a_deviation = 1.1;
/// Nodes a place takes from, each way: 6.5 deviations of the second step to either side.
constexpr std::size_t taken = 16, taken_before = taken / 2 - 1;
constexpr std::size_t square_nodes = 64;
constexpr std::size_t across = square_nodes + taken;
/// Nodes are laid this many at a time, a whole number of which is `across`.
constexpr std::size_t lanes = 8;

using Line = std::array<double, across>;

constexpr Line counted = [] {
    Line line{};
    std::iota(line.begin(), line.end(), 0.0);
    return line;
}();

/// factor · e^(−d²·precision/2) at n nodes, the first of them `first` metres off.
ROOSTWARD_VECTOR_CLONES
void bell(double first, double apart, double precision, double factor, std::size_t n, double* values) {
    for (std::size_t i = 0; i < n; ++i) {
        const double d = first + counted[i] * apart;
        values[i] = factor * exp_of(-0.5 * d * d * precision);
    }
}

ROOSTWARD_VECTOR_CLONES
void add_product(const double* by_row, const double* by_column, std::size_t rows, std::size_t columns,
                 double* nodes) {
    for (std::size_t r = 0; r < rows; ++r)
        for (std::size_t c = 0; c < columns; ++c)
            nodes[r * across + c] += by_row[r] * by_column[c];
}

/// A place among the nodes: the first it takes from, and what share of each column and row.
struct Place {
    std::array<double, taken> of_column, of_row;
    std::size_t first_node = 0;
    double* flown = nullptr;  ///< one value an evening
};

/// Four rows at a time, so that the sums stay in registers.
ROOSTWARD_VECTOR_CLONES
void take(const double* plane, const Place* places, std::size_t n, std::size_t evening) {
    for (std::size_t k = 0; k < n; ++k) {
        const Place& place = places[k];
        std::array<double, taken> sum{};
        for (std::size_t r = 0; r < taken; r += 4) {
            const double* share = &place.of_row[r];
            const double* row = plane + place.first_node + r * across;
            for (std::size_t c = 0; c < taken; ++c)
                sum[c] += (share[0] * row[c] + share[1] * row[c + across]) +
                          (share[2] * row[c + 2 * across] + share[3] * row[c + 3 * across]);
        }
        double flown = 0.0;
        for (std::size_t c = 0; c < taken; ++c)
            flown += sum[c] * place.of_column[c];
        place.flown[evening] += flown;
    }
}

/// The nodes of one square and of half of `taken` round it: what spots come to after the first step.
class Nodes {
 public:
    Nodes(core::PlanePoint first, double apart, double second_step)
        : first_(first), apart_(apart), second_step_(second_step), plane_(across * across, 0.0) {}

    void clear() { std::ranges::fill(plane_, 0.0); }

    void lay(const PieceBuckets::Columns& spots, std::size_t spot) {
        const double east = spots.x[spot] - first_.easting, north = spots.y[spot] - first_.northing;
        const double variance = spots.width[spot] * spots.width[spot] - second_step_ * second_step_;
        const double reach = kernel_reach * std::sqrt(variance);
        const Span rows = within(north, reach), columns = within(east, reach);
        if (rows.size == 0 || columns.size == 0) return;
        const std::size_t wide = (columns.size + lanes - 1) / lanes * lanes;
        const std::size_t west = std::min(columns.first, across - wide);
        const double precision = 1.0 / variance;
        const double weight = spots.weight[spot] * apart_ * apart_ * precision * precision_of(second_step_) *
                              0.25 * std::numbers::inv_pi * std::numbers::inv_pi;
        bell(counted[west] * apart_ - east, apart_, precision, 1.0, wide, by_column_.data());
        bell(counted[rows.first] * apart_ - north, apart_, precision, weight, rows.size, by_row_.data());
        add_product(by_row_.data(), by_column_.data(), rows.size, wide, &plane_[rows.first * across + west]);
    }

    [[nodiscard]] Place at(core::PlanePoint p, double* flown) const {
        Place place;
        const double east = p.easting - first_.easting, north = p.northing - first_.northing;
        const std::size_t row = first_taken(north), column = first_taken(east);
        const double precision = precision_of(second_step_);
        bell(counted[column] * apart_ - east, apart_, precision, 1.0, taken, place.of_column.data());
        bell(counted[row] * apart_ - north, apart_, precision, 1.0, taken, place.of_row.data());
        place.first_node = row * across + column;
        place.flown = flown;
        return place;
    }

    void give(std::span<const Place> places, std::size_t evening) const {
        take(plane_.data(), places.data(), places.size(), evening);
    }

 private:
    struct Span {
        std::size_t first = 0, size = 0;
    };

    /// The nodes no farther than `reach` from what lies `at` metres past the first, and one before them.
    [[nodiscard]] Span within(double at, double reach) const {
        if (at + reach < 0.0 || at - reach > counted[across - 1] * apart_) return {};
        const std::size_t first = node_before(at - reach), last = node_before(at + reach);
        return {first, last - first + 1};
    }

    [[nodiscard]] std::size_t node_before(double at) const {
        return static_cast<std::size_t>(std::clamp(at / apart_, 0.0, counted[across - 1]));
    }

    [[nodiscard]] std::size_t first_taken(double at) const {
        return std::clamp(node_before(at), taken_before, across - taken + taken_before) - taken_before;
    }

    core::PlanePoint first_;
    double apart_, second_step_;
    std::vector<double> plane_;
    Line by_row_{}, by_column_{};
};

}  // namespace

SpotSums::SpotSums(std::span<const Piece* const> spots, std::size_t evenings)
    : evenings_(evenings), spots_(spots) {
    if (spots.empty()) return;
    const double narrowest = std::ranges::min(spots_.columns().width);
    const double first_share = std::sqrt(1.0 - second_share * second_share);
    second_step_ = second_share * narrowest;
    apart_ = second_step_ * first_share / nodes_a_deviation;
}

core::Metres SpotSums::square_side() const {
    return core::Metres(static_cast<double>(square_nodes) * apart_);
}

/// In kernels worked out one by one, as timed: clearing a plane of nodes, laying a spot, taking from nodes.
bool SpotSums::nodes_pay(std::size_t places, std::size_t near) const {
    constexpr double cleared = 200.0, laid_a_line = 1.0, laid_a_node = 0.1, taken_an_evening = 16.0;
    const double side = square_side().value(), reach = spots_.reach().value(), box = side + 2.0 * reach;
    const auto all = static_cast<double>(near), asking = static_cast<double>(places);
    const double felt = all * std::numbers::pi * reach * reach / (box * box);
    const double wide = 2.0 * reach / apart_, plane = static_cast<double>(across);
    const double in_plane = wide * plane / (wide + plane);
    const double laying = all * in_plane * (laid_a_line + laid_a_node * in_plane);
    const auto evenings = static_cast<double>(evenings_);
    const double taking = asking * (2.0 * taken + evenings * taken_an_evening);
    return evenings * cleared + laying + taking < asking * felt;
}

void SpotSums::add_at(std::span<const core::PlanePoint> places, std::span<const std::size_t> members,
                      double* flown) const {
    if (members.empty()) return;
    const double side = square_side().value();
    const core::PlanePoint any = places[members.front()];
    const core::PlanePoint corner{std::floor(any.easting / side) * side,
                                  std::floor(any.northing / side) * side};
    const core::Box square{corner, {corner.easting + side, corner.northing + side}};
    const std::vector<std::uint32_t> near = spots_.in(core::widened(square, spots_.reach()));
    if (nodes_pay(members.size(), near.size())) {
        add_by_nodes(corner, near, places, members, flown);
        return;
    }
    for (const std::size_t member : members)
        spots_.add_at(places[member], flown + member * evenings_);
}

void SpotSums::add_by_nodes(core::PlanePoint corner, std::span<const std::uint32_t> near,
                            std::span<const core::PlanePoint> places, std::span<const std::size_t> members,
                            double* flown) const {
    const double margin = counted[taken_before] * apart_;
    Nodes nodes({corner.easting - margin, corner.northing - margin}, apart_, second_step_);
    std::vector<Place> taking;
    taking.reserve(members.size());
    for (const std::size_t member : members)
        taking.push_back(nodes.at(places[member], flown + member * evenings_));
    std::vector<std::vector<std::uint32_t>> by_evening(evenings_);
    for (const std::uint32_t spot : near)
        by_evening[spots_.columns().evening[spot]].push_back(spot);
    for (std::size_t evening = 0; evening < evenings_; ++evening) {
        if (by_evening[evening].empty()) continue;
        nodes.clear();
        for (const std::uint32_t spot : by_evening[evening])
            nodes.lay(spots_.columns(), spot);
        nodes.give(taking, evening);
    }
}

}  // namespace roostward::activity
