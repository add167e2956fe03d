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

std::vector<core::PlanePoint> road_crossings(std::span<const activity::FlightLine> lines,
                                             const trees::Features& roads) {
    std::vector<core::PlanePoint> all;
    for (const auto& line : lines) {
        const auto of_line = geo::crossings(line.path, roads.shapes);
        all.insert(all.end(), of_line.begin(), of_line.end());
    }
    return all;
}

}  // namespace roostward::siting
