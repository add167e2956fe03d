#pragma once

#include <optional>
#include <string>
#include <vector>

#include "layers/layer_opening.hpp"
#include "roostward/core/units.hpp"
#include "roostward/io/bearings.hpp"
#include "roostward/io/times.hpp"
#include "roostward/survey/animal_words.hpp"
#include "roostward/survey/records.hpp"
#include "roostward/trees/neighbours.hpp"
#include "roostward/trees/tree.hpp"
#include "words/watch_hours.hpp"

// One reader a layer, of all its files. Coordinates stay those of the file, and bearings true, until the
// planning plane is known.
namespace roostward::io {

struct UnplacedTrees : UnplacedLayer<trees::Tree> {
    trees::TreeColumns columns;
};

/// A feature's geometry, of any kind.
struct GroundShape {
    core::RowRef row;
    geo::Shape shape;
};

/// The way that a pass flew, told by a named line.
struct PassWay {
    core::RowRef row;
    NamedWay way;
    std::string written;
};

struct UnplacedPasses : UnplacedLayer<survey::Pass> {
    std::vector<PassWay> ways;
};

struct UnplacedWatches : UnplacedLayer<survey::Watch> {
    DateOrder date_order = DateOrder::unknown;  ///< as the dates show it, in all files alike
};

/// A square of ground, or any other, that notes call by its name.
struct NamedGround {
    core::RowRef row;
    std::string name;
    geo::Shape shape;
};

/// Tallies at no gate have no place of their own, and lie apart until the gates are placed.
struct UnplacedTallies : UnplacedLayer<survey::Tally> {
    std::vector<survey::Tally> without_gate;
};

[[nodiscard]] UnplacedWatches read_watches(const InputSource& source, const SiteClock& clock);
[[nodiscard]] UnplacedPasses read_passes(const InputSource& source, const SiteClock& clock,
                                         const WatchHours& watches,
                                         const survey::AnimalDictionary& dictionary);
[[nodiscard]] UnplacedLayer<survey::Track> read_tracks(const InputSource& source, const SiteClock& clock,
                                                       const WatchHours& watches,
                                                       const survey::AnimalDictionary& dictionary);
[[nodiscard]] UnplacedTallies read_tallies(const InputSource& source, const SiteClock& clock,
                                           const WatchHours& watches,
                                           const survey::AnimalDictionary& dictionary);
[[nodiscard]] UnplacedLayer<survey::Route> read_routes(const InputSource& source);
/// Trees without an identifier get one when all lie in the planning plane: see input_checks.hpp.
[[nodiscard]] UnplacedTrees read_trees(const InputSource& source, const SiteClock& clock,
                                       const TreeWords& words);
[[nodiscard]] UnplacedLayer<trees::KnownRoost> read_roosts(const InputSource& source, const SiteClock& clock);
[[nodiscard]] UnplacedLayer<trees::Lamp> read_lamps(const InputSource& source);
[[nodiscard]] UnplacedLayer<trees::HungBox> read_boxes(const InputSource& source, const SiteClock& clock);
/// Rows that are no polygons are set aside.
[[nodiscard]] UnplacedLayer<GroundShape> read_areas(const InputSource& source);
/// Rows that are no lines, or lines without length, are set aside.
[[nodiscard]] UnplacedLayer<GroundShape> read_paths(const InputSource& source);
[[nodiscard]] UnplacedLayer<survey::Station> read_stations(const InputSource& source);
/// Polygons, each with a name.
[[nodiscard]] UnplacedLayer<NamedGround> read_squares(const InputSource& source);
[[nodiscard]] UnplacedLayer<GroundShape> read_features(const InputSource& source);

/// Adds every segment of a GPX file's tracks as a watch on foot, or as a flight followed. Segments are never
/// joined.
void read_gpx_watches(const InputSource& source, const SiteClock& clock, UnplacedWatches& watches);
void read_gpx_tracks(const InputSource& source, const SiteClock& clock, UnplacedLayer<survey::Track>& tracks);
/// Whether the source is a GPX file of which no layer, or the layer of tracks, is asked for.
[[nodiscard]] bool is_gpx_of_tracks(const InputSource& source);

/// By eye without a distance: common practice, no source.
inline constexpr core::Metres range_by_eye{20.0};

/// The fields that these readers look for, with their synonyms.
[[nodiscard]] const std::vector<FieldSpec>& fields_of_trees();
[[nodiscard]] const std::vector<FieldSpec>& fields_of_passes();
[[nodiscard]] const std::vector<FieldSpec>& fields_of_watches();
[[nodiscard]] const std::vector<FieldSpec>& fields_of_boxes();
[[nodiscard]] const std::vector<FieldSpec>& fields_of_tracks();
[[nodiscard]] const std::vector<FieldSpec>& fields_of_tallies();

}  // namespace roostward::io
