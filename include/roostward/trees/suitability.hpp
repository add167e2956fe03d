#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/canopy/canopy.hpp"
#include "roostward/core/document.hpp"
#include "roostward/core/parallel.hpp"
#include "roostward/geo/shape.hpp"
#include "roostward/trees/neighbours.hpp"
#include "roostward/trees/tree.hpp"

namespace roostward::trees {

/// Every tree has one state; of several reasons the gravest decides. In order of gravity: where nobody
/// watched there is nothing yet that would be worth settling.
enum class State { can_be_chosen, settle_first, not_watched, ruled_out };

[[nodiscard]] std::string_view to_text(State state);
[[nodiscard]] std::string_view to_text(Condition condition);
[[nodiscard]] std::string_view to_text(BoxStatus status);

/// A feature that a box must keep away from.
struct AvoidLayer {
    std::string file;
    std::string reason;  ///< "overhead power line"
    core::Metres within;
    State then = State::ruled_out;  ///< ruled_out or settle_first
    std::string who;                ///< who decides, where it is to be settled first
    std::vector<geo::Shape> shapes;
    std::string key{};  ///< in the site file: "avoid[0]"
};

/// Somewhere animals were seen to come out or go in.
struct RoostSighting {
    core::PlanePoint position;
    std::string what;  ///< "animals seen emerging on 2026-06-12 (passes)"
};

/// An animal that boxes must be kept from, seen.
struct NeighbourSighting {
    core::PlanePoint position;
    std::string animal;  ///< as written
    core::Date evening;
    bool perched = false;
};

/// Lamps nearer than this (inclusive, from the crown's edge), or more light than this (inclusive).
struct LightLimits {
    core::Metres lamp_never{25.0}, lamp_doubtful{50.0};
    Lux lux_never{1.0}, lux_doubtful{0.1};
    core::Metres shading{2.0};    ///< so many metres of crowns between lamp and tree (inclusive) …
    double through_crowns = 0.1;  ///< … let so much of the light through
};

/// Carriageways and animals that cross them; all from the crown's edge, inclusive.
struct RoadLimits {
    core::Metres near{20.0};      ///< a carriageway
    core::Metres crossing{30.0};  ///< a flight line's way over one
};

/// Boxes and nests of animals that would take or drive out those that the box is for.
struct KeepFrom {
    std::vector<std::string> animals;  ///< whole words of a box's `animal`, in any case: "owl"
    core::Metres within{100.0};        ///< from stem to stem, inclusive
    core::Metres seen_within{0.0};     ///< from the stem to where one was seen, inclusive; 0: does not matter
};

struct Settings {
    core::Centimetres min_dbh{25.0};
    core::Metres min_height{7.5};
    std::vector<Condition> conditions{Condition::good, Condition::fair};
    std::vector<std::string>
        allow;  ///< kinds that hold no box, or what their species begins with, wanted all the same
    std::vector<std::string> avoid_species;  ///< whole words that a species begins with, in any case: "salix"
    canopy::GapSettings gaps;
    core::Metres unknown_crown_radius{6.0};  ///< crown radius where not told, for distances
    core::Metres unknown_crown_in_gap{3.0};  ///< the same, for canopy near a stem
    core::Metres roost_reach{15.0};          ///< inclusive
    LightLimits light;
    RoadLimits roads;
    KeepFrom keep_from;
    core::Metres entrance{4.5};     ///< height of the box's entrance
    double work_years = 6.0;        ///< felling or reduction due within this: settle first
    double inspection_years = 3.0;  ///< an older judgement of safety no longer counts
};

/// What a tree is judged by, besides its own record.
struct Surroundings {
    std::vector<geo::Polygon> allowed_area;  ///< empty: everywhere
    std::vector<AvoidLayer> avoid;
    std::vector<RoostSighting> roosts;
    core::Records<KnownRoost> known_roosts;
    std::vector<NeighbourSighting> neighbours_seen;
    core::Records<Lamp> lamps;
    core::Records<HungBox> boxes;
    Features roads, water;
    std::vector<core::PlanePoint> crossings;    ///< where a flight line crosses a road
    std::optional<core::Raster> canopy_height;  ///< metres above ground
    std::optional<core::Raster> ground_height;  ///< metres above sea on the same cells
    /// For work due and inspections: the latest date in the inputs. Where it is no date, all planned work
    /// counts and no judgement of safety does.
    core::Date today;
};

/// Why a tree is not simply choosable. `rule` is stable; the sentence is for people.
struct Reason {
    std::string rule;  ///< "trunk too thin"
    State state = State::ruled_out;
    std::string who;  ///< who decides, where it is to be settled first
    core::Document measured;
    core::Document required;
    std::string sentence;
    std::string ask;  ///< what to ask them
};

/// Lamp light at an entrance, on a face turned to the lamps. The tree's own crown shades nothing.
struct Light {
    std::optional<core::Metres>
        lamp;                ///< level distance from the stem to the nearest lamp that was looked at
    std::optional<Lux> lux;  ///< at most so much; empty where a lamp near by has no numbers
    bool shaded = false;     ///< crowns stand before a lamp that was counted
};

struct Verdict {
    State state = State::can_be_chosen;  ///< never not_watched: that is for the watches to say
    std::vector<Reason> reasons;         ///< all that apply, in the order of the rules
    std::optional<Light> light;          ///< empty where no lamps were given
    std::string neighbours;  ///< what was seen near it of animals to keep from, that settles nothing
};

/// A tree must rise this far above the box's entrance, whatever the settings say: common practice, no source.
inline constexpr core::Metres trunk_above_entrance{1.0};
/// The height that a tree must have.
[[nodiscard]] core::Metres least_height(const Settings& settings);

/// The crown's radius; where it is not told, the settings'.
[[nodiscard]] core::Metres crown_of(const Tree& tree, const Settings& settings);

/// The numbers that trees are held against.
struct Limits {
    Settings settings;
    std::vector<core::Metres> avoid_within;  ///< one a layer to keep away from
};

/// Judges trees by the rules. Limits are met at the limit itself: a trunk of just `min_dbh` is thick enough,
/// a power line just `within` from the crown's edge is too close. What stands about the trees is looked up in
/// indices that are made once, so that other limits cost only the trees that they are tried on.
class Judge {
 public:
    /// Refers to the inventory and the surroundings.
    Judge(const Inventory& inventory, const Surroundings& surroundings, const Settings& settings);
    ~Judge();

    [[nodiscard]] const Limits& limits() const;
    /// One verdict a tree, in the order of the trees. O(trees · log features + cells).
    [[nodiscard]] std::vector<Verdict> verdicts(core::Threads threads) const;
    /// What some trees would be under other limits. O(trees · log features); with other gaps O(cells) more.
    [[nodiscard]] std::vector<State> states(std::span<const std::size_t> trees, const Limits& limits) const;

 private:
    struct Known;
    std::unique_ptr<const Known> known_;
};

/// The verdicts of a judge with these settings.
[[nodiscard]] std::vector<Verdict> judge(const Inventory& inventory, const Surroundings& surroundings,
                                         const Settings& settings, core::Threads threads);

/// One matter that must be checked before anyone climbs, and whether the inputs allowed it.
struct Check {
    std::string matter;  ///< "power lines"
    bool checked = false;
    std::string how;  ///< "distance to power_lines.geojson", or what to give
};

/// Power lines, planned works, roads, lamps, protected trees, hollows, roosts, ownership, and what the rules
/// ask of a tree itself: trunk diameter, height, condition. In that order.
[[nodiscard]] std::vector<Check> what_was_checked(const Inventory& inventory,
                                                  const Surroundings& surroundings);

}  // namespace roostward::trees
