#include "roostward/activity/evening_likelihood.hpp"

#include <algorithm>

#include "evening_model.hpp"
#include "evening_tiles.hpp"
#include "tile_sum.hpp"

namespace roostward::activity {

EveningLikelihood::EveningLikelihood(const survey::Survey& survey, std::uint64_t seed)
    : model_(std::make_shared<const EveningModel>(model_of(survey, seed))) {}

const std::string& EveningLikelihood::why_not() const {
    return model_->why_not;
}

std::vector<double> EveningLikelihood::at(core::Metres h, std::span<const core::Hours> shrinks,
                                          core::Threads threads) const {
    constexpr double least_shrink = 1e-3;
    std::vector<double> hours;
    for (const core::Hours shrink : shrinks)
        hours.push_back(std::max(shrink.value(), least_shrink));
    const std::vector<Tile> tiles = tiles_of(*model_, h.value());
    std::vector<std::vector<double>> parts(tiles.size());
    core::parallel_for(tiles.size(), 1, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            parts[i] = TileSum(*model_, h.value(), hours, tiles[i]).run();
    });
    std::vector<double> sums(shrinks.size(), 0.0);
    for (const auto& part : parts)
        for (std::size_t k = 0; k < sums.size(); ++k)
            sums[k] += part[k];
    return sums;
}

}  // namespace roostward::activity
