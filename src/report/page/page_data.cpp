#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "base64.hpp"
#include "coarse_ground.hpp"
#include "map_features.hpp"
#include "page_parts.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/document.hpp"
#include "roostward/report/acceptability_words.hpp"
#include "roostward/report/figures.hpp"
#include "tree_columns.hpp"

namespace roostward::report {

namespace {

using core::Document;
using core::List;
using core::Object;

constexpr std::size_t most_cells = 400'000;

/// The scripts' own words.
Object words_of_scripts() {
    Object words;
    for (const auto& [key, text] : core::catalogue())
        if (key.starts_with("ui.")) words.emplace_back(key.substr(3), text);
    return words;
}

/// Longitude and latitude at the corners, the middles of the sides and the middle, row by row from the
/// south-west: between them two parabolas are right to a millimetre.
Object lattice(const plan::Plan& plan, const core::Box& box) {
    const geo::Transform to_globe(plan.planning_crs, geo::wgs84());
    List places;
    for (int i = 0; i < 9; ++i) {
        const int row = i / 3, column = i % 3;
        const double east = 0.5 * column, north = 0.5 * row;
        const core::PlanePoint place =
            to_globe({box.south_west.easting + east * (box.north_east.easting - box.south_west.easting),
                      box.south_west.northing + north * (box.north_east.northing - box.south_west.northing)});
        // Nine significant digits of a degree would be decimetres.
        places.emplace_back(List{std::llround(place.easting * 1e9), std::llround(place.northing * 1e9)});
    }
    return {{"nano_degrees", std::move(places)},
            {"width", box.north_east.easting - box.south_west.easting},
            {"height", box.north_east.northing - box.south_west.northing}};
}

Object ground_of(const plan::Plan& plan, core::PlanePoint origin) {
    const CoarseGround ground = coarse_ground(plan, most_cells);
    constexpr double kilometres = 0.001;
    return {{"west", ground.grid.north_west.easting - origin.easting},
            {"north", ground.grid.north_west.northing - origin.northing},
            {"cell", ground.grid.cell.value()},
            {"rows", ground.grid.rows},
            {"columns", ground.grid.columns},
            {"most", rounded_figure(kilometres * ground.most, std::nullopt).value},
            {"flight", base64(ground.flight)},
            {"gaps", base64(gap_bits(plan, ground.grid))}};
}

/// The image stands in the page itself: nothing else may be loaded.
Object basemap_of(const core::Picture& picture, core::PlanePoint origin) {
    return {{"west", picture.grid.north_west.easting - origin.easting},
            {"north", picture.grid.north_west.northing - origin.northing},
            {"cell", picture.grid.cell.value()},
            {"rows", picture.grid.rows},
            {"columns", picture.grid.columns},
            {"image", "data:" + picture.media_type + ";base64," + base64(picture.bytes)}};
}

}  // namespace

std::string page_data(const Page& page) {
    const plan::Plan& plan = page.plan;
    const core::Box box = mapped_ground(plan);
    const core::PlanePoint origin = box.south_west;
    const geo::CrsFacts crs = geo::facts_of(plan.planning_crs);
    std::string json = "{\"words\":";
    core::append_json(json, words_of_scripts());
    const auto member = [&json](const char* key, const Document& value) {
        json += std::string(",\"") + key + "\":";
        core::append_json(json, value);
    };
    member("origin", List{origin.easting, origin.northing});
    member("crs", crs.authority.empty() ? crs.name : crs.name + " (" + crs.authority + ")");
    member("again", what_is_redrawn(plan.certainty));
    member("convergence", plan.meridian_convergence.value());
    member("globe", lattice(plan, box));
    member("ground", ground_of(plan, origin));
    if (page.basemap) member("basemap", basemap_of(*page.basemap, origin));
    member("features", map_features(plan, box));
    json += ",\"trees\":";
    append_tree_columns(json, page, origin);
    return json + "}";
}

}  // namespace roostward::report
