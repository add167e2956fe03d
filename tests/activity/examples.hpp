#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "roostward/survey/survey.hpp"

/// Small surveys and reference tables for the tests of flight density.
namespace roostward::examples {

using Row = std::vector<double>;

/// The numbers of a reference file, row by row; lines that begin with # are skipped.
inline std::vector<Row> reference_rows(const std::string& name) {
    const auto path = std::filesystem::path(ROOSTWARD_SOURCE_DIR) / "tests/reference/activity" / name;
    std::ifstream file(path);
    if (!file) throw std::runtime_error("cannot read " + path.string());
    std::vector<Row> rows;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        std::istringstream text(line);
        Row row;
        for (std::string word; text >> word;)
            row.push_back(std::stod(word));
        rows.push_back(row);
    }
    return rows;
}

inline core::Evening evening(unsigned day) {
    return {std::chrono::year(2031) / std::chrono::June / std::chrono::day(day)};
}

/// The `after`-th part of an hour after 21:00 UTC of the evening.
inline core::Instant moment(core::Evening of, double after) {
    return std::chrono::sys_days(of.date) + std::chrono::hours(21) +
           std::chrono::milliseconds(static_cast<std::int64_t>(after * 3.6e6));
}

inline survey::Watch watch(geo::Line path, double hours, double range, unsigned day = 1) {
    survey::Watch made;
    made.path = std::move(path);
    made.evening = evening(day);
    made.start = moment(made.evening, 0.0);
    made.end = moment(made.evening, hours);
    made.range = core::Metres(range);
    return made;
}

inline survey::Flight flight(geo::Line path, double length, double count = 1.0,
                             std::uint32_t of_evening = 0) {
    survey::Flight made;
    made.path = std::move(path);
    made.length = core::Metres(length);
    made.count = count;
    made.evening = of_evening;
    return made;
}

inline survey::Survey one_evening(std::vector<survey::Flight> flights, std::vector<survey::Watch> watches) {
    survey::Survey made;
    made.evenings = {evening(1)};
    made.flights = std::move(flights);
    made.watch_evening.assign(watches.size(), 0);
    made.watches = std::move(watches);
    return made;
}

}  // namespace roostward::examples
