#include "roostward/io/box_profiles.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <tuple>

#include "roostward/core/error.hpp"

namespace roostward::io {
namespace {

const char* const finch = R"([profile.finch]
name = "Finches"
mount_height_m = { min = 3, typical = 4.5, max = 8, status = "common practice", source = "" }
entrance_mm = { kind = "hole", min = 28, status = "published", source = "a leaflet" }
clear_approach_m = { value = 3, status = "common practice", source = "" }
clear_drop_m = { value = 0, status = "common practice", source = "" }
spacing_m = { min = 20, status = "from memory", source = "" }
facing_north = { from_deg = 315, to_deg = 45, status = "common practice", source = "" }
facing_south = { from_deg = 135, to_deg = 225, status = "common practice", source = "" }
min_dbh_cm = { value = 20, status = "common practice", source = "" }
min_height_m = { value = 7.5, status = "common practice", source = "" }
conditions = { values = ["good", "poor"], status = "common practice", source = "" }
watch_end_min_after_sunset = { value = 30, status = "from memory", source = "" }
avoid_species = { values = ["plane"], status = "common practice", source = "" }
keep_from = { animals = ["cat"], within_m = 40, status = "common practice", source = "" }
utility.sun_h = { points = [[0, 0.5], [3, 1], [9, 0]], status = "published", source = "a leaflet" }
animals = { counted = ["finch"], left_out = ["bullfinch"], status = "published", source = "a field guide" }
note = "An invented profile."
)";

std::string with(const std::string& from, const std::string& to) {
    std::string text = finch;
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
}

/// What is said about a profile with one piece of its text replaced.
std::string complaint(const std::string& from, const std::string& to) {
    try {
        (void)parse_box_profiles(with(from, to), "mine.toml");
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), core::Fault::site_file);
        return error.what();
    }
    ADD_FAILURE() << to << " was taken";
    return {};
}

TEST(BoxProfiles, ReadsEveryEntry) {
    const std::vector<siting::Profile> profiles = parse_box_profiles(finch, "mine.toml");
    ASSERT_EQ(profiles.size(), 1U);
    const siting::Profile& profile = profiles[0];
    EXPECT_EQ(profile.id, "finch");
    EXPECT_EQ(profile.name, "Finches");
    EXPECT_EQ(profile.mount_height.value.typical, core::Metres(4.5));
    EXPECT_EQ(profile.entrance_kind, "hole");
    EXPECT_EQ(profile.entrance_mm.value.min, 28.0);
    EXPECT_TRUE(std::isinf(profile.entrance_mm.value.max));
    EXPECT_EQ(profile.entrance_mm.provenance.status, siting::Status::published);
    EXPECT_EQ(profile.entrance_mm.provenance.source, "a leaflet");
    EXPECT_EQ(profile.spacing_m.provenance.status, siting::Status::from_memory);
    EXPECT_EQ(profile.facing_north.value.from, core::Degrees(315));
    EXPECT_EQ(profile.min_dbh.value, core::Centimetres(20));
    EXPECT_EQ(profile.conditions.value, (std::vector{trees::Condition::good, trees::Condition::poor}));
    EXPECT_EQ(profile.avoid_species.value, std::vector<std::string>{"plane"});
    EXPECT_EQ(profile.keep_from.value.animals, std::vector<std::string>{"cat"});
    EXPECT_EQ(profile.keep_from.value.within, core::Metres(40));
    EXPECT_EQ(profile.counted_animals.value, std::vector<std::string>{"finch"});
    EXPECT_EQ(profile.left_out_animals.value, std::vector<std::string>{"bullfinch"});
    EXPECT_EQ(profile.left_out_animals.provenance.source, "a field guide");
    ASSERT_TRUE(profile.utilities.sun);
    EXPECT_EQ(profile.utilities.sun->value.at(3), 1.0);
    EXPECT_EQ(profile.utilities.sun->value.at(6), 0.5);
    EXPECT_EQ(profile.utilities.sun->provenance.source, "a leaflet");
    EXPECT_FALSE(profile.utilities.approach || profile.utilities.road) << "left out";
    EXPECT_EQ(profile.note, "An invented profile.");
}

TEST(BoxProfiles, MayTellWhenTheFirstFly) {
    EXPECT_FALSE(parse_box_profiles(finch, "mine.toml")[0].first_flight);
    const std::string told = with("note =",
                                  "first_flight_min_after_sunset = { value = 20, status = "
                                  "\"published\", source = \"a leaflet\" }\nnote =");
    const auto profiles = parse_box_profiles(told, "mine.toml");
    ASSERT_TRUE(profiles[0].first_flight);
    EXPECT_EQ(profiles[0].first_flight->value, std::chrono::minutes(20));
    EXPECT_EQ(profiles[0].first_flight->provenance.source, "a leaflet");
}

TEST(BoxProfiles, SaysWhatIsWrongAndWhere) {
    const auto expect = [](const std::string& from, const std::string& to, const std::string& line,
                           const std::string& words) {
        const std::string said = complaint(from, to);
        EXPECT_NE(said.find("mine.toml, row " + line), std::string::npos) << said;
        EXPECT_NE(said.find(words), std::string::npos) << said;
    };
    expect("max = 8", "max = 4", "3", "must not fall");
    expect("[3, 1], [9, 0]", "[3, 1], [3, 0]", "16", "must rise");
    expect("[3, 1]", "[3, 1.1]", "16", "from 0 to 1");
    expect("[3, 1]", "[3]", "16", "pairs of numbers");
    expect("utility.sun_h", "utility.moon_h", "16", "sun_h");
    expect("kind = \"hole\"", "kind = \"door\"", "4", "\"slot\", \"hole\" or \"rectangle\"");
    expect("source = \"a leaflet\"", "source = \"\"", "4", "needs its source");
    expect("min_dbh_cm", "min_dhb_cm", "10", "profile.finch.min_dbh_cm");
    expect("value = 7.5", "value = \"high\"", "11", "a number from 0 to 1000");
    expect("\"poor\"", "\"rotten\"", "12", "\"good\", \"fair\", \"poor\" or \"dead\"");
    expect("status = \"from memory\", source = \"\" }\nfacing", "status = \"guessed\" }\nfacing", "7",
           "\"from memory\"");
    expect("from_deg = 315", "from_deg = 400", "8", "a number from 0 to 360");
    expect("note = \"An invented profile.\"", "note = [", "", "not TOML");
    expect("name = \"Finches\"\n", "", "1", "profile.finch.name: it is missing");
}

// Common practice, no source, but for what the file itself marks as published.
TEST(BoxProfiles, TheProgramsOwnAreThoseOfTheTrade) {
    const std::vector<siting::Profile> profiles = parse_box_profiles(box_profiles_text, "box-profiles.toml");
    EXPECT_EQ(profiles.size(), 10U);
    const std::map<std::string, std::tuple<double, double, double, double>> table{
        // id: typical height m, smallest entrance mm, clear approach m, smallest trunk cm
        {"small-crevice-bat", {4.5, 12, 3, 25}},
        {"larger-hollow-bat", {5.5, 18, 6, 35}},
        {"pygmy-possum-feathertail", {3, 20, 0, 20}},
        {"sugar-squirrel-glider", {4.5, 40, 5, 30}},
        {"greater-glider", {12, 150, 8, 60}},
        {"ringtail-brushtail-possum", {4.5, 100, 1, 40}},
        {"small-parrot", {5, 45, 3, 30}},
        {"medium-parrot", {6, 70, 4, 40}},
        {"small-owl", {5, 76, 5, 40}},
        {"barn-owl", {6, 150, 10, 60}}};
    for (const siting::Profile& profile : profiles) {
        ASSERT_TRUE(table.contains(profile.id)) << profile.id;
        EXPECT_EQ(std::tuple(profile.mount_height.value.typical.value(), profile.entrance_mm.value.min,
                             profile.clear_approach.value.value(), profile.min_dbh.value.value()),
                  table.at(profile.id))
            << profile.id;
        // A tree is at least 3 m higher than its box: common practice, no source.
        EXPECT_EQ(profile.min_height.value, profile.mount_height.value.typical + core::Metres(3))
            << profile.id;
    }
}

}  // namespace
}  // namespace roostward::io
