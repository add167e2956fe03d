#include "season.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "roostward/core/catalogue.hpp"

namespace roostward::plan {

namespace {

/// Of Cancer and of Capricorn.
constexpr core::Degrees tropic{23.44};

std::string name_of(std::chrono::month month) {
    return core::said("month." + std::to_string(static_cast<unsigned>(month)));
}

std::string names_of(const std::set<std::chrono::month>& months) {
    std::vector<std::string> names;
    for (const std::chrono::month month : months)
        names.push_back(name_of(month));
    return core::all_of(names);
}

}  // namespace

std::optional<OutOfSeason> out_of_season(const survey::Survey& survey, const siting::Profile& profile,
                                         core::GeographicPoint site) {
    const bool south = site.latitude < core::Degrees(0.0);
    const auto& active = south ? profile.active_south : profile.active_north;
    if (!active || std::abs(site.latitude.value()) < tropic.value()) return std::nullopt;
    std::set<std::chrono::month> months;
    std::size_t outside = 0;
    for (const core::Evening evening : survey.evenings) {
        if (active->value.holds(evening.date.month())) continue;
        months.insert(evening.date.month());
        ++outside;
    }
    if (outside == 0) return std::nullopt;
    const bool all = outside == survey.evenings.size();
    return OutOfSeason{{core::Severity::doubtful,
                        {},
                        "outside the active season",
                        {},
                        core::said(all ? "season.all_outside" : "season.some_outside",
                                   {{"months", names_of(months)},
                                    {"from", name_of(active->value.from)},
                                    {"to", name_of(active->value.to)},
                                    {"count", outside},
                                    {"evenings", survey.evenings.size()}})},
                       all};
}

}  // namespace roostward::plan
