#include "roostward/activity/bandwidth.hpp"

#include <algorithm>
#include <cmath>

#include "roostward/core/catalogue.hpp"

namespace roostward::activity {

namespace {

Bandwidth without_evenings(const survey::Survey& survey, const Settings& settings) {
    Bandwidth bandwidth;
    const auto* h = std::get_if<core::Metres>(&settings.bandwidth);
    const bool by_thumb = std::holds_alternative<RuleOfThumb>(settings.bandwidth);
    bandwidth.h = h != nullptr ? *h : by_thumb ? rule_of_thumb(survey) : usual_h;
    bandwidth.h_by = h != nullptr ? FoundBy::number : by_thumb ? FoundBy::rule_of_thumb : FoundBy::usual;
    const auto* shrink = std::get_if<core::Hours>(&settings.shrink);
    bandwidth.shrink = shrink != nullptr ? *shrink : settings.min_watch;
    bandwidth.shrink_by = shrink != nullptr ? FoundBy::number : FoundBy::min_watch;
    return bandwidth;
}

core::Finding doubt(const char* key, const char* kind, double value, std::string sentence) {
    core::Finding finding;
    finding.severity = core::Severity::doubtful;
    finding.place.field = key;
    finding.kind = kind;
    finding.value = std::to_string(value).substr(0, 5);
    finding.sentence = std::move(sentence);
    return finding;
}

}  // namespace

std::string_view to_text(FoundBy found_by) {
    switch (found_by) {
        case FoundBy::number:
            return "number";
        case FoundBy::rule_of_thumb:
            return "rule of thumb";
        case FoundBy::usual:
            return "usual";
        case FoundBy::evenings:
            return "evenings";
        case FoundBy::min_watch:
            return "min_watch_hours";
    }
    return {};
}

core::Metres rule_of_thumb(const survey::Survey& survey) {
    constexpr double least = 5.0, most = 20.0;
    double n = 0.0, x = 0.0, y = 0.0, xx = 0.0, yy = 0.0;
    const auto middle = [](const geo::Line& path) { return path[path.size() / 2]; };
    const auto placed = [](const survey::Flight& flight) { return flight.placed && !flight.path.empty(); };
    for (const auto& flight : survey.flights) {
        if (!placed(flight)) continue;
        n += 1.0;
        x += middle(flight.path).easting;
        y += middle(flight.path).northing;
    }
    if (n < 2.0) return core::Metres(most);
    x /= n;
    y /= n;
    for (const auto& flight : survey.flights) {
        if (!placed(flight)) continue;
        xx += std::pow(middle(flight.path).easting - x, 2);
        yy += std::pow(middle(flight.path).northing - y, 2);
    }
    const double sigma = std::sqrt(0.5 * (xx + yy) / (n - 1.0));
    return core::Metres(std::clamp(sigma * std::pow(n, -1.0 / 6.0), least, most));
}

Bandwidth choose_bandwidth(const survey::Survey& survey, const Settings& settings, core::Threads threads) {
    Bandwidth bandwidth = without_evenings(survey, settings);
    const bool h_wanted = std::holds_alternative<ByEvenings>(settings.bandwidth);
    const bool shrink_wanted = std::holds_alternative<ByEvenings>(settings.shrink) &&
                               !std::holds_alternative<RuleOfThumb>(settings.bandwidth);
    if (!h_wanted && !shrink_wanted) return bandwidth;
    bandwidth.search = search_by_evenings(survey, settings, threads);
    if (!bandwidth.search->found()) return bandwidth;
    bandwidth.h = bandwidth.search->h;
    bandwidth.shrink = bandwidth.search->shrink;
    if (h_wanted) bandwidth.h_by = FoundBy::evenings;
    if (shrink_wanted) bandwidth.shrink_by = FoundBy::evenings;
    return bandwidth;
}

core::Findings doubts_of(const Bandwidth& bandwidth) {
    core::Findings doubts;
    if (!bandwidth.search) return doubts;
    const EveningSearch& search = *bandwidth.search;
    if (!search.found())
        doubts.push_back(doubt("activity.bandwidth_m", "not found by evenings", bandwidth.h.value(),
                               core::said("finding.not_by_evenings", {{"why", search.why_not}})));
    if (search.h_bound != Bound::none)
        doubts.push_back(doubt(
            "activity.bandwidth_m", "bandwidth at the end of its range", bandwidth.h.value(),
            core::said(search.h_bound == Bound::high ? "finding.bandwidth_high" : "finding.bandwidth_low")));
    if (search.shrink_bound != Bound::none) {
        doubts.push_back(doubt(
            "activity.shrink_hours", "shrink at the end of its range", bandwidth.shrink.value(),
            core::said(search.shrink_bound == Bound::high ? "finding.shrink_high" : "finding.shrink_low")));
        if (search.shrink_bound == Bound::low) doubts.back().severity = core::Severity::note;
    }
    return doubts;
}

}  // namespace roostward::activity
