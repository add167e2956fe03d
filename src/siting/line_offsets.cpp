#include "roostward/siting/line_offsets.hpp"

#include "roostward/geo/shape.hpp"

namespace roostward::siting {

void measure_line_offsets(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                          std::span<const activity::FlightLine> lines, core::Threads threads) {
    if (lines.empty()) return;
    std::vector<geo::Shape> shapes;
    for (const auto& line : lines)
        shapes.push_back({{}, {line.path}, {}});
    const geo::NearestShape nearest(shapes);
    core::parallel_for(candidates.size(), 1024, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            if (!candidates[i].activity.watched) continue;
            const core::PlanePoint stem = inventory.rows[i].stem;
            if (const auto hit = nearest.nearest(stem))
                candidates[i].flight_line =
                    LineOffset{hit->shape, hit->distance, core::grid_bearing(stem, hit->where)};
        }
    });
}

}  // namespace roostward::siting
