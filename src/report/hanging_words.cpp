#include "roostward/report/hanging_words.hpp"

#include "roostward/core/catalogue.hpp"
#include "roostward/report/site_words.hpp"

namespace roostward::report {

namespace {

const siting::Span& doubtful_entrance(const siting::Profile& profile) {
    return profile.entrance_doubtful_mm ? profile.entrance_doubtful_mm->value : profile.entrance_mm.value;
}

/// Widths that the animals are known to use, and what is wrong with the one that was given.
std::string about_the_entrance(const siting::Profile& profile, const siting::Box& box) {
    const siting::Span &used = profile.entrance_mm.value, &doubtful = doubtful_entrance(profile);
    const bool one_width = used.min == used.max || used.max > 1e6;
    const std::string usual =
        core::said(one_width ? "entrance.width" : "entrance.widths",
                   {{"kind", profile.entrance_kind}, {"from", used.min}, {"to", used.max}});
    if (!box.slot) return core::said("entrance.measure", {{"usual", usual}});
    const double given = box.slot->value();
    const bool fits = given >= doubtful.min && given <= doubtful.max;
    return core::said(fits ? "entrance.fits" : "entrance.doubtful", {{"mm", given}, {"usual", usual}});
}

}  // namespace

std::vector<std::string> before_you_hang_it(const plan::Plan& plan) {
    const siting::Box& box = plan.settings.box;
    std::vector<std::string> list{about_the_entrance(plan.settings.profile, box), core::said("box.reused")};
    list.push_back(core::said(box.plastic() ? "box.plastic" : "box.rough_wood"));
    list.push_back(core::said("box.no_preservative"));
    list.push_back(core::said("box.lid_and_number"));
    if (box.heats_up())
        list.push_back(core::said("box.heats_up", {{"hours", plan.settings.climate.most_hot_sun.value()}}));
    if (box.wall == siting::Wall::thin) list.push_back(core::said("box.thin_walls"));
    return list;
}

std::string kind_of_box(const siting::Candidate& candidate) {
    constexpr double sunny = 7.0, shady = 3.0;  // hours a day
    if (!candidate.sun) return {};
    const double hours = candidate.sun->summer_half.value();
    return core::said(hours >= sunny  ? "box.kind_sunny"
                      : hours < shady ? "box.kind_shady"
                                      : "box.kind_between",
                      {{"hours", hours}});
}

std::string when_to_put_up(const plan::Plan& plan) {
    const bool north = plan.middle.latitude >= core::Degrees(0.0);
    return core::said(north ? "box.when_north" : "box.when_south");
}

std::vector<std::string> afterwards() {
    return {core::said("box.look_from_the_ground"), core::said("box.year_five")};
}

std::vector<std::string> climber_confirms(const plan::Plan& plan) {
    const siting::Profile& profile = plan.settings.profile;
    std::vector<std::string> list{core::said("confirm.no_animal")};
    if (const double clear = profile.clear_approach.value.value(); clear > 0.0)
        list.push_back(core::said("confirm.way_in", {{"metres", clear}}));
    if (const double drop = profile.clear_drop.value.value(); drop > 0.0)
        list.push_back(core::said("confirm.drop", {{"metres", drop}}));
    for (const std::string_view key : {"confirm.sound", "confirm.no_line", "confirm.no_path"})
        list.push_back(core::said(key));
    return list;
}

std::string how_to_hang(const plan::Plan& plan) {
    std::string sites;
    for (const std::size_t tree : plan.chosen) {
        const siting::Candidate& candidate = plan.candidates[tree];
        sites +=
            (sites.empty() ? "" : " · ") +
            core::said("hang.site", {{"site", *candidate.site}, {"points", facings_in_words(candidate)}});
    }
    return core::said("hang", {{"metres", plan.mounting.height.value()}, {"sites", sites}});
}

}  // namespace roostward::report
