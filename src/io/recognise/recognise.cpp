#include "roostward/io/recognise.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <utility>

#include "files/input_file.hpp"
#include "layers/layers.hpp"
#include "recognise/recognise_fields.hpp"
#include "recognise/recognise_places.hpp"
#include "recognise/recognise_roles.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

namespace fs = std::filesystem;

namespace {

/// A layer that was looked at, and what it was taken for.
struct Looked {
    LayerSample sample;
    RoleGuess role;
};

InputSource source_of(const std::string& file, const fs::path& folder) {
    InputSource source;
    source.file = path_from(folder, file);
    source.path = fs::absolute(file).lexically_normal().string();
    return source;
}

bool is_geographic(const geo::Crs& crs) {
    return crs == geo::wgs84() || geo::facts_of(crs).geographic;
}

/// Whether the file itself says in which system its places are, and they can be so.
bool tells_its_system(const LayerSample& sample) {
    if (!sample.crs) return false;
    if (!is_geographic(*sample.crs)) return true;
    return std::ranges::none_of(sample.places, [](core::PlanePoint p) {
        return std::abs(p.easting) > 180.0 || std::abs(p.northing) > 180.0;
    });
}

/// Where a layer lies, if that is known without a guess.
std::optional<core::GeographicPoint> place_of(const Looked& looked) {
    const auto columns = place_columns(looked.sample, looked.role.role, std::nullopt);
    if (columns && columns->degrees) return middle_of(places_in(looked.sample, columns), geo::wgs84());
    if (looked.sample.has_geometry && tells_its_system(looked.sample))
        return middle_of(looked.sample.places, *looked.sample.crs);
    return std::nullopt;
}

/// The layers that say where they lie come first, then metres whose shape only one system has.
std::optional<core::GeographicPoint> place_of_all(const std::vector<Looked>& all) {
    for (const Looked& looked : all)
        if (!looked.role.role.empty())
            if (const auto place = place_of(looked)) return place;
    for (const Looked& looked : all) {
        const auto columns = place_columns(looked.sample, looked.role.role, std::nullopt);
        const std::vector<core::PlanePoint> places = places_in(looked.sample, columns);
        const CrsGuess guess = crs_guess(places, std::nullopt);
        if (!guess.crs.empty()) return middle_of(places, {guess.crs});
    }
    return std::nullopt;
}

void settle_crs(const LayerSample& sample, const std::optional<core::GeographicPoint>& place,
                RecognisedLayer& layer) {
    const auto columns = place_columns(sample, sample.source.role, place);
    const bool needed = sample.has_geometry ? !tells_its_system(sample) : columns && !columns->degrees;
    if (!needed) return;
    CrsGuess guess = crs_guess(places_in(sample, columns), place);
    layer.source.crs = std::move(guess.crs);
    layer.confirm_crs = std::move(guess.confirm);
}

/// Where day and month can be either and no date tells, the custom of the place does.
void settle_date_order(const LayerSample& sample, Custom custom, RecognisedLayer& layer) {
    constexpr std::array<std::string_view, 7> dated{"time",      "date",     "start", "end",
                                                    "inspected", "work_due", "hung"};
    std::size_t told = 0, undecided = 0;
    for (const FieldGuess& guess : layer.fields) {
        if (std::ranges::find(dated, guess.field) == dated.end()) continue;
        const auto column = std::ranges::find(sample.columns, guess.source.column, &ColumnSample::name);
        told += column->day_first + column->month_first;
        undecided += column->unordered_dates;
    }
    if (told > 0 || undecided == 0) return;
    layer.source.date_order = custom == Custom::inches ? "mdy" : "dmy";
    layer.confirm_date_order = core::said(custom == Custom::inches ? "guess.month_first" : "guess.day_first");
}

RecognisedLayer recognised(Looked& looked, const std::optional<core::GeographicPoint>& place) {
    LayerSample& sample = looked.sample;
    RecognisedLayer layer;
    sample.source.role = looked.role.role;
    layer.source = sample.source;
    layer.confirm_role = looked.role.confirm;
    layer.rows = sample.rows;
    if (is_raster(sample.source) || is_gpx_of_tracks(sample.source)) return layer;
    FieldsFound found = fields_of(sample, looked.role.role, place);
    layer.fields = std::move(found.fields);
    constexpr std::array<std::string_view, 7> of_shapes{"roads",  "water",  "allowed_area", "avoid",
                                                        "roosts", "routes", "squares"};
    if (std::ranges::find(of_shapes, looked.role.role) == of_shapes.end()) layer.left = std::move(found.left);
    layer.notes = std::move(found.notes);
    settle_crs(sample, place, layer);
    settle_date_order(sample, custom_at(place), layer);
    if (looked.role.role != "trees") return layer;
    if (auto only = only_guess(sample, layer.fields)) {
        layer.source.only = std::move(only->only);
        layer.confirm_only = std::move(only->confirm);
    }
    return layer;
}

Looked look_at(const InputSource& source) {
    Looked looked;
    looked.sample.source = source;
    if (is_raster(source)) {
        looked.role = role_of_raster(source);
    } else if (extension_of(source) == "gpx" && source.layer == "tracks") {
        looked.role = {"watches", 5.0, core::said("role.gpx"), ""};
        looked.sample.source.layer.clear();
    } else {
        looked.sample = sample_of(source);
        looked.role = role_of(looked.sample);
    }
    return looked;
}

/// Only one file can be an input of a kind; the one with more to say for it stays.
void keep_one_a_role(std::vector<Looked>& all) {
    for (Looked& looked : all)
        for (const Looked& other : all) {
            const bool same = &looked != &other && !looked.role.role.empty() && looked.role.role != "avoid" &&
                              looked.role.role == other.role.role;
            if (!same || looked.role.weight > other.role.weight ||
                (looked.role.weight == other.role.weight && &looked < &other))
                continue;
            looked.role.why_not = core::said(
                "role.one_of_a_kind", {{"role", looked.role.role}, {"file", other.sample.source.file}});
            looked.role.role.clear();
        }
}

/// Heights above sea come in twos, and not beside the height of the canopy.
void keep_one_way_to_the_canopy(std::vector<Looked>& all) {
    const auto has = [&](std::string_view role) {
        return std::ranges::any_of(all, [&](const Looked& l) { return l.role.role == role; });
    };
    const bool canopy = has("canopy"), both = has("surface") && has("terrain");
    for (Looked& looked : all) {
        if (looked.role.role != "surface" && looked.role.role != "terrain") continue;
        if (!canopy && both) continue;
        looked.role.why_not = canopy ? core::said("role.canopy_told")
                                     : core::said("role.surface_and_terrain", {{"role", looked.role.role}});
        looked.role.role.clear();
    }
}

std::vector<Looked> layers_of(InputSource source) {
    std::vector<Looked> layers;
    for (std::string& layer : is_raster(source) ? std::vector<std::string>{""} : layers_in(source)) {
        source.layer = std::move(layer);
        layers.push_back(look_at(source));
    }
    return layers;
}

/// A file that cannot be read is left out, and said so, where others can.
std::vector<Looked> look_at_all(const std::vector<std::string>& files, const fs::path& folder,
                                std::vector<UnknownLayer>& unknown) {
    std::vector<Looked> all;
    std::optional<core::Error> first;
    for (const std::string& file : files) {
        const InputSource source = source_of(file, folder);
        require_file(source);
        try {
            std::ranges::move(layers_of(source), std::back_inserter(all));
        } catch (const core::Error& error) {
            unknown.push_back({source.file, "", error.what()});
            if (!first) first = error;
        }
    }
    if (all.empty() && first) throw core::Error(*first);
    return all;
}

}  // namespace

InputSource RecognisedLayer::mapped() const {
    InputSource all = source;
    for (const FieldGuess& guess : fields)
        all.fields[guess.field] = guess.source;
    return all;
}

std::string path_from(const fs::path& folder, const std::string& file) {
    const fs::path target = fs::weakly_canonical(fs::absolute(file));
    const fs::path base = fs::weakly_canonical(fs::absolute(folder));
    const fs::path relative = target.lexically_relative(base);
    const auto depth = std::distance(base.begin(), base.end()) - 1;
    const bool through_root = std::ranges::count(relative, fs::path("..")) >= depth;
    return relative.empty() || through_root ? target.string() : relative.generic_string();
}

Recognised recognise(const std::vector<std::string>& files, const fs::path& folder) {
    Recognised result;
    std::vector<Looked> all = look_at_all(files, folder, result.unknown);
    keep_one_a_role(all);
    keep_one_way_to_the_canopy(all);
    result.place = place_of_all(all);
    ZoneGuess zone = zone_guess(result.place);
    result.timezone = std::move(zone.zone);
    result.confirm_timezone = std::move(zone.confirm);
    for (Looked& looked : all) {
        if (looked.role.role.empty())
            result.unknown.push_back(
                {looked.sample.source.file, looked.sample.source.layer, looked.role.why_not});
        else
            result.layers.push_back(recognised(looked, result.place));
    }
    return result;
}

}  // namespace roostward::io
