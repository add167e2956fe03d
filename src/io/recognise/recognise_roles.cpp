#include "recognise/recognise_roles.hpp"

#include <algorithm>
#include <array>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "recognise/recognise_fields.hpp"
#include "recognise/recognise_words.hpp"
#include "roostward/core/catalogue.hpp"
#include "site/site_file_inputs.hpp"

namespace roostward::io {

namespace {

struct FieldWeight {
    std::string_view role, field;
    double weight;
};
/// How much a field speaks for its layer. Judgement, no source.
constexpr std::array<FieldWeight, 26> field_weights = {{
    {"trees", "dbh_cm", 4},
    {"trees", "species", 3},
    {"trees", "condition", 2},
    {"trees", "height_m", 2},
    {"trees", "crown_radius_m", 2},
    {"trees", "tree", 1},
    {"passes", "bearing_deg", 4},
    {"passes", "time", 2},
    {"passes", "behaviour", 3},
    {"passes", "count", 1},
    {"passes", "watch", 1},
    {"passes", "animal", 1},
    {"passes", "place_of", 3},
    {"passes", "date", 1},
    {"watches", "start", 3},
    {"watches", "end", 3},
    {"watches", "farthest_seen_m", 4},
    {"watches", "observer", 1},
    {"watches", "date", 1},
    {"watches", "watch", 1},
    {"lamps", "lumens", 5},
    {"boxes", "hung", 3},
    {"boxes", "box", 3},
    {"tallies", "along", 7},
    {"tallies", "count", 2},
    {"roosts", "count", 1},
}};

/// Columns of public map data, by what their values say.
struct MapTag {
    std::string_view column, value, role;  ///< any value where empty
};
constexpr std::array<MapTag, 9> map_tags = {{{"highway", "streetlamp", "lamps"},
                                             {"natural", "tree", "trees"},
                                             {"natural", "water", "water"},
                                             {"power", "", "avoid"},
                                             {"highway", "", "roads"},
                                             {"waterway", "", "water"},
                                             {"fclass", "residential", "roads"},
                                             {"leisure", "park", "allowed_area"},
                                             {"leisure", "", "allowed_area"}}};

bool may_be(std::string_view role, const LayerSample& sample) {
    const auto one_of = [&](std::initializer_list<std::string_view> roles) {
        return std::ranges::find(roles, role) != roles.end();
    };
    if (sample.polygons > 0) return one_of({"allowed_area", "water", "roads", "avoid", "squares"});
    if (sample.lines > 0) return one_of({"roads", "water", "avoid", "tracks", "routes"});
    if (sample.points > 0) return one_of({"trees", "passes", "watches", "lamps", "roosts", "boxes"});
    return one_of({"trees", "passes", "watches", "lamps", "roosts", "boxes", "tallies"});
}

std::string_view tagged_role(const LayerSample& sample) {
    for (const MapTag& tag : map_tags)
        for (const ColumnSample& column : sample.columns) {
            if (column.parts.joined != tag.column || column.filled * 2 < sample.rows) continue;
            const auto says = [&](const auto& value) { return taken_apart(value.first).joined == tag.value; };
            if (may_be(tag.role, sample) && (tag.value.empty() || std::ranges::any_of(column.values, says)))
                return tag.role;
        }
    return {};
}

double weight_of_fields(const LayerSample& sample, std::string_view role, std::vector<std::string>& told) {
    double weight = 0.0;
    for (const FieldGuess& guess : fields_of(sample, role, std::nullopt).fields)
        for (const FieldWeight& known : field_weights)
            if (known.role == role && known.field == guess.field) {
                weight += known.weight;
                told.push_back(guess.source.column);
            }
    return weight;
}

int weight_of_name(const InputSource& source, const LayerWords& words) {
    const ColumnName name =
        taken_apart(std::filesystem::path(source.file).stem().string() + " " + source.layer);
    int best = 0;
    for (const ListedWord& word : words.names)
        best = std::max(best, match(name, word));
    return best;
}

struct Scored {
    std::string_view role;
    double weight = 0.0;
    bool named = false;
    std::vector<std::string> columns;
};

constexpr double name_weight = 4.0;

/// The longest word of the file's name counts a little more.
Scored scored(const LayerSample& sample, const LayerWords& words) {
    LayerSample as = sample;
    as.source.role = std::string(words.role);
    Scored score{words.role, 0.0, false, {}};
    const int name = weight_of_name(sample.source, words);
    score.named = name > 0;
    if (score.named) score.weight = name_weight + (name % 100) * 0.05 + (name >= 500 ? 0.5 : 0.0);
    score.weight += weight_of_fields(as, words.role, score.columns);
    if (tagged_role(sample) == words.role) {
        score.weight += 5.0;
        score.columns.emplace_back(words.role);
    }
    return score;
}

std::string evidence(const Scored& best, const Scored* second) {
    std::string text =
        best.named
            ? core::said("role.named")
            : core::said("role.columns", {{"columns", fmt::format("{}", fmt::join(best.columns, ", "))}});
    if (second == nullptr) return text;
    return core::said("role.could_also_be", {{"evidence", text}, {"role", second->role}});
}

bool is_known_input(std::string_view role) {
    const std::vector<std::string_view> roles = input_roles();
    return role == "avoid" || std::ranges::find(roles, role) != roles.end();
}

}  // namespace

RoleGuess role_of(const LayerSample& sample) {
    constexpr double enough = 4.0, clear = 2.0, plain = 8.0;
    std::vector<Scored> scores;
    for (const LayerWords& words : layer_words())
        if (may_be(words.role, sample)) scores.push_back(scored(sample, words));
    std::ranges::stable_sort(scores, std::ranges::greater(), &Scored::weight);
    if (scores.empty() || scores.front().weight < enough) return {"", 0.0, "", core::said("role.not_told")};
    const Scored& best = scores.front();
    if (!is_known_input(best.role)) return {"", 0.0, "", core::said("role.not_taken", {{"role", best.role}})};
    const bool close =
        scores.size() > 1 && scores[1].weight > best.weight - clear && scores[1].weight >= enough;
    const bool shapes_alone = sample.lines + sample.polygons > 0;
    const bool by_columns = best.weight - (best.named ? name_weight : 0.0) >= plain;
    const bool agreed = !close && (by_columns || (best.named && (shapes_alone || best.weight >= plain)));
    return {std::string(best.role), best.weight, agreed ? "" : evidence(best, close ? &scores[1] : nullptr),
            ""};
}

}  // namespace roostward::io
