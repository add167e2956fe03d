#include "files/layer_sample.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

#include <fmt/format.h>

#include "roostward/io/row_source.hpp"
#include "roostward/io/times.hpp"
#include "roostward/io/values.hpp"

namespace roostward::io {

namespace {

constexpr std::size_t rows_looked_at = 20'000;
constexpr std::size_t values_kept = 1'000;
constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

std::string as_text(const Value& value) {
    if (const auto* text = std::get_if<std::string_view>(&value)) return std::string(*text);
    if (const auto* number = std::get_if<double>(&value)) return fmt::format("{}", *number);
    return {};
}

void look_at_time(const std::string& text, ColumnSample& column) {
    const Reading<WrittenTime> reading = read_time(text, DateOrder::day_first);
    const Reading<WrittenTime> other = read_time(text, DateOrder::month_first);
    const WrittenTime* time = value_in(reading) != nullptr ? value_in(reading) : value_in(other);
    if (time == nullptr) return;
    if (time->time_of_day) ++column.times;
    if (time->date) ++column.dates;
    const std::optional<DateOrder> order = order_shown_by(text);
    if (order == DateOrder::unknown) ++column.unordered_dates;
    if (order == DateOrder::day_first) ++column.day_first;
    if (order == DateOrder::month_first) ++column.month_first;
}

double look_at_text(const std::string& text, ColumnSample& column) {
    if (const std::optional<WrittenNumber> number = read_number(text)) {
        ++column.numeric;
        if (number->range || !number->unit.empty()) ++column.with_unit;
        if (!number->below && number->unit.empty()) {
            if (text.find(':') == std::string::npos && !is_plain_number(text)) look_at_time(text, column);
            return number->value;
        }
        return unknown;
    }
    look_at_time(text, column);
    return unknown;
}

void look_at(const Value& value, ColumnSample& column) {
    const std::string text = as_text(value);
    double number = unknown;
    if (!says_nothing(text)) {
        ++column.filled;
        if (column.values.size() < values_kept || column.values.contains(text))
            ++column.values[text];
        else
            column.many = true;
        const auto* plain = std::get_if<double>(&value);
        if (plain != nullptr) ++column.numeric;
        number = plain != nullptr ? *plain : look_at_text(text, column);
    }
    column.by_row.push_back(number);
    if (!std::isnan(number)) column.numbers.push_back(number);
}

void look_at(const geo::Shape& shape, LayerSample& sample) {
    if (!shape.polygons.empty())
        ++sample.polygons;
    else if (!shape.lines.empty())
        ++sample.lines;
    else if (!shape.points.empty())
        ++sample.points;
    if (!shape.points.empty())
        sample.places.push_back(shape.points.front());
    else if (!shape.lines.empty() && !shape.lines.front().empty())
        sample.places.push_back(shape.lines.front().front());
    else if (!shape.polygons.empty() && !shape.polygons.front().outer.empty())
        sample.places.push_back(shape.polygons.front().outer.front());
}

}  // namespace

bool ColumnSample::distinct(std::size_t rows) const {
    return rows > 0 && filled * 20 >= rows * 19 && (many || values.size() * 50 >= filled * 49);
}

double ColumnSample::quantile(double share) const {
    const auto first = std::upper_bound(numbers.begin(), numbers.end(), 0.0);
    if (first == numbers.end()) return 0.0;
    const auto last = static_cast<double>(numbers.end() - first - 1);
    return *(first + static_cast<std::ptrdiff_t>(std::llround(share * last)));
}

double ColumnSample::share_whole() const {
    const auto whole = std::ranges::count_if(numbers, [](double v) { return v == std::floor(v); });
    return numbers.empty() ? 0.0 : static_cast<double>(whole) / static_cast<double>(numbers.size());
}

double ColumnSample::share_of_multiples(int step) const {
    std::size_t all = 0, multiples = 0;
    for (const double value : numbers) {
        if (value <= 10.0 || value != std::floor(value) || value > 1e9) continue;
        ++all;
        if (static_cast<std::int64_t>(value) % step == 0) ++multiples;
    }
    return all == 0 ? 0.0 : static_cast<double>(multiples) / static_cast<double>(all);
}

LayerSample sample_of(const InputSource& source) {
    LayerSample sample;
    sample.source = source;
    const std::unique_ptr<RowSource> rows = open_rows(source);
    for (const std::string& name : rows->columns()) {
        ColumnSample& column = sample.columns.emplace_back();
        column.name = name;
        column.parts = taken_apart(name);
    }
    sample.has_geometry = rows->has_geometry();
    sample.crs = rows->crs();
    const std::size_t stride = std::max<std::size_t>(1, rows->expected_rows() / rows_looked_at);
    std::size_t at = 0;
    rows->for_each(std::vector<bool>(sample.columns.size(), true), [&](const SourceRow& row) {
        if (at++ % stride != 0 || row.trouble != nullptr) return true;
        ++sample.rows;
        for (std::size_t i = 0; i < sample.columns.size(); ++i)
            look_at(row.values[i], sample.columns[i]);
        if (row.shape != nullptr) look_at(*row.shape, sample);
        return true;
    });
    for (ColumnSample& column : sample.columns)
        std::ranges::sort(column.numbers);
    return sample;
}

}  // namespace roostward::io
