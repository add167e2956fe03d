#include "roostward/report/evenings_page.hpp"

#include "evenings/evenings_parts.hpp"
#include "html_text.hpp"
#include "page/assets.hpp"
#include "page/frame.hpp"
#include "page/html.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

/// Stations that people gave a name.
std::vector<NamedPlace> named_places(const plan::EveningsPlan& plan) {
    std::vector<NamedPlace> places;
    for (const evenings::Place& place : plan.to_come.places)
        if (!place.name.empty()) places.push_back({place.position, place.name});
    return places;
}

}  // namespace

std::string evenings_page(const plan::EveningsPlan& plan, const WallClock& clock) {
    const WaysThere ways(Landmarks{plan.settings.site_name, plan.meridian_convergence, plan.middle_in_plane,
                                   plan.trees, plan.surroundings, named_places(plan)});
    const EveningsPaper paper{plan, clock, ways};
    const Parts parts{{"style_source", [] { return content_source(evenings_style_sha256); }},
                      {"style", [] { return std::string(evenings_style); }},
                      {"site", [&] { return name(plan.settings.site_name); }},
                      {"title", [&] { return html_text(plan.settings.site_name); }},
                      {"animal", [&] { return html_text(plan.settings.profile.name); }},
                      {"overview", [&] { return evenings_overview(paper); }},
                      {"cards", [&] { return evening_cards(paper); }},
                      {"notice", [&] { return notice_for_neighbours(paper); }},
                      {"hazards", [&] { return hazards_to_check(paper); }}};
    return filled(evenings_frame, parts);
}

}  // namespace roostward::report
