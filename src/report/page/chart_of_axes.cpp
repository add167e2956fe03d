#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "flights_behind.hpp"
#include "html.hpp"
#include "html_text.hpp"
#include "page_parts.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

constexpr std::size_t most_roses = 8, sectors = 16;
constexpr double radius = 52.0;

/// Animals that flew toward each of the 16 compass points, north first.
std::array<double, sectors> counted(const std::vector<Heading>& flights) {
    std::array<double, sectors> animals{};
    for (const Heading& flight : flights)
        animals.at(static_cast<std::size_t>(std::lround(flight.bearing.value() / 22.5)) % sectors) +=
            flight.animals;
    return animals;
}

/// Areas, not lengths, stand for animals.
std::string petals(const std::array<double, sectors>& animals) {
    const double most = *std::ranges::max_element(animals);
    std::string svg;
    for (std::size_t i = 0; i < sectors; ++i) {
        if (animals.at(i) <= 0.0) continue;
        const double r = radius * std::sqrt(animals.at(i) / most);
        const auto at = [r](double bearing) {
            const double angle = bearing * std::numbers::pi / 180.0;
            return fmt::format("{:.1f} {:.1f}", r * std::sin(angle), -r * std::cos(angle));
        };
        const double middle = 22.5 * static_cast<double>(i);
        svg += fmt::format("<path class=\"fill\" d=\"M0 0L{0}A{1:.1f} {1:.1f} 0 0 1 {2}Z\"/>",
                           at(middle - 10.0), r, at(middle + 10.0));
    }
    return svg;
}

std::string rose(const activity::FlightLine& line, const std::vector<Heading>& flights) {
    double all = 0.0;
    for (const Heading& flight : flights)
        all += flight.animals;
    const std::string words =
        core::said("roses.line", {{"line", line.id}, {"count", fmt::format("{:.0f}", all)}});
    return fmt::format(
        "<figure><svg class=\"rose\" viewBox=\"-70 -70 140 140\" role=\"img\" aria-label=\"{0}\"><circle "
        "class=\"axis\" "
        "r=\"{1}\"/>{2}<text y=\"-57\" class=\"mid\">{3}</text></svg><figcaption>{0}</figcaption></figure>",
        html_text(words), radius, petals(counted(flights)), html_text(core::said("ui.north")));
}

}  // namespace

std::string axis_roses(const plan::Plan& plan) {
    const auto behind = flights_behind_lines(plan);
    std::string roses;
    for (std::size_t i = 0; i < std::min(most_roses, behind.size()); ++i)
        if (!behind[i].empty()) roses += rose(plan.flight_lines[i], behind[i]);
    if (roses.empty()) return {};
    return element("div class=\"several\"", roses) +
           element("p class=\"note\"", html_text(core::said("roses.note")));
}

}  // namespace roostward::report
