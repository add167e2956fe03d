#pragma once

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/trees/suitability.hpp"

/// The rules by which trees are judged. To add one: write a function of the type Rule in one of the
/// rules_*.cpp, declare it here, give it its line in the table in judge.cpp, and a case in
/// tests/trees/rules_test.cpp.
namespace roostward::trees {

/// The lamps about a place.
class Lamps {
 public:
    /// Refers to all of them.
    Lamps(const std::vector<Lamp>& lamps, const std::optional<core::Raster>& canopy_height,
          const Settings& settings);
    /// All lamps near the tree, and those farther off whose light can be felt.
    [[nodiscard]] Light at(const Tree& tree) const;

 private:
    [[nodiscard]] bool shaded(const Lamp& lamp, const Tree& tree) const;

    const std::vector<Lamp>* lamps_;
    const std::optional<core::Raster>* canopy_height_;
    const Settings* settings_;
    std::optional<geo::PointIndex> index_;
    core::Metres reach_;
};

/// Where things stand, whatever the limits are; made once, then shared by all threads.
struct Places {
    explicit Places(const Surroundings& around);

    std::optional<geo::NearestShape> allowed_area;
    std::vector<geo::NearestShape> avoid;  ///< one a layer to keep away from
    std::vector<RoostSighting> roosts;     ///< those told, then those seen
    geo::PointIndex roost_places;
    geo::PointIndex neighbours_seen;
    std::optional<geo::NearestShape> roads;
    geo::PointIndex crossings;  ///< of flight lines and roads
};

/// What the rules look things up in; made once for some limits, then shared by all threads.
struct Context {
    /// `known_gaps`: those of the limits' settings, where they have been found before.
    Context(const Inventory& inventory, const Surroundings& surroundings, const Places& found,
            const Limits& limits, std::shared_ptr<const canopy::GapMap> known_gaps);

    const TreeColumns& columns;
    const Surroundings& around;
    const Places& places;
    const Settings& settings;
    const std::vector<core::Metres>& avoid_within;  ///< one a layer to keep away from
    std::vector<HungBox> other_boxes;               ///< of animals to keep from
    geo::PointIndex other_places;
    std::optional<Lamps> lamps;
    std::shared_ptr<const canopy::GapMap> gaps;   ///< null without a canopy model
    std::string conditions;                       ///< "good or fair"
    std::optional<core::Date> last_day_of_works;  ///< work due by then (inclusive) counts; empty: all work
    std::optional<core::Date> first_inspection;   ///< a judgement since then (inclusive) counts; empty: none

    /// Whether the inventory has the column, but nothing for this tree in it.
    template <class Value>
    [[nodiscard]] bool left_blank(TreeField field, const std::optional<Value>& value) const {
        return columns.has(field) && !value;
    }
};

/// A reason against the tree, or none.
using Rule = std::optional<Reason> (*)(const Tree&, const Context&);

// The tree itself: rules_of_the_tree.cpp
std::optional<Reason> trunk_too_thin(const Tree& tree, const Context& context);
std::optional<Reason> trunk_not_told(const Tree& tree, const Context& context);
std::optional<Reason> too_low(const Tree& tree, const Context& context);
std::optional<Reason> height_not_told(const Tree& tree, const Context& context);
std::optional<Reason> unfit_condition(const Tree& tree, const Context& context);
std::optional<Reason> condition_not_told(const Tree& tree, const Context& context);
/// A palm, a tree fern …
std::optional<Reason> kind_without_box(const Tree& tree, const Context& context);
std::optional<Reason> avoided_species(const Tree& tree, const Context& context);
std::optional<Reason> species_not_told(const Tree& tree, const Context& context);

// Safety and work: rules_of_safety.cpp
std::optional<Reason> likely_to_fail(const Tree& tree, const Context& context);
std::optional<Reason> may_fail(const Tree& tree, const Context& context);
std::optional<Reason> judged_too_long_ago(const Tree& tree, const Context& context);
std::optional<Reason> safety_not_judged(const Tree& tree, const Context& context);
std::optional<Reason> work_planned(const Tree& tree, const Context& context);

// Who lives there, who has a say: rules_of_consent.cpp
std::optional<Reason> own_hollow(const Tree& tree, const Context& context);
std::optional<Reason> hollow_not_told(const Tree& tree, const Context& context);
std::optional<Reason> roost_near(const Tree& tree, const Context& context);
/// A box or nest of animals that would take those that the box is for.
std::optional<Reason> beside_other_animals(const Tree& tree, const Context& context);
/// Animals to keep from were seen near by, and sat there or came on two evenings.
std::optional<Reason> other_animals_seen(const Tree& tree, const Context& context);
/// The same where they were only seen once, which settles nothing; empty where none was seen.
std::string other_animals_told(const Tree& tree, const Context& context);
std::optional<Reason> protected_by_law(const Tree& tree, const Context& context);
std::optional<Reason> protection_not_told(const Tree& tree, const Context& context);
std::optional<Reason> refused(const Tree& tree, const Context& context);
std::optional<Reason> not_answered(const Tree& tree, const Context& context);
std::optional<Reason> not_asked(const Tree& tree, const Context& context);

// Where it stands: rules_of_place.cpp
std::optional<Reason> outside_allowed_area(const Tree& tree, const Context& context);
std::optional<Reason> in_canopy_gap(const Tree& tree, const Context& context);
std::optional<Reason> carriageway_near(const Tree& tree, const Context& context);
/// The flight line beside the tree crosses a road there.
std::optional<Reason> route_crosses_road(const Tree& tree, const Context& context);
/// The same for each layer of features to keep away from; measured from the crown's edge.
std::optional<Reason> too_close_to(std::size_t layer, const Tree& tree, const Context& context);

// Lamps: rules_of_light.cpp
std::optional<Reason> lit(const Light& light, const Tree& tree, const Context& context);

}  // namespace roostward::trees
