#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "html.hpp"
#include "html_text.hpp"
#include "page_parts.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

constexpr double width = 640.0, height = 170.0, left = 44.0, right = 12.0, top = 12.0, bottom = 34.0;
/// What is so much worse than the best is not drawn.
constexpr double least_support = -20.0;

struct Frame {
    double from = 1.0, to = 60.0;  ///< bandwidths, m
    double least = -1.0;           ///< support

    [[nodiscard]] double x(double h) const {
        return left + (width - left - right) * std::log(h / from) / std::log(to / from);
    }
    [[nodiscard]] double y(double support) const { return top + (height - top - bottom) * support / least; }
};

std::string curve(const Frame& frame, const std::vector<activity::EveningTrial>& trials) {
    std::string path, dots;
    for (const auto& trial : trials) {
        if (trial.support < least_support) continue;
        const double x = frame.x(trial.h.value()), y = frame.y(trial.support);
        path += fmt::format("{}{:.1f} {:.1f}", path.empty() ? "M" : "L", x, y);
        dots += fmt::format("<circle class=\"fill\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"2.5\"/>", x, y);
    }
    return fmt::format("<path class=\"curve\" d=\"{}\"/>{}", path, dots);
}

std::string axes(const Frame& frame) {
    std::string svg = fmt::format("<path class=\"axis\" d=\"M{:.1f} {:.1f}V{:.1f}H{:.1f}\"/>", left, top,
                                  height - bottom, width - right);
    for (const double h : {1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0, 20.0, 30.0, 45.0, 60.0})
        if (h >= frame.from && h <= frame.to)
            svg += fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" class=\"mid\">{:.0f}</text>", frame.x(h),
                               height - bottom + 13.0, h);
    svg += fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" class=\"end\">{}</text>", width - right, height - 4.0,
                       html_text(core::said("bandwidth.axis")));
    for (const double support : {0.0, frame.least})
        svg += fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" class=\"end\">{:.1f}</text>", left - 4.0,
                           frame.y(support) + 4.0, support);
    return svg;
}

}  // namespace

std::string bandwidth_chart(const plan::Plan& plan) {
    const auto& search = plan.bandwidth.search;
    if (!search || search->trials.size() < 2) return {};
    Frame frame{search->trials.front().h.value(), search->trials.back().h.value()};
    for (const auto& trial : search->trials)
        frame.least = std::max(least_support, std::min(frame.least, trial.support));
    const double chosen = frame.x(plan.bandwidth.h.value());
    const std::string words = core::said("bandwidth.words", {{"h", plan.bandwidth.h.value()}});
    return fmt::format(
        "<figure><svg class=\"chart\" viewBox=\"0 0 {:.0f} {:.0f}\" role=\"img\" aria-label=\"{}\">{}"
        "<path class=\"mark\" d=\"M{:.1f} {:.1f}V{:.1f}\"/>{}</svg><figcaption>{}</figcaption></figure>",
        width, height, html_text(words), axes(frame), chosen, top, height - bottom,
        curve(frame, search->trials), html_text(words));
}

}  // namespace roostward::report
