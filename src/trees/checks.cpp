#include <algorithm>
#include <array>
#include <span>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/folding.hpp"
#include "roostward/trees/suitability.hpp"
#include "wording.hpp"

namespace roostward::trees {

namespace {

/// Kinds of feature that a layer to keep away from can stand for, with the words that tell so in its reason
/// or its file's name. Whole words, in the order in which they are looked for: "street lamps" are lamps, not
/// streets.
struct Kind {
    std::string_view matter;
    std::string_view file;  ///< an example of what to give
    std::array<std::string_view, 12> words;
};
constexpr Kind lamps{
    "lamps",
    "lamps.geojson",
    {"lamp", "light", "lighting", "lantern", "luminaire", "streetlamp", "streetlight", "floodlight"}};
constexpr Kind power_lines{
    "power lines",
    "power_lines.geojson",
    {"power", "powerline", "overhead", "cable", "electric", "electricity", "pylon", "conductor"}};
constexpr Kind roads{
    "roads", "roads.geojson", {"road", "roadway", "carriageway", "street", "highway", "motorway", "traffic"}};
constexpr std::array kinds{lamps, power_lines, roads};

/// The kind that a layer stands for; empty where no word tells. The folders above a file tell nothing.
std::string_view matter_of(const AvoidLayer& layer) {
    const std::vector<std::string> told =
        core::plain_words(layer.reason + " " + layer.file.substr(layer.file.find_last_of("/\\") + 1));
    for (const Kind& kind : kinds)
        for (const std::string& word : told)
            if (std::find(kind.words.begin(), kind.words.end(), word) != kind.words.end()) return kind.matter;
    return {};
}

std::string holds_nothing(const std::string& file) {
    return core::said("check.holds_nothing", {{"file", file}});
}

Check by_distance(const Kind& kind, std::span<const AvoidLayer> layers) {
    Check check{std::string(kind.matter), false, core::said("check.give_layer", {{"file", kind.file}})};
    std::string files;
    for (const AvoidLayer& layer : layers) {
        if (matter_of(layer) != kind.matter) continue;
        if (layer.shapes.empty() && !check.checked) check.how = holds_nothing(layer.file);
        if (layer.shapes.empty()) continue;
        files += (files.empty() ? "" : ", ") + layer.file;
        check.checked = true;
    }
    if (check.checked) check.how = core::said("check.distance_to", {{"file", files}});
    return check;
}

struct Field {
    TreeField field;
    std::string_view name;
};

/// Checked where the inventory has any of the columns.
Check by_column(std::string_view matter, const Inventory& inventory, std::span<const Field> fields) {
    std::string present;
    std::vector<std::string> all;
    for (const Field& field : fields) {
        all.emplace_back(field.name);
        if (inventory.columns.has(field.field)) present += (present.empty() ? "" : ", ") + all.back();
    }
    if (present.empty())
        return {std::string(matter), false, core::said("check.give_field", {{"fields", core::one_of(all)}})};
    return {std::string(matter), true,
            core::said("check.fields_of", {{"fields", present}, {"file", inventory.file}})};
}

/// A layer of its own, else features to avoid. `how`: the key of what tells how it was looked at.
Check by_layer(const Kind& kind, const std::string& file, bool empty, std::string_view how,
               std::span<const AvoidLayer> avoid) {
    if (file.empty()) return by_distance(kind, avoid);
    if (empty) return {std::string(kind.matter), false, holds_nothing(file)};
    return {std::string(kind.matter), true, core::said(how, {{"file", file}})};
}

/// Known roosts. Animals seen on the way show some roosts, never that there are no others.
Check by_roosts(const Surroundings& around) {
    const auto& roosts = around.roosts;
    const std::string& file = around.known_roosts.file;
    if (!around.known_roosts.rows.empty())
        return {"roosts", true, core::said("check.those_of", {{"file", file}})};
    if (around.known_roosts.given()) return {"roosts", false, holds_nothing(file)};
    if (roosts.empty()) return {"roosts", false, core::said("check.give_roosts")};
    if (roosts.size() == 1) return {"roosts", false, core::said("check.one_sighting")};
    return {"roosts", false, core::said("check.sightings", {{"count", roosts.size()}})};
}

}  // namespace

std::vector<Check> what_was_checked(const Inventory& inventory, const Surroundings& surroundings) {
    constexpr std::array trunks{Field{TreeField::dbh, "dbh_cm"}};
    constexpr std::array heights{Field{TreeField::height, "height_m"}};
    constexpr std::array conditions{Field{TreeField::condition, "condition"}};
    constexpr std::array works{Field{TreeField::planned_work, "planned_work"},
                               Field{TreeField::work_due, "work_due"}};
    constexpr std::array protection{Field{TreeField::protected_tree, "protected"}};
    constexpr std::array hollows{Field{TreeField::has_hollow, "has_hollow"}};
    constexpr std::array ownership{Field{TreeField::owner, "owner"},
                                   Field{TreeField::permission, "permission"}};
    return {by_distance(power_lines, surroundings.avoid),
            by_column("planned works", inventory, works),
            by_layer(roads, surroundings.roads.file, surroundings.roads.shapes.empty(), "check.distance_to",
                     surroundings.avoid),
            by_layer(lamps, surroundings.lamps.file, surroundings.lamps.rows.empty(),
                     "check.light_and_distance", surroundings.avoid),
            by_column("protected trees", inventory, protection),
            by_column("hollows", inventory, hollows),
            by_roosts(surroundings),
            by_column("ownership", inventory, ownership),
            by_column("trunk diameters", inventory, trunks),
            by_column("tree heights", inventory, heights),
            by_column("tree conditions", inventory, conditions)};
}

}  // namespace roostward::trees
