#include "roostward/siting/canopy_at_stems.hpp"

#include <cstddef>

namespace roostward::siting {

void measure_canopy(std::vector<Candidate>& candidates, const trees::Inventory& inventory,
                    const std::optional<core::Raster>& canopy_height, const Settings& settings,
                    core::Threads threads) {
    if (!canopy_height) return;
    const canopy::CoverMap cover(*canopy_height, threads);
    core::parallel_for(candidates.size(), 512, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i) {
            if (settings.ranking_only && !candidates[i].may_hold_a_box()) continue;
            const core::PlanePoint stem = inventory.rows[i].stem;
            candidates[i].canopy = {canopy::height_at(*canopy_height, stem),
                                    canopy::crown_edge(*canopy_height, stem), cover.about(stem)};
        }
    });
}

}  // namespace roostward::siting
