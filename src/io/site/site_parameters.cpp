#include "site/site_parameters.hpp"

#include <algorithm>
#include <array>
#include <chrono>

#include <fmt/format.h>

#include "roostward/core/catalogue.hpp"
#include "site/parameter_tables.hpp"

namespace roostward::io {

namespace {

/// What an entry of this kind holds.
struct KindReader {
    const TomlEntry& entry;

    [[nodiscard]] bool is_one_of(const std::vector<std::string_view>& words) const {
        return entry.is_text() && std::ranges::find(words, entry.text()) != words.end();
    }

    Document operator()(const TextKind&) const { return entry.text(); }
    Document operator()(const WordKind& kind) const { return entry.word(kind.allowed); }
    Document operator()(const WholeKind& kind) const {
        if (is_one_of(kind.or_words)) return entry.text();
        return entry.whole(kind.min, kind.max, listed(kind.or_words));
    }
    Document operator()(const NumberKind& kind) const {
        if (is_one_of(kind.or_words)) return entry.text();
        return entry.number(kind.range, listed(kind.or_words));
    }
    Document operator()(const TimeOfDayKind&) const {
        const std::chrono::minutes time = entry.time_of_day();
        return fmt::format("{:02}:{:02}", time.count() / 60, time.count() % 60);
    }
    Document operator()(const ListKind& kind) const {
        return list_of(kind.allowed.empty() ? entry.texts() : entry.words(kind.allowed));
    }
    Document operator()(const QuotaKind& kind) const {
        core::List quotas;
        std::vector<std::string> seen;
        for (const TomlEntry& quota : entry.is_table() ? std::vector{entry} : entry.tables()) {
            quota.allow_only(std::array<std::string_view, 2>{"field", "count"});
            const TomlEntry field = required(quota, "field");
            const std::string word = field.word(kind.fields);
            if (std::ranges::find(seen, word) != seen.end())
                field.fail(core::said("site_file.counted_twice", {{"word", word}}));
            seen.push_back(word);
            quotas.emplace_back(
                core::Object{{"field", word}, {"count", required(quota, "count").whole(1, 100'000)}});
        }
        return quotas;
    }
};

siting::Parameter read_parameter(const ParameterSpec& spec, const TomlEntry& entry, const SiteFile& site) {
    siting::Parameter parameter{std::string(spec.key),   {}, std::string(spec.unit), {}, {},
                                core::said(spec.meaning)};
    if (entry.given()) {
        parameter.value = std::visit(KindReader{entry}, spec.kind);
        parameter.set_by = entry.from_override() ? "--set" : "site file";
        parameter.provenance.source = core::said("setting.chosen");
        return parameter;
    }
    if (!spec.default_of) entry.fail(core::said("site_file.must_say", {{"what", core::said(spec.meaning)}}));
    DefaultValue fallback = spec.default_of(site);
    parameter.value = std::move(fallback.value);
    parameter.set_by = fallback.set_by;
    parameter.provenance = std::move(fallback.provenance);
    return parameter;
}

/// The curves of the box profile, which only a profile of one's own changes.
std::vector<siting::Parameter> profile_curves(const SiteFile& site) {
    const siting::Utilities& utilities = site.settings.profile.utilities;
    std::vector<siting::Parameter> told;
    const auto tell = [&](const char* name, const char* unit, const char* meaning,
                          const std::optional<siting::Sourced<siting::Curve>>& curve) {
        if (!curve) return;
        core::List points;
        for (const auto& point : curve->value.points)
            points.emplace_back(core::List{point.measured, point.utility});
        told.push_back({fmt::format("profile.{}.utility.{}", site.settings.profile.id, name),
                        std::move(points), unit, "box profile", curve->provenance, core::said(meaning)});
    };
    tell("approach_m", "m", "setting.utility.approach_m", utilities.approach);
    tell("sun_h", "h", "setting.utility.sun_h", utilities.sun);
    tell("sun_hot_h", "h", "setting.utility.sun_hot_h", utilities.sun_hot);
    tell("lamp_lux", "lx", "setting.utility.lamp_lux", utilities.lux);
    tell("lamp_m", "m", "setting.utility.lamp_m", utilities.lamp);
    tell("road_m", "m", "setting.utility.road_m", utilities.road);
    return told;
}

}  // namespace

const std::vector<ParameterSpec>& parameter_specs() {
    static const std::vector<ParameterSpec> specs = [] {
        std::vector<ParameterSpec> all = site_specs();
        for (auto&& part : {box_specs(), activity_specs(), counting_specs(), suitability_specs(),
                            surroundings_specs(), weight_specs(), choice_specs(), evenings_specs()})
            all.insert(all.end(), part.begin(), part.end());
        return all;
    }();
    return specs;
}

void read_parameters(const TomlEntry& root, SiteFile& site) {
    for (const ParameterSpec& spec : parameter_specs()) {
        siting::Parameter parameter = read_parameter(spec, root.at_path(spec.key), site);
        spec.apply(site, parameter.value);
        const bool of_evenings = spec.key.starts_with("evenings.");
        (of_evenings ? site.evenings_parameters : site.settings.parameters).push_back(std::move(parameter));
    }
    const std::vector<siting::Parameter> curves = profile_curves(site);
    site.settings.parameters.insert(site.settings.parameters.end(), curves.begin(), curves.end());
}

}  // namespace roostward::io
