#include "roostward/report/hanging_words.hpp"

#include <fmt/format.h>

namespace roostward::report {

namespace {

const siting::Span& doubtful_entrance(const siting::Profile& profile) {
    return profile.entrance_doubtful_mm ? profile.entrance_doubtful_mm->value : profile.entrance_mm.value;
}

/// Widths that the animals are known to use, and what is wrong with the one that was given.
std::string about_the_entrance(const siting::Profile& profile, const siting::Box& box) {
    const siting::Span &used = profile.entrance_mm.value, &doubtful = doubtful_entrance(profile);
    const std::string width = used.min == used.max || used.max > 1e6
                                  ? fmt::format("{:g} mm", used.min)
                                  : fmt::format("{:g} to {:g} mm", used.min, used.max);
    const std::string usual = fmt::format("{} {} wide", profile.entrance_kind, width);
    if (!box.slot) return fmt::format("Measure the entrance: these animals use a {}.", usual);
    const double given = box.slot->value();
    if (given < doubtful.min || given > doubtful.max)
        return fmt::format("The entrance of {:g} mm is doubtful: these animals use a {}.", given, usual);
    return fmt::format("The entrance of {:g} mm fits: measure it on every box.", given);
}

}  // namespace

std::vector<std::string> before_you_hang_it(const plan::Plan& plan) {
    const siting::Box& box = plan.settings.box;
    std::vector<std::string> list{about_the_entrance(plan.settings.profile, box)};
    list.emplace_back("Reused boards, pots or plastic will do, as long as the rest of this list holds.");
    list.emplace_back(box.plastic()
                          ? "Smooth plastic gives no hold: line it with rough wood or cut grooves into it."
                          : "Rough, untreated wood inside, so that the animals can climb.");
    list.emplace_back("No preservative, no mesh, no exposed glue or points of nails.");
    list.emplace_back("The lid is fixed, and the number is painted on.");
    if (box.heats_up())
        list.push_back(
            fmt::format("Such a box heats up: no face gets more than {:g} h of afternoon sun in the hottest "
                        "month, as far as that is known. 40 °C inside is too hot (Crawford & O'Keefe 2021).",
                        plan.settings.climate.most_hot_sun.value()));
    if (box.wall == siting::Wall::thin)
        list.emplace_back("Thin walls serve the warm months; an insulated box beside them serves the cold.");
    return list;
}

std::string kind_of_box(const siting::Candidate& candidate) {
    constexpr double sunny = 7.0, shady = 3.0;  // hours a day
    if (!candidate.sun) return {};
    const double hours = candidate.sun->summer_half.value();
    const std::string sun =
        fmt::format("{:.1f} h of sun a day on the first box in the warm half-year", hours);
    if (hours >= sunny) return sun + ": sunny. Pale, insulated boxes; a thin one serves spring and autumn.";
    if (hours < shady) return sun + ": shady. Cool in the hottest weeks; young are reared in warmer boxes.";
    return sun + ". One thin box for the warm months, one insulated for the cold.";
}

std::string when_to_put_up(const plan::Plan& plan) {
    const bool north = plan.middle.latitude >= core::Degrees(0.0);
    return fmt::format(
        "Put boxes up from {}, never while birds nest or young are about. Look for nests and holes first. "
        "Local law decides.",
        north ? "September to February" : "March to August");
}

std::vector<std::string> afterwards() {
    return {"Look from the ground. Do not open a box: it may need a licence, and it drives animals out.",
            "A box lasts five to six years. In year five hang the new one first; take the old one down only "
            "when a "
            "licensed person finds it empty."};
}

std::vector<std::string> climber_confirms(const plan::Plan& plan) {
    const siting::Profile& profile = plan.settings.profile;
    std::vector<std::string> list{
        "No hole, nest, ivy or animal where the box goes. If there is, come down and call a licensed "
        "person."};
    if (const double clear = profile.clear_approach.value.value(); clear > 0.0)
        list.push_back(
            fmt::format("The way in is free for {:g} m before the entrance and 30° to each side: a canopy "
                        "model cannot see "
                        "under crowns.",
                        clear));
    if (const double drop = profile.clear_drop.value.value(); drop > 0.0)
        list.push_back(fmt::format("{:g} m are free below the entrance.", drop));
    list.emplace_back("The trunk is alive, sound and straight where the box goes.");
    list.emplace_back("No power line in reach of the crown or of the place you work from.");
    list.emplace_back(
        "No path, seat or playground below. After dark no lamp throws your shadow on the trunk.");
    return list;
}

std::string how_to_hang(const plan::Plan& plan) {
    std::string text = fmt::format("Hang at {:g} m. Entrances face: ", plan.mounting.height.value());
    for (const std::size_t tree : plan.chosen) {
        const siting::Candidate& candidate = plan.candidates[tree];
        text += fmt::format("{}site {} ", candidate.site == 1U ? "" : " · ", *candidate.site);
        const auto& facings = candidate.facings.value().boxes;
        for (std::size_t i = 0; i < facings.size(); ++i)
            text += fmt::format("{}{}", i == 0 ? "" : " and ", siting::compass_point(facings[i]));
    }
    return text + ".";
}

}  // namespace roostward::report
