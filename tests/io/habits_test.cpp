// Small files as other people write them, and what must be read from each: tests/io/habits.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <toml++/toml.h>
#include <cmath>
#include <functional>
#include <map>
#include <sstream>

#include "io/reading_site.hpp"
#include "roostward/io/site_file.hpp"

namespace roostward::io {
namespace {

namespace fs = std::filesystem;

const fs::path habits = fs::path(ROOSTWARD_SOURCE_DIR) / "tests/io/habits";

struct Case {
    std::string name, file, layer, inputs, site, stops;
    std::size_t used = 0, set_aside = 0;
    std::vector<std::string> findings, values;

    friend void PrintTo(const Case& shown, std::ostream* out) { *out << shown.name; }
};

std::vector<std::string> list_in(const toml::table& table, const char* key) {
    std::vector<std::string> list;
    if (const toml::array* array = table[key].as_array())
        for (const toml::node& node : *array)
            list.push_back(*node.value<std::string>());
    return list;
}

std::vector<Case> cases() {
    std::vector<Case> all;
    const toml::table file = toml::parse_file((habits / "cases.toml").string());
    for (const toml::node& node : *file["case"].as_array()) {
        const toml::table& table = *node.as_table();
        const auto text = [&](const char* key) { return table[key].value_or(std::string()); };
        all.push_back({text("name"), text("file"), text("layer"), text("inputs"), text("site"), text("stops"),
                       table["used"].value_or(std::size_t{0}), table["set_aside"].value_or(std::size_t{0}),
                       list_in(table, "findings"), list_in(table, "values")});
    }
    return all;
}

std::string text_of(double value) {
    return fmt::format("{:.6g}", value);
}
std::string text_of(bool value) {
    return value ? "yes" : "no";
}
std::string text_of(core::Instant instant) {
    return core::to_text(instant);
}
template <class Unit>
auto text_of(Unit unit) -> decltype(fmt::format("{:.6g}", unit.value())) {
    return fmt::format("{:.6g}", unit.value());
}
template <class Value>
std::string text_of(const std::optional<Value>& value) {
    return value ? text_of(*value) : "-";
}

using Told = std::map<std::string, std::string>;  ///< "7 dbh_cm" → "40"

Told told(const std::vector<trees::Tree>& rows) {
    constexpr std::array conditions{"good", "fair", "poor", "dead"};
    Told all;
    for (const trees::Tree& tree : rows) {
        all[tree.id + " dbh_cm"] = text_of(tree.dbh);
        all[tree.id + " height_m"] = text_of(tree.height);
        all[tree.id + " condition"] =
            tree.condition ? conditions.at(static_cast<std::size_t>(*tree.condition)) : "-";
        all[tree.id + " has_hollow"] = text_of(tree.has_hollow);
        all[tree.id + " species"] = tree.species;
        all[tree.id + " inspected"] = tree.inspected ? core::to_text(*tree.inspected) : "-";
    }
    return all;
}

Told told(const std::vector<survey::Pass>& rows) {
    constexpr std::array places{"animal", "animal", "observer",
                                "recorder"};  // the first where it is not told
    constexpr std::array behaviours{"unknown", "commuting", "foraging", "emerging", "returning", "social"};
    Told all;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const survey::Pass& pass = rows[i];
        const std::string row = std::to_string(i) + " ";
        all[row + "time"] = text_of(pass.time);
        all[row + "bearing_deg"] = text_of(pass.bearing);
        all[row + "height_m"] = text_of(pass.height);
        all[row + "count"] = text_of(pass.count);
        all[row + "accuracy_m"] = text_of(pass.accuracy);
        all[row + "watch"] = pass.watch;
        all[row + "place_of"] = places.at(static_cast<std::size_t>(pass.place_of));
        all[row + "behaviour"] = behaviours.at(static_cast<std::size_t>(pass.behaviour));
    }
    return all;
}

Told told(const std::vector<survey::Watch>& rows) {
    Told all;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const survey::Watch& watch = rows[i];
        const std::string row = std::to_string(i) + " ";
        all[row + "start"] = text_of(watch.start);
        all[row + "end"] = text_of(watch.end);
        all[row + "range_m"] = text_of(watch.range);
        all[row + "look_deg"] = watch.view ? text_of(watch.view->look) : "-";
        all[row + "view_deg"] = watch.view ? text_of(watch.view->width) : "-";
        all[row + "temp_c"] = text_of(watch.temperature);
        all[row + "wind_ms"] = text_of(watch.wind);
        all[row + "rain"] = text_of(watch.rain);
    }
    return all;
}

Told told(const siting::Inputs& inputs, const std::string& layer) {
    if (layer == "trees") return told(inputs.trees.rows);
    if (layer == "passes") return told(inputs.passes.rows);
    return told(inputs.watches.rows);
}

/// Equal, numbers to one in a thousand and bearings in the plane to two degrees of the meridian's
/// convergence.
bool alike(const std::string& found, const std::string& expected, bool bearing) {
    if (found == expected) return true;
    char* end_found = nullptr;
    char* end_expected = nullptr;
    const double a = std::strtod(found.c_str(), &end_found), b = std::strtod(expected.c_str(), &end_expected);
    if (found.empty() || expected.empty() || *end_found != '\0' || *end_expected != '\0') return false;
    return bearing ? std::abs(std::remainder(a - b, 360.0)) <= 2.0 : std::abs(a - b) <= 1e-3 * std::abs(b);
}

/// C4 is a square of 25 m: 0.00036648° of longitude at 52.298° N and 0.00022469° of latitude (WGS 84: a
/// degree is 68,217 m and 111,264 m there).
constexpr const char* squares =
    R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"square":"C4"},"geometry":{"type":)"
    R"("Polygon","coordinates":[[[-1.8957,52.298],[-1.89533352,52.298],[-1.89533352,52.29822469],)"
    R"([-1.8957,52.29822469],[-1.8957,52.298]]]}}]})";

/// The case's own layer in a site whose other layers are plain.
std::string site_of(const Case& the) {
    std::string site =
        "[site]\nname = \"Invented\"\ntimezone = \"Europe/London\"\nanimal = "
        "\"small-crevice-bat\"\n[inputs]\n";
    if (the.layer != "passes") site += "passes = \"plain_passes.csv\"\n";
    if (the.layer != "watches") site += "watches = \"plain_watches.csv\"\n";
    if (!the.inputs.empty()) site += the.inputs + "\n";
    return site + fmt::format("[inputs.{}]\nfile = \"{}\"\n{}\n", the.layer, the.file, the.site);
}

std::vector<std::string> kinds_in(const core::Findings& findings, const std::string& layer) {
    std::vector<std::string> kinds;
    for (const core::Finding& finding : findings)
        if (finding.place.layer == layer) kinds.push_back(finding.kind);
    std::ranges::sort(kinds);
    kinds.erase(std::unique(kinds.begin(), kinds.end()), kinds.end());
    return kinds;
}

class Habit : public ::testing::TestWithParam<Case> {
 protected:
    Habit() {
        const Case& the = GetParam();
        fs::copy_file(habits / "files" / the.file, folder_ / the.file);
        testing::put_text(folder_ / "plain_passes.csv",
                          "time,lon,lat\n2026-06-09T21:36:16,-1.8956,52.2982\n");
        testing::put_text(
            folder_ / "plain_watches.csv",
            "watch,lon,lat,date,start,end,farthest_seen_m\navenue,-1.8963,52.2979,2026-06-09,21:30,"
            "22:50,70\n");
        testing::put_text(folder_ / "plain_trees.csv", "tree,lon,lat\nT1,-1.8957,52.2981\n");
        testing::put_text(
            folder_ / "plain_routes.geojson",
            R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"name":"brook"},)"
            R"("geometry":{"type":"LineString","coordinates":[[-1.8946,52.29],[-1.8946,52.31]]}}]})");
        testing::put_text(folder_ / "plain_squares.geojson", squares);
        testing::put_text(folder_ / "site.toml", site_of(the));
    }
    siting::Inputs read() {
        return read_inputs(read_site_file((folder_ / "site.toml").string(), {}), {1}, findings_);
    }
    testing::ScratchFolder folder_;
    core::Findings findings_;
};

TEST_P(Habit, IsReadForWhatItIs) {
    const Case& the = GetParam();
    SCOPED_TRACE(the.name);
    if (!the.stops.empty()) {
        try {
            (void)read();
            ADD_FAILURE() << "reading did not stop";
        } catch (const core::Error& error) {
            EXPECT_NE(std::string(error.what()).find(the.stops), std::string::npos) << error.what();
        }
        return;
    }
    const siting::Inputs inputs = read();
    testing::expect_nothing_lost(inputs, findings_);
    const auto count = std::ranges::find(inputs.counts, the.layer, &core::RowCount::layer);
    ASSERT_NE(count, inputs.counts.end());
    EXPECT_EQ(count->used, the.used);
    EXPECT_EQ(count->set_aside + count->apart, the.set_aside);
    EXPECT_EQ(kinds_in(findings_, the.layer), the.findings);
    const Told values = told(inputs, the.layer);
    for (const std::string& wanted : the.values) {
        const std::size_t field = wanted.find(' ') + 1, value = wanted.find(' ', field) + 1;
        const std::string key = wanted.substr(0, value - 1);
        ASSERT_TRUE(values.contains(key)) << key;
        EXPECT_TRUE(alike(values.at(key), wanted.substr(value),
                          key.ends_with("bearing_deg") || key.ends_with("look_deg")))
            << wanted << ", but read " << values.at(key);
    }
}

INSTANTIATE_TEST_SUITE_P(OfOtherPeople, Habit, ::testing::ValuesIn(cases()), [](const auto& about) {
    std::string name = about.param.file;
    std::ranges::replace_if(
        name, [](char c) { return c == '.' || c == '-'; }, '_');
    return name;
});

}  // namespace
}  // namespace roostward::io
