#include "season.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "roostward/core/catalogue.hpp"

namespace roostward::plan {

namespace {

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
    const siting::Season* const active = siting::active_season(profile, site.latitude);
    if (active == nullptr) return std::nullopt;
    std::set<std::chrono::month> months;
    std::size_t outside = 0;
    for (const core::Evening evening : survey.evenings) {
        if (active->holds(evening.date.month())) continue;
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
                                    {"from", name_of(active->from)},
                                    {"to", name_of(active->to)},
                                    {"count", outside},
                                    {"evenings", survey.evenings.size()}})},
                       all};
}

}  // namespace roostward::plan
