#include "roostward/io/read_inputs.hpp"

#include <algorithm>
#include <functional>
#include <iterator>
#include <utility>

#include "files/input_file.hpp"
#include "places/coordinate_step.hpp"
#include "places/input_checks.hpp"
#include "places/locating.hpp"
#include "places/named_ways.hpp"
#include "places/placing.hpp"
#include "places/row_order.hpp"
#include "rasters/read_canopy.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/basemap.hpp"

namespace roostward::io {

namespace {

/// Calls `use` for the facts of every layer, in the order in which layers are told.
template <class Inputs, class Use>
void for_each_layer(Inputs& in, const Use& use) {
    if (in.allowed_area) use(in.allowed_area->facts);
    if (in.squares) use(in.squares->facts);
    if (in.watches) use(in.watches->facts);
    if (in.passes) use(in.passes->facts);
    if (in.tracks) use(in.tracks->facts);
    if (in.tallies) use(in.tallies->facts);
    if (in.routes) use(in.routes->facts);
    if (in.trees) use(in.trees->facts);
    if (in.roosts) use(in.roosts->facts);
    if (in.lamps) use(in.lamps->facts);
    if (in.roads) use(in.roads->facts);
    if (in.water) use(in.water->facts);
    if (in.boxes) use(in.boxes->facts);
    if (in.paths) use(in.paths->facts);
    if (in.stations) use(in.stations->facts);
    if (in.keep_out) use(in.keep_out->facts);
    for (auto& avoid : in.avoid)
        use(avoid.facts);
}

WatchHours hours_of(const std::optional<UnplacedWatches>& watches) {
    if (!watches) return {};
    WatchHours hours(watches->date_order);
    for (const survey::Watch& watch : watches->rows)
        hours.add(watch);
    for (const Elsewhere<survey::Watch>& row : watches->elsewhere)
        hours.add(row.record);
    return hours;
}

/// What was read until one of the layers failed stays in `in`, for its findings.
void read_layers(const SiteFile& site, core::Threads threads, UnplacedInputs& in) {
    const SiteClock clock(site.timezone);
    // First, for they tell what the times of passes and tracks leave open.
    if (site.watches) in.watches = read_watches(*site.watches, clock);
    const WatchHours watched = hours_of(in.watches);
    const TreeWords& tree_words = site.tree_words ? *site.tree_words : tree_words_within();
    const survey::AnimalDictionary animals(site.settings.survey.animals);
    std::vector<std::function<void()>> jobs;
    std::vector<std::optional<UnplacedLayer<GroundShape>>> avoid(site.avoid.size());
    if (site.trees) jobs.push_back([&] { in.trees = read_trees(*site.trees, clock, tree_words); });
    if (site.passes) jobs.push_back([&] { in.passes = read_passes(*site.passes, clock, watched, animals); });
    if (site.tracks) jobs.push_back([&] { in.tracks = read_tracks(*site.tracks, clock, watched, animals); });
    if (site.tallies)
        jobs.push_back([&] { in.tallies = read_tallies(*site.tallies, clock, watched, animals); });
    if (site.routes) jobs.push_back([&] { in.routes = read_routes(*site.routes); });
    if (site.roosts) jobs.push_back([&] { in.roosts = read_roosts(*site.roosts, clock); });
    if (site.lamps) jobs.push_back([&] { in.lamps = read_lamps(*site.lamps); });
    if (site.squares) jobs.push_back([&] { in.squares = read_squares(*site.squares); });
    if (site.boxes) jobs.push_back([&] { in.boxes = read_boxes(*site.boxes, clock); });
    if (site.roads) jobs.push_back([&] { in.roads = read_features(*site.roads); });
    if (site.water) jobs.push_back([&] { in.water = read_features(*site.water); });
    if (site.allowed_area) jobs.push_back([&] { in.allowed_area = read_areas(*site.allowed_area); });
    if (site.paths) jobs.push_back([&] { in.paths = read_paths(*site.paths); });
    if (site.stations) jobs.push_back([&] { in.stations = read_stations(*site.stations); });
    if (site.keep_out) jobs.push_back([&] { in.keep_out = read_areas(*site.keep_out); });
    for (std::size_t i = 0; i < avoid.size(); ++i) {
        jobs.push_back([&, i] { avoid[i] = read_features(site.avoid[i].source); });
    }
    core::parallel_for(jobs.size(), 1, threads, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            jobs[i]();
    });
    for (auto& layer : avoid)
        in.avoid.push_back(std::move(*layer));
}

bool tells_of_flights(const SiteFile& site) {
    return site.passes || site.tracks || site.tallies;
}

/// Trees alone are enough for a screening.
void require_anything(const SiteFile& site) {
    if (tells_of_flights(site) || site.trees) return;
    throw core::Error(core::Fault::site_file, {{}, {}, {}, "inputs"}, core::said("error.nothing_seen"));
}

template <class Layer>
std::size_t usable_rows(const std::optional<Layer>& layer) {
    return layer ? layer->rows.size() + layer->elsewhere.size() : 0;
}

/// Sheets of evenings that were not held yet are blank, too.
template <class Layer>
bool is_blank(const std::optional<Layer>& layer) {
    return !layer || layer->facts.report.rows_read() == layer->facts.to_come;
}

bool nobody_wrote_of_flights(const UnplacedInputs& in) {
    return is_blank(in.passes) && is_blank(in.tracks) && is_blank(in.tallies);
}

bool only_trees(const UnplacedInputs& in) {
    return nobody_wrote_of_flights(in) && usable_rows(in.trees) > 0;
}

/// Trees may have fallen out when they were placed.
void require_trees_to_screen(const UnplacedInputs& in, const SiteFile& site) {
    if (site.trees && nobody_wrote_of_flights(in) && usable_rows(in.trees) == 0)
        cannot_use(*site.trees, core::said("error.no_tree_to_screen"));
}

/// A survey in which nothing was seen cannot rank trees, and without trees there is nothing to screen.
void require_flights_or_trees(const UnplacedInputs& in, const SiteFile& site, ReadFor what) {
    const std::size_t without_gate = in.tallies ? in.tallies->without_gate.size() : 0;
    if (usable_rows(in.passes) + usable_rows(in.tracks) + usable_rows(in.tallies) + without_gate > 0) return;
    if (what == ReadFor::evenings && usable_rows(in.trees) > 0) return;
    if (only_trees(in) && (!tells_of_flights(site) || is_blank(in.watches))) return;
    if (!tells_of_flights(site)) cannot_use(*site.trees, core::said("error.no_tree_to_screen"));
    const InputSource& source = site.passes ? *site.passes : site.tracks ? *site.tracks : *site.tallies;
    cannot_use(source, core::said(site.passes   ? "error.no_pass"
                                  : site.tracks ? "error.no_flight"
                                                : "error.no_tally"));
}

template <class Record>
void take(UnplacedLayer<Record>& from, core::Records<Record>& into) {
    into.file = from.facts.report.file();
    into.files = from.facts.report.files();
    into.layer = from.facts.report.layer();
    into.read = from.facts.report.rows_read() - from.facts.to_come;
    into.rows = std::move(from.rows);
    into.step = from.step;
}

void take(UnplacedLayer<GroundShape>& from, trees::Features& into) {
    into.file = from.facts.report.file();
    for (GroundShape& ground : from.rows)
        into.shapes.push_back(std::move(ground.shape));
}

std::vector<geo::Polygon> areas_of(UnplacedLayer<GroundShape>& layer) {
    std::vector<geo::Polygon> areas;
    for (GroundShape& ground : layer.rows)
        std::move(ground.shape.polygons.begin(), ground.shape.polygons.end(), std::back_inserter(areas));
    return areas;
}

siting::Inputs taken(UnplacedInputs& in, const SiteFile& site, const geo::Crs& plane) {
    siting::Inputs inputs;
    inputs.planning_crs = plane;
    if (in.passes) take(*in.passes, inputs.passes);
    if (in.tracks) take(*in.tracks, inputs.tracks);
    if (in.tallies) take<survey::Tally>(*in.tallies, inputs.tallies);
    if (in.watches) take(*in.watches, inputs.watches);
    if (in.routes) take(*in.routes, inputs.routes);
    if (in.trees) {
        take<trees::Tree>(*in.trees, inputs.trees);
        inputs.trees.columns = in.trees->columns;
    }
    if (in.roosts) take(*in.roosts, inputs.roosts);
    if (in.lamps) take(*in.lamps, inputs.lamps);
    if (in.boxes) take<trees::HungBox>(*in.boxes, inputs.boxes);
    if (in.roads) take(*in.roads, inputs.roads);
    if (in.water) take(*in.water, inputs.water);
    if (in.allowed_area) inputs.allowed_area = areas_of(*in.allowed_area);
    if (in.keep_out) inputs.keep_out = areas_of(*in.keep_out);
    if (in.stations) take(*in.stations, inputs.stations);
    if (in.paths)
        for (GroundShape& ground : in.paths->rows)
            std::move(ground.shape.lines.begin(), ground.shape.lines.end(), std::back_inserter(inputs.paths));
    for (std::size_t i = 0; i < in.avoid.size(); ++i) {
        const AvoidSource& rule = site.avoid[i];
        trees::AvoidLayer layer{in.avoid[i].facts.report.file(),
                                rule.reason,
                                rule.within,
                                rule.then,
                                rule.who,
                                {},
                                rule.source.role};
        for (GroundShape& ground : in.avoid[i].rows)
            layer.shapes.push_back(std::move(ground.shape));
        inputs.avoid.push_back(std::move(layer));
    }
    return inputs;
}

/// When somebody last looked at a tree or saw a roost.
std::optional<core::Date> latest_told_date(const siting::Inputs& inputs) {
    std::optional<core::Date> latest;
    for (const trees::Tree& tree : inputs.trees.rows)
        latest = std::max(latest, tree.inspected);
    for (const trees::KnownRoost& roost : inputs.roosts.rows)
        latest = std::max(latest, roost.date);
    return latest;
}

std::optional<core::Date> latest_date(const siting::Inputs& inputs) {
    std::optional<core::Date> latest;
    const auto look = [&](const auto& records) {
        for (const auto& record : records.rows) {
            if (!latest || record.evening.date > *latest) latest = record.evening.date;
        }
    };
    look(inputs.passes);
    look(inputs.tracks);
    look(inputs.watches);
    return latest ? latest : latest_told_date(inputs);
}

/// Without watches where something was seen; empty for a screening.
geo::Line watched_places(const siting::Inputs& inputs) {
    geo::Line places;
    for (const survey::Watch& watch : inputs.watches.rows)
        places.insert(places.end(), watch.path.begin(), watch.path.end());
    for (const survey::Pass& pass : inputs.passes.rows)
        places.push_back(pass.position);
    for (const survey::Track& track : inputs.tracks.rows)
        places.insert(places.end(), track.path.begin(), track.path.end());
    return places;
}

core::Box site_box(const siting::Inputs& inputs) {
    geo::Line places = watched_places(inputs);
    for (const trees::Tree& tree : inputs.trees.rows)
        places.push_back(tree.stem);
    return *geo::box_of(places);
}

void require_usable_layers(const UnplacedInputs& in, double max_bad_share) {
    for_each_layer(in, [&](const LayerFacts& facts) { facts.report.require_usable_share(max_bad_share); });
}

/// Reads and judges all layers of rows. Returns the planning plane's system.
geo::Crs read_and_place(const SiteFile& site, core::Threads threads, ReadFor what, UnplacedInputs& in,
                        core::Findings& findings) {
    read_layers(site, threads, in);
    for_each_layer(in, [](LayerFacts& facts) { facts.report.end_files(); });
    require_usable_layers(in, site.max_bad_share);
    require_flights_or_trees(in, site, what);
    PlanningPlane plane(planning_crs(site.crs, in));
    find_steps(in, plane);
    place_all(in, plane, threads);
    put_rows_in_order(in);
    check_inputs(in);
    if (const std::optional<core::Box> box = watched_box(in)) {
        const GridNorth north(plane.crs(), *box);
        locate_elsewhere(in, north);
        turn_bearings(in, north);
        take_named_ways(in);
        tell_scale(plane, north, findings);
    }
    require_usable_layers(in, site.max_bad_share);
    require_trees_to_screen(in, site);
    return plane.crs();
}

void tell(const UnplacedInputs& in, core::Findings& findings) {
    for_each_layer(in, [&](const LayerFacts& facts) {
        core::Findings of_layer = facts.report.findings();
        std::move(of_layer.begin(), of_layer.end(), std::back_inserter(findings));
    });
}

std::optional<CanopyReading> canopy_of(const SiteFile& site, const geo::Crs& plane,
                                       const siting::Inputs& inputs, core::Threads threads) {
    if (site.canopy) return read_canopy(*site.canopy, plane, site_box(inputs), threads);
    if (site.surface)
        return read_surface_less_terrain(*site.surface, *site.terrain, plane, site_box(inputs), threads);
    return std::nullopt;
}

}  // namespace

siting::Inputs read_inputs(const SiteFile& site, core::Threads threads, core::Findings& findings,
                           ReadFor what) {
    require_anything(site);
    UnplacedInputs in;
    geo::Crs plane;
    try {
        plane = read_and_place(site, threads, what, in, findings);
    } catch (const core::Error&) {
        tell(in, findings);
        throw;
    }
    tell(in, findings);
    siting::Inputs inputs = taken(in, site, plane);
    for_each_layer(in, [&](const LayerFacts& facts) {
        const std::vector<core::RowCount>& counts = facts.report.counts();
        inputs.counts.insert(inputs.counts.end(), counts.begin(), counts.end());
        for (const FileFacts& file : facts.files)
            inputs.files.push_back(file.file);
    });
    if (std::optional<CanopyReading> canopy = canopy_of(site, plane, inputs, threads)) {
        inputs.canopy_height = std::move(canopy->height);
        inputs.ground_height = std::move(canopy->ground);
        std::move(canopy->files.begin(), canopy->files.end(), std::back_inserter(inputs.files));
        std::move(canopy->findings.begin(), canopy->findings.end(), std::back_inserter(findings));
    }
    if (site.basemap)
        inputs.files.push_back(look_at_basemap(
            *site.basemap, plane, geo::box_of(watched_places(inputs)).value_or(site_box(inputs))));
    inputs.latest_date = latest_date(inputs);
    inputs.findings = findings;
    return inputs;
}

}  // namespace roostward::io
