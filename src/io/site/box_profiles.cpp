#include "roostward/io/box_profiles.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include "roostward/core/catalogue.hpp"
#include "roostward/survey/evening_hours.hpp"
#include "site/box_profiles_conditions.hpp"
#include "site/toml_entry.hpp"
#include "site/toml_sources.hpp"

namespace roostward::io {

namespace {

using Names = std::vector<std::string_view>;

constexpr NumberRange up_to_a_kilometre{0.0, 1000.0};
constexpr NumberRange any_bearing{0.0, 360.0};

/// A required entry of a profile: a table with `names`, a status and a source.
TomlEntry sourced_entry(const TomlEntry& profile, std::string_view name, Names names) {
    TomlEntry entry = required(profile, name);
    names.insert(names.end(), {"status", "source"});
    entry.allow_only(names);
    return entry;
}

template <class Quantity>
siting::Sourced<Quantity> quantity_of(const TomlEntry& profile, std::string_view name) {
    const TomlEntry entry = sourced_entry(profile, name, {"value"});
    return {Quantity(required(entry, "value").number(up_to_a_kilometre)), provenance_of(entry)};
}

siting::Sourced<siting::HeightRange> height_range_of(const TomlEntry& profile, std::string_view name) {
    const TomlEntry entry = sourced_entry(profile, name, {"min", "typical", "max"});
    const auto metres = [&](std::string_view part) {
        return core::Metres(required(entry, part).number(up_to_a_kilometre));
    };
    const siting::HeightRange range{metres("min"), metres("typical"), metres("max")};
    if (range.min > range.typical || range.typical > range.max)
        entry.fail(core::said("profile.must_not_fall"));
    return {range, provenance_of(entry)};
}

/// Without `max` there is no upper end.
siting::Span span_of(const TomlEntry& entry) {
    const TomlEntry max = entry.at("max");
    const siting::Span span{
        required(entry, "min").number(up_to_a_kilometre),
        max.given() ? max.number(up_to_a_kilometre) : std::numeric_limits<double>::infinity()};
    if (span.min > span.max) entry.fail(core::said("profile.min_above_max"));
    return span;
}

siting::Sourced<siting::FacingArc> facing_of(const TomlEntry& profile, std::string_view name) {
    const TomlEntry entry = sourced_entry(profile, name, {"from_deg", "to_deg"});
    return {{core::Degrees(required(entry, "from_deg").number(any_bearing)),
             core::Degrees(required(entry, "to_deg").number(any_bearing))},
            provenance_of(entry)};
}

void read_entrance(const TomlEntry& entry, siting::Profile& profile) {
    constexpr std::array<std::string_view, 3> kinds{"slot", "hole", "rectangle"};
    const TomlEntry entrance = sourced_entry(entry, "entrance_mm", {"kind", "min", "max"});
    profile.entrance_kind = required(entrance, "kind").word(kinds);
    profile.entrance_mm = {span_of(entrance), provenance_of(entrance)};
}

void read_tree_needs(const TomlEntry& entry, siting::Profile& profile) {
    profile.min_dbh = quantity_of<core::Centimetres>(entry, "min_dbh_cm");
    profile.min_height = quantity_of<core::Metres>(entry, "min_height_m");
    const TomlEntry conditions = sourced_entry(entry, "conditions", {"values"});
    profile.conditions = {conditions_from(required(conditions, "values").words(condition_words)),
                          provenance_of(conditions)};
    const TomlEntry species = sourced_entry(entry, "avoid_species", {"values"});
    profile.avoid_species = {required(species, "values").texts(), provenance_of(species)};
}

void read_neighbours(const TomlEntry& entry, siting::Profile& profile) {
    if (!entry.at("keep_from").given()) return;
    const TomlEntry keep = sourced_entry(entry, "keep_from", {"animals", "within_m", "seen_within_m"});
    const TomlEntry seen = keep.at("seen_within_m");
    profile.keep_from = {{required(keep, "animals").texts(),
                          core::Metres(required(keep, "within_m").number(up_to_a_kilometre)),
                          core::Metres(seen.given() ? seen.number(up_to_a_kilometre) : 0.0)},
                         provenance_of(keep)};
}

void read_animals(const TomlEntry& entry, siting::Profile& profile) {
    if (!entry.at("animals").given()) return;
    const TomlEntry animals = sourced_entry(entry, "animals", {"counted", "left_out"});
    const siting::Provenance provenance = provenance_of(animals);
    profile.counted_animals = {required(animals, "counted").texts(), provenance};
    profile.left_out_animals = {required(animals, "left_out").texts(), provenance};
}

std::optional<siting::Sourced<siting::Season>> season_of(const TomlEntry& profile, std::string_view name) {
    if (!profile.at(name).given()) return std::nullopt;
    const TomlEntry entry = sourced_entry(profile, name, {"from_month", "to_month"});
    const auto month = [&](std::string_view part) {
        return std::chrono::month(static_cast<unsigned>(required(entry, part).whole(1, 12)));
    };
    return siting::Sourced<siting::Season>{{month("from_month"), month("to_month")}, provenance_of(entry)};
}

/// As points = [[0, 0], [3, 1]].
siting::Curve curve_of(const TomlEntry& points) {
    siting::Curve curve;
    for (const auto& [measured, utility] : points.number_pairs()) {
        if (utility < 0.0 || utility > 1.0) points.fail(core::said("profile.utility"));
        if (!curve.points.empty() && measured <= curve.points.back().measured)
            points.fail(core::said("profile.points_must_rise"));
        curve.points.push_back({measured, utility});
    }
    if (curve.points.empty()) points.fail(core::said("profile.points"));
    return curve;
}

void read_utilities(const TomlEntry& entry, siting::Profile& profile) {
    using Where = std::optional<siting::Sourced<siting::Curve>> siting::Utilities::*;
    constexpr std::array<std::pair<std::string_view, Where>, 6> curves{
        {{"approach_m", &siting::Utilities::approach},
         {"sun_h", &siting::Utilities::sun},
         {"sun_hot_h", &siting::Utilities::sun_hot},
         {"lamp_lux", &siting::Utilities::lux},
         {"lamp_m", &siting::Utilities::lamp},
         {"road_m", &siting::Utilities::road}}};
    const TomlEntry utility = entry.at("utility");
    if (!utility.given()) return;
    Names names;
    for (const auto& [name, where] : curves)
        names.push_back(name);
    utility.allow_only(names);
    for (const auto& [name, where] : curves) {
        if (!utility.at(name).given()) continue;
        const TomlEntry sourced = sourced_entry(utility, name, {"points"});
        profile.utilities.*where = {curve_of(required(sourced, "points")), provenance_of(sourced)};
    }
}

std::optional<siting::Sourced<std::chrono::minutes>> after_sunset(const TomlEntry& entry,
                                                                  std::string_view name) {
    if (!entry.at(name).given()) return std::nullopt;
    const TomlEntry sourced = sourced_entry(entry, name, {"value"});
    return siting::Sourced{std::chrono::minutes(required(sourced, "value").whole(0, 1440)),
                           provenance_of(sourced)};
}

siting::Profile profile_of(const TomlEntry& entry, const std::string& id) {
    constexpr std::array<std::string_view, 21> names{"animals",
                                                     "keep_from",
                                                     "active_north",
                                                     "active_south",
                                                     "utility",
                                                     "entrance_doubtful_mm",
                                                     "name",
                                                     "mount_height_m",
                                                     "entrance_mm",
                                                     "clear_approach_m",
                                                     "clear_drop_m",
                                                     "spacing_m",
                                                     "facing_north",
                                                     "facing_south",
                                                     "min_dbh_cm",
                                                     "min_height_m",
                                                     "conditions",
                                                     "avoid_species",
                                                     "note",
                                                     "watch_end_min_after_sunset",
                                                     "first_flight_min_after_sunset"};
    entry.allow_only(names);
    siting::Profile profile;
    profile.id = id;
    profile.name = required(entry, "name").text();
    profile.mount_height = height_range_of(entry, "mount_height_m");
    read_entrance(entry, profile);
    profile.clear_approach = quantity_of<core::Metres>(entry, "clear_approach_m");
    profile.clear_drop = quantity_of<core::Metres>(entry, "clear_drop_m");
    const TomlEntry spacing = sourced_entry(entry, "spacing_m", {"min", "max"});
    profile.spacing_m = {span_of(spacing), provenance_of(spacing)};
    profile.facing_north = facing_of(entry, "facing_north");
    profile.facing_south = facing_of(entry, "facing_south");
    read_tree_needs(entry, profile);
    read_neighbours(entry, profile);
    read_animals(entry, profile);
    profile.active_north = season_of(entry, "active_north");
    profile.active_south = season_of(entry, "active_south");
    read_utilities(entry, profile);
    if (entry.at("entrance_doubtful_mm").given()) {
        const TomlEntry doubtful = sourced_entry(entry, "entrance_doubtful_mm", {"min", "max"});
        profile.entrance_doubtful_mm = {span_of(doubtful), provenance_of(doubtful)};
    }
    profile.first_flight = after_sunset(entry, "first_flight_min_after_sunset");
    constexpr std::chrono::minutes usual_end = survey::HoursCounted{}.after_sunset;
    profile.watch_end =
        after_sunset(entry, "watch_end_min_after_sunset").value_or(siting::Sourced{usual_end, {}});
    if (const TomlEntry note = entry.at("note"); note.given()) profile.note = note.scalar();
    return profile;
}

}  // namespace

std::vector<trees::Condition> conditions_from(const std::vector<std::string>& words) {
    std::vector<trees::Condition> conditions;
    for (const std::string& word : words) {
        const auto* const at = std::ranges::find(condition_words, word);
        conditions.push_back(static_cast<trees::Condition>(at - condition_words.begin()));
    }
    return conditions;
}

std::vector<siting::Profile> parse_box_profiles(const std::string& toml, const std::string& file) {
    const TomlFile parsed = parse_toml(toml, file);
    const TomlEntry root(parsed);
    root.allow_only(std::array<std::string_view, 1>{"profile"});
    const TomlEntry all = required(root, "profile");
    std::vector<siting::Profile> profiles;
    for (const std::string& id : all.members())
        profiles.push_back(profile_of(all.at(id), id));
    return profiles;
}

}  // namespace roostward::io
