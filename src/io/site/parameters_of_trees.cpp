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
         by_profile(&siting::Profile::min_dbh, number_of), "thinner trunks are ruled out",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.min_dbh = core::Centimetres(number_in(value));
         }},
        {"suitability.min_height_m", NumberKind{{0.0, 150.0}}, "m",
         by_profile(&siting::Profile::min_height, number_of), "lower trees are ruled out",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.min_height = core::Metres(number_in(value));
         }},
        {"suitability.conditions", ListKind{{condition_words.begin(), condition_words.end()}}, "",
         by_profile(&siting::Profile::conditions, words_of), "vigour that a tree may have",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.conditions = conditions_from(texts_in(value));
         }},
        {"suitability.gap_height_m", NumberKind{{0.0, 50.0}}, "m",
         always(2.0, {Status::published, "Brokaw 1982, Biotropica 14"}), "canopy no higher than this is open",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.gaps.height = core::Metres(number_in(value));
         }},
        {"suitability.gap_area_m2", NumberKind{{0.0, 1e6}}, "m²", always(25.0, common_practice),
         "connected open ground of at least this is a canopy gap",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.gaps.area = core::SquareMetres(number_in(value));
         }},
        {"suitability.avoid_species", ListKind{}, "", by_profile(&siting::Profile::avoid_species, list_of),
         "species that do not suit a box",
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
            "crown radius of a tree that has none, for distances from the crown's edge",
            [=](SiteFile & s) -> auto& { return trees(s).unknown_crown_radius; }),
        number_spec(
            "suitability.unknown_crown_in_gap_m", {0.0, 50.0}, "m", common_practice,
            "the same, for canopy near the stem of a tree in a gap",
            [=](SiteFile & s) -> auto& { return trees(s).unknown_crown_in_gap; }),
        number_spec(
            "suitability.roost_reach_m", metres, "m", common_practice,
            "animals known to live, or seen to come out, this near a tree may live in it",
            [=](SiteFile & s) -> auto& { return trees(s).roost_reach; }),
        number_spec(
            "suitability.lamp_never_m", metres, "m", azam,
            "a lamp this near the crown's edge rules a tree out",
            [=](SiteFile & s) -> auto& { return trees(s).light.lamp_never; }),
        number_spec(
            "suitability.lamp_doubtful_m", metres, "m", azam,
            "a lamp this near the crown's edge must be looked at after dark",
            [=](SiteFile & s) -> auto& { return trees(s).light.lamp_doubtful; }),
        number_spec(
            "suitability.lux_never", lux, "lx", common_practice,
            "this much lamp light on the entrance rules a tree out",
            [=](SiteFile & s) -> auto& { return trees(s).light.lux_never; }),
        number_spec(
            "suitability.lux_doubtful", lux, "lx", azam,
            "this much lamp light on the entrance must be looked at after dark",
            [=](SiteFile & s) -> auto& { return trees(s).light.lux_doubtful; }),
        number_spec(
            "suitability.light_through_crowns", {0.0, 1.0}, "", from_memory,
            "share of a lamp's light that passes 2 m of crowns and more; 1: crowns shade nothing",
            [=](SiteFile & s) -> auto& { return trees(s).light.through_crowns; }),
        number_spec(
            "suitability.road_m", metres, "m", common_practice,
            "a carriageway this near the crown's edge must be settled first",
            [=](SiteFile & s) -> auto& { return trees(s).roads.near; }),
        number_spec(
            "suitability.crossing_m", metres, "m", common_practice,
            "a flight line that crosses a road this near the crown's edge must be settled first",
            [=](SiteFile & s) -> auto& { return trees(s).roads.crossing; }),
        number_spec(
            "suitability.road_in_view_m", metres, "m", common_practice, "no box faces a road this near",
            [](SiteFile & s) -> auto& { return s.settings.road_in_view; }),
        {"suitability.keep_from", ListKind{}, "",
         by_profile(&siting::Profile::keep_from,
                    [](const siting::UnfitNeighbours& unfit) { return list_of(unfit.animals); }),
         "words for animals whose boxes and nests must not be near (field animal of boxes)",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.keep_from.animals = texts_in(value);
         }},
        {"suitability.keep_from_m", NumberKind{metres}, "m",
         by_profile(&siting::Profile::keep_from,
                    [](const siting::UnfitNeighbours& unfit) { return Document(unfit.within.value()); }),
         "such a box or nest this near must be settled first",
         [](SiteFile& site, const Document& value) {
             site.settings.suitability.keep_from.within = core::Metres(number_in(value));
         }},
        number_spec(
            "suitability.work_years", years, "years", common_practice,
            "felling or reduction due within this must be settled first",
            [=](SiteFile & s) -> auto& { return trees(s).work_years; }),
        number_spec(
            "suitability.inspection_years", years, "years", common_practice,
            "a judgement of safety older than this no longer counts",
            [=](SiteFile & s) -> auto& { return trees(s).inspection_years; }),
        number_spec(
            "suitability.most_hot_sun_h", {0.0, 12.0}, "h", common_practice,
            "most direct sun after 14:00 solar time in the hottest month on a box that heats up",
            [](SiteFile & s) -> auto& { return s.settings.climate.most_hot_sun; }),
    };
}

}  // namespace roostward::io
