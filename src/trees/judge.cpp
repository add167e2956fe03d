#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <utility>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"
#include "rules.hpp"
#include "wording.hpp"

namespace roostward::trees {

namespace {

/// In the order in which reasons are given. The layers to keep away from come after these.
constexpr std::array rules{
    outside_allowed_area,
    trunk_too_thin,
    trunk_not_told,
    too_low,
    height_not_told,
    unfit_condition,
    condition_not_told,
    kind_without_box,
    avoided_species,
    species_not_told,
    likely_to_fail,
    may_fail,
    judged_too_long_ago,
    safety_not_judged,
    work_planned,
    own_hollow,
    hollow_not_told,
    roost_near,
    protected_by_law,
    protection_not_told,
    refused,
    not_answered,
    not_asked,
    in_canopy_gap,
    carriageway_near,
    route_crosses_road,
    beside_other_animals,
    other_animals_seen,
};

/// "a known roost (roosts.csv), 4 animals on 2026-06-09"
std::string told_of(const KnownRoost& roost, const std::string& file) {
    const std::string place = core::said("roost.known", {{"file", file}});
    const std::string date = roost.date ? core::to_text(*roost.date) : std::string();
    if (roost.count)
        return core::said(roost.date ? "roost.known_count_date" : "roost.known_count",
                          {{"roost", place}, {"count", *roost.count}, {"date", date}});
    return roost.date ? core::said("roost.known_date", {{"roost", place}, {"date", date}}) : place;
}

std::vector<RoostSighting> all_roosts(const Surroundings& around) {
    std::vector<RoostSighting> roosts;
    for (const KnownRoost& roost : around.known_roosts.rows)
        roosts.push_back({roost.position, told_of(roost, around.known_roosts.file_of(roost.row))});
    roosts.insert(roosts.end(), around.roosts.begin(), around.roosts.end());
    return roosts;
}

template <class Records>
std::vector<core::PlanePoint> positions_of(const Records& records) {
    std::vector<core::PlanePoint> positions;
    positions.reserve(records.size());
    for (const auto& record : records)
        positions.push_back(record.position);
    return positions;
}

/// The boxes that hang and are, by a word of their `animal`, for one of the animals to keep from.
std::vector<HungBox> boxes_of(const std::vector<std::string>& animals, const std::vector<HungBox>& boxes) {
    std::vector<HungBox> theirs;
    std::vector<std::string> known;
    for (const std::string& animal : animals)
        for (std::string& word : core::plain_words(animal))
            known.push_back(std::move(word));
    for (const HungBox& box : boxes) {
        const std::vector<std::string> words = core::plain_words(box.animal);
        const bool one_of_them = std::ranges::any_of(
            words, [&](const std::string& word) { return std::ranges::find(known, word) != known.end(); });
        if (box.hangs() && one_of_them) theirs.push_back(box);
    }
    return theirs;
}

std::vector<core::Metres> widths_of(const std::vector<AvoidLayer>& layers) {
    std::vector<core::Metres> widths;
    widths.reserve(layers.size());
    for (const AvoidLayer& layer : layers)
        widths.push_back(layer.within);
    return widths;
}

/// "good or fair", "good, fair or poor"
std::string listed(const std::vector<Condition>& conditions) {
    std::vector<std::string> names;
    names.reserve(conditions.size());
    for (const Condition condition : conditions)
        names.push_back(core::shown("condition", to_text(condition)));
    return core::one_of(names);
}

/// The same day so many years on, to the month; 29 February becomes the last of the month.
std::optional<core::Date> years_from(core::Date date, double years) {
    if (!date.ok()) return std::nullopt;
    const core::Date moved = date + std::chrono::months(std::lround(years * 12.0));
    return moved.ok() ? moved : core::Date(moved.year() / moved.month() / std::chrono::last);
}

/// Gathers all reasons against a tree. Tells the light at its entrance where there are lamps.
std::optional<Light> look_at(const Tree& tree, const Context& context, std::vector<Reason>& reasons) {
    reasons.clear();
    const auto note = [&reasons](std::optional<Reason> reason) {
        if (reason) reasons.push_back(std::move(*reason));
    };
    for (const Rule rule : rules)
        note(rule(tree, context));
    for (std::size_t layer = 0; layer < context.avoid_within.size(); ++layer)
        note(too_close_to(layer, tree, context));
    if (!context.lamps) return std::nullopt;
    const Light light = context.lamps->at(tree);
    note(lit(light, tree, context));
    return light;
}

State gravest(const std::vector<Reason>& reasons) {
    State state = State::can_be_chosen;
    for (const Reason& reason : reasons)
        state = std::max(state, reason.state);
    return state;
}

/// `reasons` is only there to be used again from tree to tree.
Verdict judged(const Tree& tree, const Context& context, std::vector<Reason>& reasons) {
    Verdict verdict;
    verdict.light = look_at(tree, context, reasons);
    verdict.state = gravest(reasons);
    verdict.neighbours = other_animals_told(tree, context);
    verdict.reasons.assign(std::make_move_iterator(reasons.begin()), std::make_move_iterator(reasons.end()));
    return verdict;
}

}  // namespace

Places::Places(const Surroundings& around)
    : roosts(all_roosts(around)),
      roost_places(positions_of(roosts)),
      neighbours_seen(positions_of(around.neighbours_seen)),
      crossings(around.crossings) {
    if (!around.allowed_area.empty()) {
        const geo::Shape area{{}, {}, around.allowed_area};
        allowed_area.emplace(std::span(&area, 1));
    }
    avoid.reserve(around.avoid.size());
    for (const AvoidLayer& layer : around.avoid)
        avoid.emplace_back(layer.shapes);
    if (around.roads.given()) roads.emplace(around.roads.shapes);
}

Context::Context(const Inventory& inventory, const Surroundings& surroundings, const Places& found,
                 const Limits& limits, std::shared_ptr<const canopy::GapMap> known_gaps)
    : columns(inventory.columns),
      around(surroundings),
      places(found),
      settings(limits.settings),
      avoid_within(limits.avoid_within),
      other_boxes(boxes_of(settings.keep_from.animals, around.boxes.rows)),
      other_places(positions_of(other_boxes)),
      gaps(std::move(known_gaps)),
      conditions(listed(settings.conditions)),
      last_day_of_works(years_from(around.today, settings.work_years)),
      first_inspection(years_from(around.today, -settings.inspection_years)) {
    if (around.lamps.given()) lamps.emplace(around.lamps.rows, around.canopy_height, settings);
    if (around.canopy_height && !gaps)
        gaps =
            std::make_shared<const canopy::GapMap>(canopy::find_gaps(*around.canopy_height, settings.gaps));
}

core::Metres crown_of(const Tree& tree, const Settings& settings) {
    return tree.crown_radius.value_or(settings.unknown_crown_radius);
}

struct Judge::Known {
    const Inventory& inventory;
    const Surroundings& around;
    Limits limits;
    Places places;
    Context context;

    Known(const Inventory& trees, const Surroundings& surroundings, const Settings& settings)
        : inventory(trees),
          around(surroundings),
          limits{settings, widths_of(surroundings.avoid)},
          places(surroundings),
          context(trees, surroundings, places, limits, nullptr) {}
};

Judge::Judge(const Inventory& inventory, const Surroundings& surroundings, const Settings& settings)
    : known_(std::make_unique<const Known>(inventory, surroundings, settings)) {}
Judge::~Judge() = default;

const Limits& Judge::limits() const {
    return known_->limits;
}

std::vector<Verdict> Judge::verdicts(core::Threads threads) const {
    std::vector<Verdict> verdicts(known_->inventory.rows.size());
    core::parallel_for(verdicts.size(), 512, threads, [&](std::size_t begin, std::size_t end) {
        std::vector<Reason> reasons;
        for (std::size_t i = begin; i < end; ++i)
            verdicts[i] = judged(known_->inventory.rows[i], known_->context, reasons);
    });
    return verdicts;
}

std::vector<State> Judge::states(std::span<const std::size_t> trees, const Limits& limits) const {
    const bool same_gaps = limits.settings.gaps == known_->limits.settings.gaps;
    const Context context(known_->inventory, known_->around, known_->places, limits,
                          same_gaps ? known_->context.gaps : nullptr);
    std::vector<State> states;
    states.reserve(trees.size());
    std::vector<Reason> reasons;
    for (const std::size_t tree : trees) {
        static_cast<void>(look_at(known_->inventory.rows[tree], context, reasons));
        states.push_back(gravest(reasons));
    }
    return states;
}

std::vector<Verdict> judge(const Inventory& inventory, const Surroundings& surroundings,
                           const Settings& settings, core::Threads threads) {
    return Judge(inventory, surroundings, settings).verdicts(threads);
}

}  // namespace roostward::trees
