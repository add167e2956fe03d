#include "recognise/recognise_places.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "recognise/recognise_fields.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/io/values.hpp"

namespace roostward::io {

namespace {

constexpr double most_degrees_apart = 3.0;

struct Range {
    double low = 0.0, high = 0.0;
    [[nodiscard]] bool within(double most) const { return low >= -most && high <= most; }
};

/// Of all but the outermost of a hundred, for strays and zeros.
Range range_of(const ColumnSample& column) {
    const auto& numbers = column.numbers;
    const auto last = static_cast<double>(numbers.size() - 1);
    return {numbers[static_cast<std::size_t>(0.02 * last)], numbers[static_cast<std::size_t>(0.98 * last)]};
}

bool usable(const ColumnSample& column) {
    return column.all_numeric() && !column.numbers.empty();
}

PlaceColumns swapped(PlaceColumns columns) {
    std::swap(columns.x, columns.y);
    return columns;
}

/// Two columns whose names say what they are, and what their values make of them.
std::optional<PlaceColumns> judged(const LayerSample& sample, std::size_t x, std::size_t y,
                                   bool named_degrees) {
    const ColumnSample &east = sample.columns[x], &north = sample.columns[y];
    if (!usable(east) || !usable(north)) return std::nullopt;
    const Range e = range_of(east), n = range_of(north);
    PlaceColumns columns{x, y, e.within(180.0) && n.within(180.0), {}};
    if (columns.degrees && !n.within(90.0) && e.within(90.0)) {
        columns = swapped(columns);
        columns.confirm = core::said("places.beyond_90", {{"column", north.name}});
    } else if (columns.degrees != named_degrees) {
        columns.confirm =
            core::said(columns.degrees ? "places.degrees" : "places.metres",
                       {{"x", east.name}, {"y", north.name}, {"x_value", e.low}, {"y_value", n.low}});
    }
    return columns;
}

bool looks_like_degrees(const ColumnSample& column) {
    if (!usable(column) || column.share_whole() > 0.05) return false;
    const Range range = range_of(column);
    const auto fine = std::ranges::count_if(
        column.numbers, [](double v) { return std::abs(v * 1e3 - std::round(v * 1e3)) > 1e-6; });
    return range.within(180.0) &&
           range.high -
               range.low<most_degrees_apart&& static_cast<std::size_t>(fine) * 10> column.numbers.size() * 8;
}

double degrees_from(double value, double wanted) {
    return std::abs(std::remainder(value - wanted, 360.0));
}

/// Two columns of fine degrees, told apart by their size or by where the other layers lie.
std::optional<PlaceColumns> by_values(const LayerSample& sample,
                                      const std::optional<core::GeographicPoint>& place) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < sample.columns.size(); ++i)
        if (looks_like_degrees(sample.columns[i])) found.push_back(i);
    if (found.size() != 2) return std::nullopt;
    PlaceColumns columns{found[0], found[1], true, {}};
    const double first = range_of(sample.columns[found[0]]).high,
                 second = range_of(sample.columns[found[1]]).high;
    const auto near = [&](double lon, double lat) {
        return place && degrees_from(lon, place->longitude.value()) < most_degrees_apart &&
               degrees_from(lat, place->latitude.value()) < most_degrees_apart;
    };
    const auto named = [&](std::size_t column, std::string_view part) {
        return sample.columns[column].parts.joined.find(part) != std::string::npos;
    };
    const bool lon_first = named(found[0], "lon") && named(found[1], "lat");
    const bool lat_first = named(found[0], "lat") && named(found[1], "lon");
    const bool named_so = lon_first || lat_first;
    const bool as_told =
        lon_first ||
        (!named_so && (std::abs(first) > 90.0 || (std::abs(second) <= 90.0 && near(first, second))));
    const bool other_way =
        lat_first ||
        (!named_so && (std::abs(second) > 90.0 || (std::abs(first) <= 90.0 && near(second, first))));
    if (as_told == other_way) return std::nullopt;
    if (other_way) columns = swapped(columns);
    columns.confirm = core::said("places.fine_numbers", {{"x", sample.columns[columns.x].name},
                                                         {"y", sample.columns[columns.y].name},
                                                         {"x_value", other_way ? second : first},
                                                         {"y_value", other_way ? first : second}});
    return columns;
}

}  // namespace

std::optional<PlaceColumns> place_columns(const LayerSample& sample, std::string_view role,
                                          const std::optional<core::GeographicPoint>& place) {
    if (sample.has_geometry) return std::nullopt;
    const auto lon = column_named(sample, role, "lon"), lat = column_named(sample, role, "lat");
    if (lon && lat) {
        if (auto columns = judged(sample, *lon, *lat, true)) return columns;
    }
    const auto x = column_named(sample, role, "x"), y = column_named(sample, role, "y");
    if (x && y) {
        if (auto columns = judged(sample, *x, *y, false)) return columns;
    }
    return by_values(sample, place);
}

std::optional<std::string> column_of_pairs(const LayerSample& sample) {
    for (const ColumnSample& column : sample.columns) {
        std::size_t pairs = 0;
        for (const auto& [value, count] : column.values) {
            const std::size_t comma = value.find_first_of(",;");
            if (comma == std::string::npos) continue;
            std::string_view first(value), second(value);
            first = first.substr(0, comma);
            second.remove_prefix(comma + 1);
            const auto one = read_number(first), other = read_number(second);
            if (one && other && second.find('.') != std::string_view::npos &&
                first.find('.') != std::string_view::npos)
                pairs += count;
        }
        if (pairs * 10 > column.filled * 9 && pairs > 0) return column.name;
    }
    return std::nullopt;
}

std::vector<core::PlanePoint> places_in(const LayerSample& sample,
                                        const std::optional<PlaceColumns>& columns) {
    if (!columns) return sample.places;
    std::vector<core::PlanePoint> places;
    const ColumnSample &east = sample.columns[columns->x], &north = sample.columns[columns->y];
    for (std::size_t i = 0; i < east.by_row.size(); ++i) {
        const core::PlanePoint p{east.by_row[i], north.by_row[i]};
        if (std::isfinite(p.easting) && std::isfinite(p.northing) && p != core::PlanePoint{0.0, 0.0})
            places.push_back(p);
    }
    return places;
}

}  // namespace roostward::io
