#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <vector>

#include "html.hpp"
#include "html_text.hpp"
#include "page_parts.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/sun/day.hpp"

namespace roostward::report {

namespace {

/// Minutes after sunset.
using Minutes = double;
constexpr Minutes bin = 5.0, tick = 15.0;
constexpr double width = 640.0, left = 34.0, right = 8.0, bars_top = 20.0, bars_height = 74.0,
                 watches_height = 22.0;

Minutes minutes_between(core::Instant from, core::Instant to) {
    return 60.0 * core::hours_between(from, to).value();
}

struct Passed {
    Minutes at = 0.0;
    double animals = 0.0;
};
struct Watched {
    Minutes from = 0.0, to = 0.0;
    std::string name;
};
struct EveningOfPasses {
    core::Evening evening;
    std::optional<Minutes> dusk;
    std::vector<Passed> passes;  ///< ascending in time
    std::vector<Watched> watches;
};

/// Any moment of the evening that is told.
std::optional<core::Instant> moment_of(const survey::Survey& survey, std::size_t evening) {
    for (std::size_t w = 0; w < survey.watches.size(); ++w)
        if (survey.watch_evening[w] == evening) return survey.watches[w].start;
    for (const auto& flight : survey.flights)
        if (flight.evening == evening && flight.time) return flight.time;
    return std::nullopt;
}

/// Empty where the sun does not set or no time is told.
std::optional<EveningOfPasses> evening_of(const plan::Plan& plan, std::size_t index) {
    const survey::Survey& survey = plan.survey;
    const auto moment = moment_of(survey, index);
    if (!moment) return std::nullopt;
    const sun::Nightfall nightfall = sun::nightfall(*moment, plan.middle);
    if (!nightfall.sunset) return std::nullopt;
    const core::Instant sunset = *nightfall.sunset;
    EveningOfPasses evening;
    evening.evening = survey.evenings[index];
    if (nightfall.civil_dusk) evening.dusk = minutes_between(sunset, *nightfall.civil_dusk);
    for (const auto& flight : survey.flights)
        if (flight.evening == index && flight.time)
            evening.passes.push_back({minutes_between(sunset, *flight.time), flight.count});
    std::ranges::sort(evening.passes, {}, &Passed::at);
    for (std::size_t w = 0; w < survey.watches.size(); ++w)
        if (const auto& watch = survey.watches[w]; survey.watch_evening[w] == index)
            evening.watches.push_back(
                {minutes_between(sunset, watch.start), minutes_between(sunset, watch.end), watch.name});
    return evening;
}

/// Animals in each bin, by its number from sunset.
std::map<long, double> binned(const EveningOfPasses& evening) {
    std::map<long, double> bins;
    for (const Passed& pass : evening.passes)
        bins[std::lround(std::floor(pass.at / bin))] += pass.animals;
    return bins;
}

/// What all evenings share, so that they can be compared.
struct Frame {
    Minutes from = 0.0, to = 0.0;
    double most = 1.0;  ///< animals in a bin

    [[nodiscard]] double x(Minutes at) const {
        return left + (width - left - right) * (at - from) / (to - from);
    }
    [[nodiscard]] double y(double animals) const { return bars_top + bars_height * (1.0 - animals / most); }
};

Frame frame_of(const std::vector<EveningOfPasses>& evenings) {
    Frame frame{-tick, tick};
    const auto hold = [&frame](Minutes at) {
        frame.from = std::min(frame.from, tick * std::floor(at / tick));
        frame.to = std::max(frame.to, tick * std::ceil(at / tick));
    };
    for (const auto& evening : evenings) {
        for (const Watched& watch : evening.watches) {
            hold(watch.from);
            hold(watch.to);
        }
        for (const Passed& pass : evening.passes)
            hold(pass.at);
        for (const auto& [number, animals] : binned(evening))
            frame.most = std::max(frame.most, animals);
    }
    return frame;
}

std::string axes(const Frame& frame) {
    const double floor = frame.y(0.0);
    std::string svg = fmt::format("<path class=\"axis\" d=\"M{0:.1f} {3:.1f}V{1:.1f}H{2:.1f}\"/>", left,
                                  floor, width - right, bars_top);
    for (int i = 0; frame.from + 2.0 * tick * i <= frame.to; ++i) {
        const Minutes at = frame.from + 2.0 * tick * i;
        svg += fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" class=\"mid\">{:.0f}</text>", frame.x(at),
                           floor + 13.0, at);
    }
    svg += fmt::format(
        "<text x=\"{0:.1f}\" y=\"{3:.1f}\" class=\"end\">{1:.0f}</text><text x=\"{0:.1f}\" y=\"{2:.1f}\" "
        "class=\"end\">0</text>",
        left - 4.0, frame.most, floor, bars_top + 8.0);
    return svg;
}

std::string upright(const Frame& frame, Minutes at, std::string_view key) {
    return fmt::format(
        "<path class=\"mark\" d=\"M{0:.1f} 4V{1:.1f}\"/><text x=\"{2:.1f}\" y=\"13\">{3}</text>", frame.x(at),
        frame.y(0.0), frame.x(at) + 3.0, html_text(core::said(key)));
}

std::string drawing(const Frame& frame, const EveningOfPasses& evening) {
    const double floor = frame.y(0.0);
    std::string svg = axes(frame);
    for (const auto& [number, animals] : binned(evening)) {
        const double from = frame.x(bin * static_cast<double>(number));
        svg += fmt::format(
            "<rect class=\"fill\" x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\"/>", from + 0.5,
            frame.y(animals), frame.x(bin * static_cast<double>(number + 1)) - from - 1.0,
            floor - frame.y(animals));
    }
    svg += upright(frame, 0.0, "passes.sunset");
    if (evening.dusk) svg += upright(frame, *evening.dusk, "passes.dusk");
    const double step =
        watches_height / static_cast<double>(std::max<std::size_t>(4, evening.watches.size()));
    for (std::size_t i = 0; i < evening.watches.size(); ++i) {
        const Watched& watch = evening.watches[i];
        svg += fmt::format("<path class=\"watch\" d=\"M{:.1f} {:.1f}H{:.1f}\"><title>{}</title></path>",
                           frame.x(watch.from), floor + 20.0 + step * static_cast<double>(i),
                           frame.x(watch.to), html_text(watch.name));
    }
    return svg;
}

/// The chart in words.
std::string caption(const EveningOfPasses& evening) {
    double all = 0.0;
    for (const Passed& pass : evening.passes)
        all += pass.animals;
    if (evening.passes.empty())
        return core::said("passes.none", {{"watches", std::to_string(evening.watches.size())}});
    double sum = 0.0;
    Minutes half = 0.0;
    for (const Passed& pass : evening.passes) {
        sum += pass.animals;
        half = pass.at;
        if (2.0 * sum >= all) break;
    }
    return core::said("passes.some", {{"count", fmt::format("{:.0f}", all)},
                                      {"watches", std::to_string(evening.watches.size())},
                                      {"first", fmt::format("{:.0f}", evening.passes.front().at)},
                                      {"half", fmt::format("{:.0f}", half)}});
}

}  // namespace

std::string passes_chart(const plan::Plan& plan) {
    std::vector<EveningOfPasses> evenings;
    for (std::size_t i = 0; i < plan.survey.evenings.size(); ++i)
        if (auto evening = evening_of(plan, i)) evenings.push_back(std::move(*evening));
    if (evenings.empty()) return element("p", html_text(core::said("passes.no_times")));
    const Frame frame = frame_of(evenings);
    std::string charts;
    for (const auto& evening : evenings) {
        const std::string words = caption(evening);
        charts += fmt::format(
            "<figure><figcaption><b>{}</b> {}</figcaption><svg class=\"chart\" viewBox=\"0 0 {:.0f} "
            "{:.0f}\" role=\"img\" aria-label=\"{}\">{}</svg></figure>\n",
            day(evening.evening.date), html_text(words), width, frame.y(0.0) + 22.0 + watches_height,
            html_text(words), drawing(frame, evening));
    }
    return charts + element("p class=\"note\"", html_text(core::said("passes.note")));
}

}  // namespace roostward::report
