#include "site/box_profiles_conditions.hpp"
#include "site/parameter_tables.hpp"

namespace roostward::io {

namespace {

Document words_of(const std::vector<trees::Condition>& conditions) {
    core::List words;
    for (const trees::Condition condition : conditions)
        words.emplace_back(trees::to_text(condition));
    return words;
}

constexpr auto number_of = [](auto quantity) { return Document(quantity.value()); };

}  // namespace

std::vector<ParameterSpec> suitability_specs() {
    return {
        {"suitability.min_dbh_cm", NumberKind{{0.0, 1000.0}}, "cm",
         by_profile(&siting::Profile::min_dbh, number_of), "setting.suitability.min_dbh_cm",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.min_dbh = core::Centimetres(number_in(value));
         }},
        {"suitability.min_height_m", NumberKind{{0.0, 150.0}}, "m",
         by_profile(&siting::Profile::min_height, number_of), "setting.suitability.min_height_m",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.min_height = core::Metres(number_in(value));
         }},
        {"suitability.conditions", ListKind{{condition_words.begin(), condition_words.end()}}, "",
         by_profile(&siting::Profile::conditions, words_of), "setting.suitability.conditions",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.conditions = conditions_from(texts_in(value));
         }},
        {"suitability.gap_height_m", NumberKind{{0.0, 50.0}}, "m",
         always(2.0, {Status::published, "Brokaw 1982, Biotropica 14"}), "setting.suitability.gap_height_m",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.gaps.height = core::Metres(number_in(value));
         }},
        {"suitability.gap_area_m2", NumberKind{{0.0, 1e6}}, "m²", always(25.0, common_practice),
         "setting.suitability.gap_area_m2",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.gaps.area = core::SquareMetres(number_in(value));
         }},
        {"suitability.allow", ListKind{}, "", always(core::List(), common_practice),
         "setting.suitability.allow",
         [](SiteFile& site, const Document& value) { site.settings.suitability.allow = texts_in(value); }},
        {"suitability.avoid_species", ListKind{}, "", by_profile(&siting::Profile::avoid_species, list_of),
         "setting.suitability.avoid_species",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.avoid_species = texts_in(value);
         }},
    };
}

std::vector<ParameterSpec> surroundings_specs() {
    constexpr NumberRange metres{0.0, 1000.0}, lux{0.0, 1e4, true}, years{0.0, 200.0};
    const auto trees = [](SiteFile& site) -> trees::Settings& { return site.settings.suitability; };
    return {
        number_spec(
            "suitability.unknown_crown_radius_m", {0.0, 50.0}, "m", common_practice,
            "setting.suitability.crown_radius_m",
            [=](SiteFile & s) -> auto& { return trees(s).unknown_crown_radius; }),
        number_spec(
            "suitability.unknown_crown_in_gap_m", {0.0, 50.0}, "m", common_practice,
            "setting.suitability.crown_in_gap_m",
            [=](SiteFile & s) -> auto& { return trees(s).unknown_crown_in_gap; }),
        number_spec(
            "suitability.roost_reach_m", metres, "m", common_practice,
            "setting.suitability.roost_reach_m", [=](SiteFile & s) -> auto& { return trees(s).roost_reach; }),
        number_spec(
            "suitability.lamp_never_m", metres, "m", azam, "setting.suitability.lamp_never_m",
            [=](SiteFile & s) -> auto& { return trees(s).light.lamp_never; }),
        number_spec(
            "suitability.lamp_doubtful_m", metres, "m", azam, "setting.suitability.lamp_doubtful_m",
            [=](SiteFile & s) -> auto& { return trees(s).light.lamp_doubtful; }),
        number_spec(
            "suitability.lux_never", lux, "lx", common_practice,
            "setting.suitability.lux_never", [=](SiteFile & s) -> auto& { return trees(s).light.lux_never; }),
        number_spec(
            "suitability.lux_doubtful", lux, "lx", azam, "setting.suitability.lux_doubtful",
            [=](SiteFile & s) -> auto& { return trees(s).light.lux_doubtful; }),
        number_spec(
            "suitability.light_through_crowns", {0.0, 1.0}, "", from_memory,
            "setting.suitability.light_through_crowns",
            [=](SiteFile & s) -> auto& { return trees(s).light.through_crowns; }),
        number_spec(
            "suitability.road_m", metres, "m", common_practice,
            "setting.suitability.road_m", [=](SiteFile & s) -> auto& { return trees(s).roads.near; }),
        number_spec(
            "suitability.crossing_m", metres, "m", common_practice,
            "setting.suitability.crossing_m", [=](SiteFile & s) -> auto& { return trees(s).roads.crossing; }),
        number_spec(
            "suitability.road_in_view_m", metres, "m", common_practice, "setting.suitability.road_in_view_m",
            [](SiteFile & s) -> auto& { return s.settings.road_in_view; }),
        {"suitability.keep_from", ListKind{}, "",
         by_profile(&siting::Profile::keep_from,
                    [](const siting::UnfitNeighbours& unfit) { return list_of(unfit.animals); }),
         "setting.suitability.keep_from",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.keep_from.animals = texts_in(value);
             site.settings.survey.keep_from = texts_in(value);
         }},
        {"suitability.keep_from_seen_m", NumberKind{metres}, "m",
         by_profile(&siting::Profile::keep_from,
                    [](const siting::UnfitNeighbours& keep) { return Document(keep.seen_within.value()); }),
         "setting.suitability.keep_from_seen_m",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.keep_from.seen_within = core::Metres(number_in(value));
             if (number_in(value) == 0.0) site.settings.survey.keep_from.clear();
         }},
        {"suitability.keep_from_m", NumberKind{metres}, "m",
         by_profile(&siting::Profile::keep_from,
                    [](const siting::UnfitNeighbours& unfit) { return Document(unfit.within.value()); }),
         "setting.suitability.keep_from_m",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.keep_from.within = core::Metres(number_in(value));
         }},
        number_spec(
            "suitability.work_years", years, "years", common_practice,
            "setting.suitability.work_years", [=](SiteFile & s) -> auto& { return trees(s).work_years; }),
        number_spec(
            "suitability.inspection_years", years, "years", common_practice,
            "setting.suitability.inspection_years",
            [=](SiteFile & s) -> auto& { return trees(s).inspection_years; }),
        number_spec(
            "suitability.most_hot_sun_h", {0.0, 12.0}, "h", common_practice,
            "setting.suitability.most_hot_sun_h",
            [](SiteFile & s) -> auto& { return s.settings.climate.most_hot_sun; }),
    };
}

}  // namespace roostward::io
