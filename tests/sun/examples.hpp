#pragma once

#include <chrono>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "roostward/core/point.hpp"
#include "roostward/core/time.hpp"

/// Moments, places and reference tables for the tests of the sun.
namespace roostward::examples {

using Row = std::vector<std::string>;

/// The rows of a table in tests/reference below its header.
inline std::vector<Row> reference_rows(const std::string& name) {
    const auto path = std::filesystem::path(ROOSTWARD_SOURCE_DIR) / "tests/reference" / name;
    std::ifstream file(path);
    if (!file) throw std::runtime_error("cannot read " + path.string());
    std::vector<Row> rows;
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) {
        Row row(1);
        for (const char c : line)
            if (c == ',')
                row.emplace_back();
            else
                row.back() += c;
        rows.push_back(row);
    }
    return rows;
}

/// "2031-06-21T21:40:05.250Z" as a moment; none where there is no text.
inline std::optional<core::Instant> moment(const std::string& text) {
    if (text.empty()) return std::nullopt;
    int year = 0, hour = 0, minute = 0;
    unsigned month = 0, day = 0;
    double second = 0.0;
    char mark = ' ';
    std::istringstream in(text);
    in >> year >> mark >> month >> mark >> day >> mark >> hour >> mark >> minute >> mark >> second;
    if (!in) throw std::runtime_error("not a moment: " + text);
    const std::chrono::duration<double> seconds(second);
    return std::chrono::sys_days(std::chrono::year(year) / std::chrono::month(month) /
                                 std::chrono::day(day)) +
           std::chrono::hours(hour) + std::chrono::minutes(minute) +
           std::chrono::round<std::chrono::milliseconds>(seconds);
}

inline core::GeographicPoint place(double latitude, double longitude) {
    return {core::Degrees(longitude), core::Degrees(latitude)};
}

inline double seconds_between(core::Instant from, core::Instant to) {
    return std::chrono::duration<double>(to - from).count();
}

}  // namespace roostward::examples
