#include <algorithm>
#include <cmath>

#include "planned_boxes.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/geo/shape.hpp"
#include "roostward/report/public_plan.hpp"
#include "roostward/report/site_words.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

/// Flights an hour within 20 m of a place, in the mean over places of ground much wider than 20 m, of the
/// metres flown there per hectare and hour: a flight straight past comes within 20 m of 40 m² of places for
/// each of its metres.
constexpr double flights_of_mean_density = 40.0 / 1e4;

/// What is counted in one square.
struct Tally {
    std::size_t trees = 0, could_hold = 0, boxes = 0;
    std::size_t watched_cells = 0;
    double flown = 0.0;  ///< sum over the watched cells
};

class Squares {
 public:
    explicit Squares(const core::Box& box)
        : grid_(core::grid_over(box, public_square)), tallies_(grid_.size()) {}

    [[nodiscard]] Tally* holding(core::PlanePoint point) {
        const auto cell = grid_.cell_of(point);
        return cell ? &tallies_[grid_.index(*cell)] : nullptr;
    }
    [[nodiscard]] const core::Grid& grid() const { return grid_; }
    [[nodiscard]] const Tally& at(core::Cell cell) const { return tallies_[grid_.index(cell)]; }

 private:
    core::Grid grid_;
    std::vector<Tally> tallies_;
};

/// The watched ground and the chosen trees: nothing else is told, however far the inventory goes.
core::Box ground_of(const plan::Plan& plan) {
    const core::Box watched = plan.surfaces.flight_density.grid.box();
    std::vector<core::PlanePoint> corners{watched.south_west, watched.north_east};
    for (const std::size_t tree : plan.chosen)
        corners.push_back(plan.trees.rows[tree].stem);
    return core::widened(*geo::box_of(corners), core::Metres(1.0));
}

void count_trees(Squares& squares, const plan::Plan& plan) {
    for (std::size_t i = 0; i < plan.trees.rows.size(); ++i)
        if (Tally* const square = squares.holding(plan.trees.rows[i].stem)) {
            ++square->trees;
            square->could_hold += plan.candidates[i].may_hold_a_box() ? 1 : 0;
        }
    for (const PlannedBox& box : planned_boxes(plan))
        ++squares.holding(plan.trees.rows[box.tree].stem)->boxes;
}

void sum_flights(Squares& squares, const core::Raster& density) {
    for (std::size_t row = 0; row < density.grid.rows; ++row)
        for (std::size_t column = 0; column < density.grid.columns; ++column) {
            const core::Cell cell{row, column};
            const std::size_t i = density.grid.index(cell);
            if (density.known[i] == 0) continue;
            Tally* const square = squares.holding(density.grid.centre(cell));
            if (square == nullptr) continue;
            ++square->watched_cells;
            square->flown += static_cast<double>(density.values[i]);
        }
}

std::optional<double> flights_of(const Tally& tally, core::Metres cell) {
    constexpr double square = public_square.value() * public_square.value();
    const double watched = static_cast<double>(tally.watched_cells) * cell.value() * cell.value();
    if (watched < 0.5 * square) return std::nullopt;
    const double mean = tally.flown / static_cast<double>(tally.watched_cells);
    return flights_of_mean_density * mean;
}

std::vector<PublicSquare> told_of(const Squares& squares, core::Metres cell) {
    const core::Grid& grid = squares.grid();
    std::vector<PublicSquare> told;
    for (std::size_t row = 0; row < grid.rows; ++row)
        for (std::size_t column = 0; column < grid.columns; ++column) {
            const Tally& tally = squares.at({row, column});
            const auto flights = flights_of(tally, cell);
            const std::size_t boxes = tally.could_hold >= least_public_trees ? tally.boxes : 0;
            if (tally.trees < least_public_trees || (!flights && boxes == 0)) continue;
            const core::PlanePoint middle = grid.centre({row, column});
            const double half = 0.5 * public_square.value();
            told.push_back({{middle.easting - half, middle.northing - half}, flights, boxes});
        }
    return told;
}

}  // namespace

PublicPlan blurred(const plan::Plan& plan) {
    Squares squares(ground_of(plan));
    count_trees(squares, plan);
    sum_flights(squares, plan.surfaces.flight_density);
    PublicPlan copy;
    copy.number = plan.number;
    copy.site_name = plan.settings.site_name;
    copy.animal = plan.settings.profile.name;
    copy.crs_name = geo::facts_of(plan.planning_crs).name;
    copy.squares = told_of(squares, plan.surfaces.flight_density.grid.cell);
    copy.boxes = planned_boxes(plan).size();
    copy.boxes_elsewhere = copy.boxes;
    for (const PublicSquare& square : copy.squares)
        copy.boxes_elsewhere -= square.boxes;
    copy.nobody_checked = nobody_checked(plan.checks);
    copy.caveat = caveat(plan);
    copy.cannot_show = weak_points(plan);
    for (const char* always : {"cannot.abundance", "cannot.stations", "cannot.use"})
        copy.cannot_show.push_back(core::said(always));
    return copy;
}

}  // namespace roostward::report
