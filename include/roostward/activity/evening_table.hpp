#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace roostward::activity {

/// What each point saw, evening by evening: a row a point, a column an evening.
struct EveningTable {
    std::size_t rows = 0;
    std::size_t evenings = 0;
    /// Of each point; empty where every point has a row, in their order.
    std::vector<std::uint32_t> row_of;
    std::vector<double> flown;        ///< M_n, metres flown and seen per m²
    std::vector<double> watched;      ///< E_n, hours of effective watching
    std::vector<double> smoothed;     ///< Ē_n, the same smoothed like M_n, hours
    std::vector<std::uint32_t> used;  ///< pieces of flight that passed within max(2h, 10 m)

    /// Of a point that has a row.
    [[nodiscard]] std::size_t at(std::size_t point, std::size_t evening) const {
        return (row_of.empty() ? point : row_of[point]) * evenings + evening;
    }
};

/// Nothing seen on any evening.
[[nodiscard]] EveningTable blank_table(std::size_t rows, std::size_t evenings);

/// The rows of these points, in their order.
[[nodiscard]] EveningTable rows_of(const EveningTable& table, std::span<const std::size_t> points);

/// What the rest of a survey saw at the same points, once a part of it is taken away.
[[nodiscard]] EveningTable difference(const EveningTable& whole, const EveningTable& part);

}  // namespace roostward::activity
