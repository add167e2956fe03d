#include "roostward/activity/evening_table.hpp"

namespace roostward::activity {

EveningTable blank_table(std::size_t rows, std::size_t evenings) {
    EveningTable table;
    table.rows = rows;
    table.evenings = evenings;
    for (auto* column : {&table.flown, &table.watched, &table.smoothed})
        column->assign(rows * evenings, 0.0);
    table.used.assign(rows * evenings, 0);
    return table;
}

EveningTable rows_of(const EveningTable& table, std::span<const std::size_t> points) {
    EveningTable rows;
    rows.rows = points.size();
    rows.evenings = table.evenings;
    const auto take = [&](const auto& from, auto& into) {
        for (const std::size_t point : points) {
            const auto row = from.begin() + static_cast<std::ptrdiff_t>(table.at(point, 0));
            into.insert(into.end(), row, row + static_cast<std::ptrdiff_t>(table.evenings));
        }
    };
    take(table.flown, rows.flown);
    take(table.watched, rows.watched);
    take(table.smoothed, rows.smoothed);
    take(table.used, rows.used);
    return rows;
}

EveningTable difference(const EveningTable& whole, const EveningTable& part) {
    EveningTable rest = whole;
    const auto take_away = [](auto& from, const auto& what) {
        for (std::size_t i = 0; i < from.size(); ++i)
            from[i] = from[i] > what[i] ? from[i] - what[i] : 0;
    };
    take_away(rest.flown, part.flown);
    take_away(rest.watched, part.watched);
    take_away(rest.smoothed, part.smoothed);
    take_away(rest.used, part.used);
    return rest;
}

}  // namespace roostward::activity
