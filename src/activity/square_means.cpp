#include "square_means.hpp"

#include <algorithm>

namespace roostward::activity {

SquareMeans::SquareMeans(const core::Raster& raster)
    : rows_(raster.grid.rows + 1), columns_(raster.grid.columns + 1), sums_(rows_ * columns_) {
    for (std::size_t row = 0; row + 1 < rows_; ++row) {
        Sum line;
        for (std::size_t column = 0; column + 1 < columns_; ++column) {
            const std::size_t i = raster.grid.index({row, column});
            if (raster.known[i] != 0)
                line = {line.value + static_cast<double>(raster.values[i]), line.cells + 1.0};
            const Sum& above = sums_[row * columns_ + column + 1];
            sums_[(row + 1) * columns_ + column + 1] = {above.value + line.value, above.cells + line.cells};
        }
    }
}

double SquareMeans::about(core::Cell cell, std::size_t half) const {
    const std::size_t top = cell.row - std::min(cell.row, half),
                      bottom = std::min(cell.row + half + 1, rows_ - 1);
    const std::size_t left = cell.column - std::min(cell.column, half),
                      right = std::min(cell.column + half + 1, columns_ - 1);
    const auto over_square = [&](double Sum::*of) {
        return sums_[bottom * columns_ + right].*of - sums_[top * columns_ + right].*of -
               sums_[bottom * columns_ + left].*of + sums_[top * columns_ + left].*of;
    };
    const double cells = over_square(&Sum::cells);
    return cells > 0.5 ? over_square(&Sum::value) / cells : 0.0;
}

}  // namespace roostward::activity
