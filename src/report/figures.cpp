#include "roostward/report/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/point.hpp"

namespace roostward::report {

namespace {

/// What decimals cannot write is no reason for another step.
constexpr double slack = 1e-9;

double in_steps(double value, double step) {
    const double steps = std::floor(std::abs(value) / step + 0.5 + slack);
    return std::copysign(steps * step, value) + 0.0;
}

Figure in_steps_of(double step, double value, const std::optional<activity::Range>& range) {
    Figure figure;
    figure.step = step;
    figure.value = in_steps(value, step);
    figure.under_step = value > 0.0 && figure.value == 0.0;
    if (range) figure.range = {in_steps(range->low, step), in_steps(range->high, step)};
    return figure;
}

}  // namespace

double round_step(double most) {
    const double power = std::pow(10.0, std::floor(std::log10(most)));
    for (const double first : {10.0, 5.0, 2.0})
        if (first * power <= most * (1.0 + slack)) return first * power;
    return power;
}

std::string Figure::plain(double of) const {
    const int decimals = std::max(0, static_cast<int>(std::ceil(-std::log10(step) - slack)));
    std::string text = fmt::format("{:.{}f}", of, decimals);
    if (decimals == 0) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string Figure::digits(double of) const {
    std::string text = plain(of);
    if (const std::size_t point = text.find('.'); point != std::string::npos)
        text.replace(point, 1, core::said("number.decimal"));
    return text;
}

std::string Figure::value_in_words() const {
    return under_step ? core::said("figure.under", {{"step", digits(step)}}) : digits(value);
}

std::string Figure::in_words() const {
    if (!range) return core::said("figure.no_range", {{"value", value_in_words()}});
    return core::said(
        "figure.range",
        {{"value", value_in_words()}, {"low", digits(range->low)}, {"high", digits(range->high)}});
}

Figure rounded_figure(double value, const std::optional<activity::Range>& range) {
    const double width = range ? range->high - range->low : 0.0;
    if (width > 0.0) return in_steps_of(round_step(0.25 * width), value, range);
    return in_steps_of(value > 0.0 ? round_step(0.5 * value) : 1.0, value, std::nullopt);
}

Figure score_figure(double score, const std::optional<activity::Range>& range) {
    constexpr double without_range = 10.0, of = 100.0;
    if (!range || range->high <= range->low) return in_steps_of(without_range, of * score, std::nullopt);
    const activity::Range hundredths{of * range->low, of * range->high};
    const double step = std::max(1.0, round_step(0.25 * (hundredths.high - hundredths.low)));
    return in_steps_of(step, of * score, hundredths);
}

std::string score_in_words(double score, const std::optional<activity::Range>& range) {
    const Figure figure = score_figure(score, range);
    return figure.range ? figure.in_words() : figure.value_in_words();
}

int whole_degrees(core::Degrees bearing) {
    return static_cast<int>(std::floor(core::normalised(bearing).value() + 0.5)) % 360;
}

std::string place_in_degrees(core::Degrees latitude_or_longitude) {
    return fmt::format("{:.5f}", latitude_or_longitude.value());
}

}  // namespace roostward::report
