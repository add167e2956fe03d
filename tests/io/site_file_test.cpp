#include "roostward/io/site_file.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "io/scratch_folder.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {
namespace {

using testing::put_text;
using testing::ScratchFolder;

const std::string shortest = R"([site]
name = "Alder Reach Park"
animal = "small-crevice-bat"
[inputs]
passes = "passes.csv"
)";

SiteFile read(const std::string& text, const std::vector<Override>& overrides = {}) {
    const ScratchFolder scratch;
    put_text(scratch / "site.toml", text);
    return read_site_file((scratch / "site.toml").string(), overrides);
}

/// The error that a site file gives.
core::Error refusal(const std::string& text, const std::vector<Override>& overrides = {}) {
    try {
        (void)read(text, overrides);
    } catch (const core::Error& error) {
        return error;
    }
    ADD_FAILURE() << "taken:\n" << text;
    return {core::Fault::internal, {}, ""};
}

bool says(const core::Error& error, const std::string& words) {
    return std::string(error.what()).find(words) != std::string::npos;
}

const siting::Parameter& parameter(const SiteFile& site, const std::string& key) {
    const auto found = std::ranges::find(site.settings.parameters, key, &siting::Parameter::key);
    if (found == site.settings.parameters.end()) throw core::Error(core::Fault::internal, {}, key);
    return *found;
}

// Common practice, no source, but for what carries one below.
TEST(SiteFile, GivesDefaultsWithTheirStatus) {
    const SiteFile site = read(shortest);
    EXPECT_EQ(site.settings.site_name, "Alder Reach Park");
    EXPECT_EQ(site.crs, "auto");
    EXPECT_EQ(site.timezone, "");
    EXPECT_EQ(site.max_bad_share, 0.1);
    EXPECT_EQ(site.settings.profile.id, "small-crevice-bat");
    EXPECT_TRUE(std::holds_alternative<activity::ByEvenings>(site.settings.activity.bandwidth));
    EXPECT_EQ(site.settings.activity.min_watch, core::Hours(0.25));
    EXPECT_TRUE(std::holds_alternative<activity::ByEvenings>(site.settings.activity.shrink));
    EXPECT_FALSE(site.settings.survey.seen_length);
    EXPECT_FALSE(site.settings.survey.keep_poor_weather);
    EXPECT_EQ(site.settings.suitability.min_dbh, core::Centimetres(25));
    EXPECT_EQ(site.settings.suitability.min_height, core::Metres(7.5));
    EXPECT_EQ(site.settings.suitability.conditions,
              (std::vector{trees::Condition::good, trees::Condition::fair}));
    EXPECT_EQ(site.settings.choice.sites, 6U);
    EXPECT_EQ(site.settings.choice.spacing, core::Metres(30));
    EXPECT_EQ(parameter(site, "suitability.min_dbh_cm").set_by, "box profile");
    EXPECT_EQ(parameter(site, "choose.sites").set_by, "default");
    EXPECT_EQ(parameter(site, "suitability.gap_height_m").provenance.status, siting::Status::published);
    EXPECT_EQ(parameter(site, "suitability.gap_height_m").provenance.source, "Brokaw 1982, Biotropica 14");
    EXPECT_EQ(parameter(site, "activity.poor_weather").provenance.status, siting::Status::from_memory);
}

TEST(SiteFile, TakesTheBoxTheClimateAndTheWeights) {
    const SiteFile plain = read(shortest);
    EXPECT_TRUE(plain.settings.box.heats_up()) << "thin unless told otherwise";
    EXPECT_FALSE(plain.settings.box.slot || plain.settings.climate.hottest_month);
    EXPECT_EQ(plain.settings.weights.fitness_share, 0.4);
    EXPECT_EQ(plain.settings.suitability.light.lux_doubtful, trees::Lux(0.1));
    EXPECT_EQ(parameter(plain, "suitability.lamp_doubtful_m").provenance.source, "Azam et al. 2018");
    EXPECT_EQ(parameter(plain, "suitability.keep_from_m").set_by, "box profile");
    EXPECT_EQ(core::to_json(parameter(plain, "profile.small-crevice-bat.utility.approach_m").value),
              "[[0,0],[3,1]]");

    const SiteFile site = read(R"([site]
name = "Alder Reach Park"
animal = "small-crevice-bat"
hottest_month_c = 31
looked_after_by = "Friends of the Park"
[inputs]
passes = "passes.csv"
roads = "roads.geojson"
boxes = "boxes.csv"
[box]
made_of = "old drain pipe, plastic"
wall = "insulated"
colour = "dark"
slot_mm = 14
[weights]
fitness_share = 0.25
sun = 0
[suitability]
lux_never = 2
road_m = 12
keep_from = ["owl"]
)");
    EXPECT_TRUE(site.settings.box.plastic());
    EXPECT_EQ(site.settings.box.wall, siting::Wall::insulated);
    EXPECT_EQ(site.settings.box.colour, siting::Colour::dark);
    EXPECT_EQ(site.settings.box.slot, core::Millimetres(14));
    EXPECT_TRUE(site.settings.climate.hot());
    EXPECT_EQ(site.settings.looked_after_by, "Friends of the Park");
    EXPECT_EQ(parameter(site, "site.looked_after_by").set_by, "site file");
    EXPECT_TRUE(plain.settings.looked_after_by.empty());
    EXPECT_EQ(site.settings.weights.fitness_share, 0.25);
    EXPECT_EQ(site.settings.weights.sun, 0.0);
    EXPECT_EQ(site.settings.suitability.light.lux_never, trees::Lux(2));
    EXPECT_EQ(site.settings.suitability.roads.near, core::Metres(12));
    EXPECT_EQ(site.settings.suitability.keep_from.animals, std::vector<std::string>{"owl"});
    EXPECT_EQ(site.roads->file, "roads.geojson");
    EXPECT_EQ(site.boxes->role, "boxes");
    EXPECT_TRUE(says(refusal(shortest + "[box]\nwalls = \"thin\"\n"), "box.wall"));
    EXPECT_TRUE(says(refusal(shortest + "[weights]\nfitness_share = 1.5\n"), "from 0 to 1"));
}

TEST(SiteFile, TakesTheRulesOfTheChoice) {
    const siting::ChoiceSettings none = read(shortest).settings.choice;
    EXPECT_TRUE(none.must.empty() && none.never.empty() && none.at_most.empty() && !none.budget);

    const SiteFile site = read(shortest + R"([choose]
must = ["T1", "T2"]
never = ["T3"]
at_most = { field = "owner", count = 2 }
budget = 1200.5
)");
    EXPECT_EQ(site.settings.choice.must, (std::vector<std::string>{"T1", "T2"}));
    EXPECT_EQ(site.settings.choice.never, std::vector<std::string>{"T3"});
    ASSERT_EQ(site.settings.choice.at_most.size(), 1U);
    EXPECT_EQ(site.settings.choice.at_most[0].by, siting::Shared::owner);
    EXPECT_EQ(site.settings.choice.at_most[0].count, 2U);
    EXPECT_EQ(site.settings.choice.budget, 1200.5);
    EXPECT_EQ(core::to_json(parameter(site, "choose.at_most").value), R"([{"field":"owner","count":2}])");

    const SiteFile several = read(shortest + R"([[choose.at_most]]
field = "zone"
count = 1
[[choose.at_most]]
field = "species"
count = 3
)");
    ASSERT_EQ(several.settings.choice.at_most.size(), 2U);
    EXPECT_EQ(several.settings.choice.at_most[0].by, siting::Shared::zone);
    EXPECT_EQ(several.settings.choice.at_most[1].by, siting::Shared::species);
    EXPECT_EQ(several.settings.choice.at_most[1].count, 3U);
}

TEST(SiteFile, SaysWhatIsWrongWithTheRulesOfTheChoice) {
    const auto refused = [](const std::string& line) {
        return refusal(shortest + "[choose]\n" + line + "\n");
    };
    EXPECT_TRUE(says(refused("at_most = { field = \"colour\", count = 2 }"), "\"zone\" or \"condition\""));
    EXPECT_TRUE(says(refused("at_most = { field = \"owner\", cuont = 2 }"), "choose.at_most.count"));
    EXPECT_TRUE(says(refused("at_most = { field = \"owner\" }"), "choose.at_most.count: it is missing"));
    EXPECT_TRUE(says(refused("at_most = { field = \"owner\", count = 0 }"), "from 1 to"));
    EXPECT_TRUE(
        says(refused("at_most = [{ field = \"owner\", count = 1 }, { field = \"owner\", count = 2 }]"),
             "counted twice"));
    EXPECT_TRUE(says(refused("at_most = 2"), "choose.at_most"));
    EXPECT_TRUE(says(refused("must = \"T1\""), "a list of texts"));
    EXPECT_TRUE(says(refused("budget = -1"), "from 0 to"));
    EXPECT_TRUE(says(refused("muts = []"), "choose.must"));
}

TEST(SiteFile, EveryParameterStandsOnceAndHasAMeaning) {
    const SiteFile site = read(shortest);
    std::set<std::string> keys;
    for (const siting::Parameter& parameter : site.settings.parameters) {
        EXPECT_TRUE(keys.insert(parameter.key).second) << parameter.key;
        EXPECT_FALSE(parameter.meaning.empty()) << parameter.key;
        EXPECT_FALSE(parameter.set_by.empty()) << parameter.key;
    }
    EXPECT_EQ(parameter(site, "site.name").set_by, "site file");
    EXPECT_EQ(core::to_json(parameter(site, "activity.coldest_c").value), "10");
}

TEST(SiteFile, TakesWhatItSays) {
    const SiteFile site = read(shortest + R"(max_bad_share = 0
[activity]
bandwidth_m = 7
shrink_hours = 0.4
seen_length_m = 30
cell_m = 2
min_watch_hours = 0.5
poor_weather = "keep"
coldest_c = 8
windiest_ms = 6.5
counted_animals = ["bat", "murciélago"]
other_animals = "keep"
feeding_once_min = 0
[suitability]
min_dbh_cm = 30.5
conditions = ["good"]
avoid_species = ["plane", "ash"]
[choose]
sites = 4
spacing_m = 0
)");
    EXPECT_EQ(site.max_bad_share, 0.0);
    EXPECT_EQ(std::get<core::Metres>(site.settings.activity.bandwidth), core::Metres(7));
    EXPECT_EQ(std::get<core::Hours>(site.settings.activity.shrink), core::Hours(0.4));
    EXPECT_EQ(site.settings.survey.seen_length, core::Metres(30));
    EXPECT_EQ(site.settings.activity.cell, core::Metres(2));
    EXPECT_TRUE(site.settings.survey.keep_poor_weather);
    EXPECT_EQ(site.settings.survey.coldest, core::Celsius(8));
    EXPECT_EQ(site.settings.survey.windiest, core::MetresPerSecond(6.5));
    EXPECT_EQ(site.settings.survey.animals.counted, (std::vector<std::string>{"bat", "murciélago"}));
    EXPECT_TRUE(site.settings.survey.animals.keep_others);
    EXPECT_EQ(site.settings.survey.feeding_once, std::chrono::minutes(0));
    EXPECT_EQ(site.settings.suitability.min_dbh, core::Centimetres(30.5));
    EXPECT_EQ(site.settings.suitability.conditions, std::vector{trees::Condition::good});
    EXPECT_EQ(site.settings.suitability.avoid_species, (std::vector<std::string>{"plane", "ash"}));
    EXPECT_EQ(site.settings.choice.sites, 4U);
    EXPECT_EQ(site.settings.choice.spacing, core::Metres(0));
    EXPECT_EQ(parameter(site, "choose.sites").set_by, "site file");
}

TEST(SiteFile, ReadsInputsInShortAndLongForm) {
    const ScratchFolder scratch;
    std::filesystem::create_directory(scratch / "sub");
    put_text(scratch / "sub" / "site.toml", shortest + R"(canopy = "/data/canopy.tif"
[inputs.trees]
file = "../council.gpkg"
layer = "street_trees"
only = "status = 'standing'"
crs = "EPSG:27700"
date_order = "dmy"
fields = { tree = "asset_no", dbh_cm = { from = "girth_in", unit = "in", girth = true }, condition = { from = "cond", values = { "1" = "good", "2" = "fair" } } }
)");
    const SiteFile site = read_site_file((scratch / "sub" / "site.toml").string(), {});
    ASSERT_TRUE(site.passes && site.trees && site.canopy);
    EXPECT_EQ(site.passes->file, "passes.csv");
    EXPECT_EQ(site.passes->path, (scratch / "sub" / "passes.csv").string());
    EXPECT_EQ(site.passes->role, "passes");
    EXPECT_EQ(site.canopy->path, "/data/canopy.tif");
    EXPECT_EQ(site.trees->path, (scratch / "council.gpkg").string());
    EXPECT_EQ(site.trees->layer, "street_trees");
    EXPECT_EQ(site.trees->only, "status = 'standing'");
    EXPECT_EQ(site.trees->crs, "EPSG:27700");
    EXPECT_EQ(site.trees->date_order, "dmy");
    EXPECT_EQ(site.trees->fields.at("tree").column, "asset_no");
    EXPECT_EQ(site.trees->fields.at("dbh_cm").unit, "in");
    EXPECT_TRUE(site.trees->fields.at("dbh_cm").girth);
    EXPECT_EQ(site.trees->fields.at("condition").values.at("2"), "fair");
    EXPECT_FALSE(site.tracks || site.watches || site.allowed_area);
}

// In whatever order they stand, files are read in that of their names.
TEST(SiteFile, ReadsListsOfFiles) {
    const ScratchFolder scratch;
    put_text(scratch / "site.toml", R"([site]
name = "Park"
animal = "small-crevice-bat"
[inputs]
passes = ["b.csv", "a.csv"]
[inputs.watches]
file = ["w2.csv", "w1.gpx"]
[choose]
sites = 3
)");
    const SiteFile site = read_site_file((scratch / "site.toml").string(), {});
    ASSERT_EQ(site.passes->further.size(), 1U);
    EXPECT_EQ(site.passes->file, "a.csv");
    EXPECT_EQ(site.passes->further[0].file, "b.csv");
    EXPECT_EQ(site.watches->file, "w1.gpx");
    const auto refusal = [&](const std::string& inputs) {
        put_text(scratch / "bad.toml", "[site]\nname = \"Park\"\nanimal = \"small-crevice-bat\"\n[inputs]\n" +
                                           inputs + "\n[choose]\nsites = 3\n");
        try {
            (void)read_site_file((scratch / "bad.toml").string(), {});
        } catch (const core::Error& error) {
            return std::string(error.what());
        }
        return std::string();
    };
    EXPECT_NE(refusal("passes = [\"a.csv\", \"./a.csv\"]").find("stands twice"), std::string::npos);
    EXPECT_NE(refusal("passes = []").find("the list is empty"), std::string::npos);
    EXPECT_NE(refusal("passes = \"a.csv\"\ncanopy = [\"a.tif\", \"b.tif\"]").find("one file"),
              std::string::npos);
}

TEST(SiteFile, ReadsSurfaceAndTerrainInPlaceOfTheCanopy) {
    const SiteFile site = read(shortest + R"(surface = "dsm.tif"
terrain = { file = "dtm.tif", crs = "EPSG:27700" }
)");
    ASSERT_TRUE(site.surface && site.terrain);
    EXPECT_FALSE(site.canopy);
    EXPECT_EQ(site.surface->role, "surface");
    EXPECT_EQ(site.terrain->role, "terrain");
    EXPECT_EQ(site.terrain->crs, "EPSG:27700");
}

TEST(SiteFile, ReadsWhatToAvoid) {
    const SiteFile site = read(shortest + R"([[avoid]]
file = "power_lines.geojson"
within_m = 10
reason = "overhead power line"
[[avoid]]
file = "paths.geojson"
within_m = 4.5
reason = "path"
then = "settle first"
who = "tree officer"
)");
    ASSERT_EQ(site.avoid.size(), 2U);
    EXPECT_EQ(site.avoid[0].source.role, "avoid[0]");
    EXPECT_EQ(site.avoid[0].within, core::Metres(10));
    EXPECT_EQ(site.avoid[0].reason, "overhead power line");
    EXPECT_EQ(site.avoid[0].then, trees::State::ruled_out);
    EXPECT_EQ(site.avoid[1].then, trees::State::settle_first);
    EXPECT_EQ(site.avoid[1].who, "tree officer");
}

struct Wrong {
    std::string text;  // behind the shortest site file, which has five lines
    std::size_t line;
    std::string key;
    std::string words;
};

TEST(SiteFile, SaysKeyLineValueAndWhatIsAllowed) {
    const std::vector<Wrong> cases{
        {"[choose]\nsites = 0", 7, "choose.sites", "0 is not possible here; give a whole number from 1 to"},
        {"[choose]\nsites = 2.5", 7, "choose.sites", "2.5"},
        {"[choose]\nspacing_m = -1", 7, "choose.spacing_m", "a number from 0 to"},
        {"[choose]\nspacing_m = 99999999999999911", 7, "choose.spacing_m", "a number from 0 to"},
        {"[choose]\nspacing_m = nan", 7, "choose.spacing_m", "nan is not possible"},
        {"[activity]\ncell_m = 0.05", 7, "activity.cell_m", "a number from 0.1 to 50"},
        {"[activity]\ncell_m = \"1 m\"", 7, "activity.cell_m", "a number from 0.1 to 50"},
        {"[activity]\nmin_watch_hours = 0", 7, "activity.min_watch_hours", "a number above 0, up to 24"},
        {"[activity]\nbandwidth_m = 300", 7, "activity.bandwidth_m",
         "from 1 to 200, or \"by-evenings\" or \"rule-of-thumb\""},
        {"[activity]\nbandwidth_m = \"by-eye\"", 7, "activity.bandwidth_m", "or \"rule-of-thumb\""},
        {"[activity]\npoor_weather = \"drop\"", 7, "activity.poor_weather", "\"leave out\" or \"keep\""},
        {"[suitability]\nconditions = [\"great\"]", 7, "suitability.conditions",
         "\"good\", \"fair\", \"poor\" or \"dead\""},
        {"[suitability]\nconditions = []", 7, "suitability.conditions", "one or more"},
        {"surface = \"a\"", 6, "inputs.surface", "give terrain = \"…\""},
        {"terrain = \"a\"", 6, "inputs.terrain", "give surface = \"…\""},
        {"terrain = \"a\"\ncanopy = \"b\"", 7, "inputs.canopy", "told twice"},
        {"surface = \"a\"\nterrain = \"b\"\ncanopy = \"c\"", 8, "inputs.canopy", "told twice"},
        {"max_bad_share = 10", 6, "inputs.max_bad_share", "a number from 0 to 1"},
        {"trees = 3", 6, "inputs.trees", "a table, headed [inputs.trees]"},
        {"trees = \"\"", 6, "inputs.trees", "not empty"},
        {"[inputs.trees]\nlayer = \"a\"", 6, "inputs.trees.file", "it is missing"},
        {"trees = { file = \"a\", date_order = \"ymd\" }", 6, "inputs.trees.date_order",
         "\"dmy\" or \"mdy\""},
        {"trees = { file = \"a\", fields = { tree = { unit = \"m\" } } }", 6, "inputs.trees.fields.tree.from",
         "missing"},
        {"[[avoid]]\nfile = \"a\"\nwithin_m = 10", 6, "avoid[0].reason", "it is missing"},
        {"[[avoid]]\nfile = \"a\"\nreason = \"line\"\nwithin_m = -3", 9, "avoid[0].within_m",
         "a number from 0"},
        {"[[avoid]]\nfile = \"a\"\nreason = \"line\"\nwithin_m = 1\nthen = \"settle first\"", 10,
         "avoid[0].then", "who"},
        {"[[avoid]]\nfile = \"a\"\nreason = \"line\"\nwithin_m = 1\nwho = \"me\"", 10, "avoid[0].who",
         "settle first"},
        {"[avoid]\nfile = \"a\"", 6, "avoid", "[[avoid]]"},
    };
    for (const Wrong& wrong : cases) {
        const core::Error error = refusal(shortest + wrong.text);
        EXPECT_EQ(error.fault(), core::Fault::site_file) << wrong.text;
        EXPECT_EQ(error.place().row, wrong.line) << error.what();
        EXPECT_EQ(error.place().field, wrong.key) << error.what();
        EXPECT_TRUE(says(error, wrong.words)) << error.what();
        EXPECT_TRUE(says(error, "site.toml")) << error.what();
    }
}

TEST(SiteFile, NamesTheNearestKnownKey) {
    const std::vector<Wrong> cases{
        {"[choose]\nsite = 4", 7, "choose.site", "nearest known one is choose.sites"},
        {"[chose]\nsites = 4", 6, "chose", "nearest known one is choose."},
        {"[choose]\nmin_dbh_cm = 4", 7, "choose.min_dbh_cm", "nearest known one is suitability.min_dbh_cm"},
        {"tree = \"trees.csv\"", 6, "inputs.tree", "nearest known one is inputs.trees"},
        {"trees = { file = \"a\", layr = \"b\" }", 6, "inputs.trees.layr", "inputs.trees.layer"},
        {"trees = { file = \"a\", fields = { dbh_cm = { from = \"d\", units = \"m\" } } }", 6,
         "inputs.trees.fields.dbh_cm.units", "inputs.trees.fields.dbh_cm.unit"},
        {"[[avoid]]\nwithin = 10", 7, "avoid[0].within", "avoid[0].within_m"},
        {"[weight]\nsun = 1", 6, "weight", "nearest known one is weights"},
        {"[box]\nslot = 15", 7, "box.slot", "nearest known one is box.slot_mm"},
        {"[choose]\nmuts = []", 7, "choose.muts", "nearest known one is choose.must"},
    };
    for (const Wrong& wrong : cases) {
        const core::Error error = refusal(shortest + wrong.text);
        EXPECT_EQ(error.fault(), core::Fault::site_file) << wrong.text;
        EXPECT_EQ(error.place().row, wrong.line) << error.what();
        EXPECT_EQ(error.place().field, wrong.key) << error.what();
        EXPECT_TRUE(says(error, wrong.words)) << error.what();
    }
}

TEST(SiteFile, NeedsNameAnimalAndFlightsOrTrees) {
    EXPECT_EQ(refusal("[site]\nanimal = \"small-owl\"\n[inputs]\npasses = \"p.csv\"").place().field,
              "site.name");
    const core::Error no_animal = refusal("[site]\nname = \"A\"\n[inputs]\npasses = \"p.csv\"");
    EXPECT_EQ(no_animal.place().field, "site.animal");
    EXPECT_TRUE(says(no_animal, "small-crevice-bat, small-owl")) << no_animal.what();
    const core::Error wrong_animal =
        refusal("[site]\nname = \"A\"\nanimal = \"dragon\"\n[inputs]\npasses = \"p.csv\"");
    EXPECT_EQ(wrong_animal.place().row, 3U);
    EXPECT_TRUE(says(wrong_animal, "'dragon'")) << wrong_animal.what();
    EXPECT_TRUE(says(wrong_animal, "barn-owl")) << wrong_animal.what();
    const core::Error nothing =
        refusal("[site]\nname = \"A\"\nanimal = \"small-owl\"\n[inputs]\nwatches = \"w.csv\"");
    EXPECT_TRUE(says(nothing, "give trees = \"trees.csv\"")) << nothing.what();
    EXPECT_TRUE(says(nothing, "passes, tracks or tallies")) << nothing.what();
    EXPECT_TRUE(says(refusal("[site]\nname = \"A\"\nanimal = \"small-owl\""), "passes"));
    EXPECT_NO_THROW((void)read("[site]\nname = \"A\"\nanimal = \"small-owl\"\n[inputs]\ntrees = \"t.csv\""))
        << "trees alone are screened";
    EXPECT_NO_THROW((void)read("[site]\nname = \"A\"\nanimal = \"small-owl\"\n[inputs]\ntracks = \"t.gpx\""));
    EXPECT_TRUE(says(refusal("[site]\nname = \"A\"\nanimal = \"small-owl\"\n[inputs]\ntallies = \"t.csv\""),
                     "needs watches"));
}

TEST(SiteFile, TakesOnesOwnBoxProfiles) {
    const ScratchFolder scratch;
    const std::string site =
        "[site]\nname = \"A\"\nanimal = \"owl\"\nprofiles = \"mine.toml\"\n[inputs]\npasses = \"p.csv\"\n";
    put_text(scratch / "site.toml", site);
    const auto error = [&] {
        try {
            (void)read_site_file((scratch / "site.toml").string(), {});
        } catch (const core::Error& fault) {
            return std::string(fault.what());
        }
        return std::string();
    };
    EXPECT_NE(error().find("there is no such file"), std::string::npos) << error();
    put_text(scratch / "mine.toml", "[profile.owl]\nname = \"Owl\"\n");
    EXPECT_NE(error().find("mine.toml, row 1, field profile.owl.mount_height_m: it is missing"),
              std::string::npos)
        << error();
}

TEST(SiteFile, IsOverriddenBySet) {
    const std::string avoid = "[[avoid]]\nfile = \"a\"\nwithin_m = 10\nreason = \"line\"\n";
    const SiteFile site = read(shortest + avoid, {{"choose.sites", "3"},
                                                  {"activity.bandwidth_m", "rule-of-thumb"},
                                                  {"avoid[0].within_m", "15"},
                                                  {"site.name", "Willow Bend, lower end"},
                                                  {"suitability.conditions", "[\"good\", \"poor\"]"},
                                                  {"inputs.trees.file", "other.csv"},
                                                  {"inputs.trees.fields.dbh_cm", "girth"}});
    EXPECT_EQ(site.settings.choice.sites, 3U);
    EXPECT_EQ(parameter(site, "choose.sites").set_by, "--set");
    EXPECT_EQ(parameter(site, "activity.bandwidth_m").set_by, "--set");
    EXPECT_EQ(site.avoid.at(0).within, core::Metres(15));
    EXPECT_EQ(site.settings.site_name, "Willow Bend, lower end");
    EXPECT_EQ(site.settings.suitability.conditions,
              (std::vector{trees::Condition::good, trees::Condition::poor}));
    EXPECT_EQ(site.trees->file, "other.csv");
    EXPECT_EQ(site.trees->fields.at("dbh_cm").column, "girth");
    EXPECT_EQ(parameter(site, "choose.spacing_m").set_by, "default");
}

TEST(SiteFile, SaysWhatIsWrongWithSet) {
    const auto said = [](const std::string& key, const std::string& value) {
        const core::Error error = refusal(shortest, {{key, value}});
        EXPECT_EQ(error.place().file, "--set") << error.what();
        return std::string(error.what());
    };
    EXPECT_NE(said("choose.sites", "many").find("'many' is not possible here"), std::string::npos);
    EXPECT_NE(said("chose.sites", "4").find("choose"), std::string::npos);
    EXPECT_NE(said("choose.site", "4").find("choose.sites"), std::string::npos);
    EXPECT_NE(said("avoid[0].within_m", "4").find("not a list"), std::string::npos);
    EXPECT_NE(said("inputs.passes.layer", "a").find("not a table"), std::string::npos);
    for (const char* key : {"", ".", "choose.", "choose..sites", "[0]", "avoid[x]", "avoid[0"})
        EXPECT_NE(said(key, "4").find("not a key"), std::string::npos) << key;
    const std::string avoid = "[[avoid]]\nfile = \"a\"\nwithin_m = 10\nreason = \"line\"\n";
    EXPECT_TRUE(says(refusal(shortest + avoid, {{"avoid[1].within_m", "4"}}), "the list has 1 entries"));
}

TEST(SiteFile, SaysWhyItCannotBeRead) {
    const ScratchFolder scratch;
    const auto error = [&](const std::filesystem::path& path) {
        try {
            (void)read_site_file(path.string(), {});
        } catch (const core::Error& fault) {
            EXPECT_EQ(fault.fault(), core::Fault::site_file);
            return std::string(fault.what());
        }
        return std::string();
    };
    EXPECT_NE(error(scratch / "none.toml").find("there is no such file"), std::string::npos);
    EXPECT_NE(error(scratch.path()).find("this is a folder"), std::string::npos);
    put_text(scratch / "broken.toml", "[site]\nname = \"A\nanimal = 3\n");
    EXPECT_NE(error(scratch / "broken.toml").find("row 2: this is not TOML"), std::string::npos)
        << error(scratch / "broken.toml");
    put_text(scratch / "twice.toml", "[site]\nname = \"A\"\nname = \"B\"\n");
    EXPECT_NE(error(scratch / "twice.toml").find("row 3"), std::string::npos)
        << error(scratch / "twice.toml");
    put_text(scratch / "utf16.toml", std::string_view("\xFF\xFE[\0s\0", 6));
    EXPECT_NE(error(scratch / "utf16.toml").find("not TOML"), std::string::npos);
    put_text(scratch / "empty.toml", "");
    EXPECT_NE(error(scratch / "empty.toml").find("site.animal"), std::string::npos);
}

TEST(SiteFile, SkipsAByteOrderMark) {
    EXPECT_EQ(read("\xEF\xBB\xBF" + shortest).settings.site_name, "Alder Reach Park");
}

}  // namespace
}  // namespace roostward::io
