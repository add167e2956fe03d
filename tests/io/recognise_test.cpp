// What is judged from names and values, one matter at a time.
#include "roostward/io/recognise.hpp"

#include <gtest/gtest.h>

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "io/scratch_folder.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/site_draft.hpp"

namespace roostward::io {
namespace {

using testing::put_text;
using testing::ScratchFolder;

class Recognise : public ::testing::Test {
 protected:
    /// An inventory whose rows begin with a tag and a place near Birmingham; `cells` gives what follows.
    Recognised trees(const std::string& header, const std::function<std::string(int)>& cells,
                     double lon = -1.9, double lat = 52.3) {
        std::string text = "tree_id,lat,lon," + header + "\n";
        for (int i = 0; i < 200; ++i)
            text += fmt::format("T{},{:.6f},{:.6f},{}\n", i, lat + 0.00001 * (i % 17),
                                lon + 0.00001 * (i % 29), cells(i));
        put_text(folder / "trees.csv", text);
        return recognise({(folder / "trees.csv").string()}, folder / "park");
    }
    static const FieldGuess* guess(const Recognised& recognised, const std::string& field) {
        const auto& fields = recognised.layers.at(0).fields;
        const auto found = std::ranges::find(fields, field, &FieldGuess::field);
        return found == fields.end() ? nullptr : &*found;
    }
    ScratchFolder folder;
};

/// 4 to 43, all whole, no heaps: could be either.
int thickness(int i) {
    return 4 + (i * 7) % 40;
}

TEST_F(Recognise, HeightsTellInchesFromCentimetres) {
    const auto as_inches = trees("diameter,height_m", [](int i) {
        return fmt::format("{},{:.1f}", thickness(i), thickness(i) * 2.54 * 0.4);
    });
    ASSERT_NE(guess(as_inches, "dbh_cm"), nullptr);
    EXPECT_EQ(guess(as_inches, "dbh_cm")->source.unit, "in");
    EXPECT_NE(guess(as_inches, "dbh_cm")->confirm.find("as high as thick"), std::string::npos);
    const auto as_cm = trees("diameter,height_m", [](int i) {
        return fmt::format("{},{:.1f}", thickness(i), thickness(i) * 0.4);
    });
    EXPECT_EQ(guess(as_cm, "dbh_cm")->source.unit, "cm");
}

TEST_F(Recognise, RoundingToFivesSpeaksForCentimetres) {
    const auto found = trees("diameter", [](int i) { return fmt::format("{}", 5 + 5 * (i % 8)); });
    EXPECT_EQ(guess(found, "dbh_cm")->source.unit, "cm");
    EXPECT_NE(guess(found, "dbh_cm")->confirm.find("end in 0 or 5"), std::string::npos);
}

TEST_F(Recognise, TheCustomOfThePlaceIsEvidence) {
    const auto cells = [](int i) { return fmt::format("{}", thickness(i)); };
    EXPECT_EQ(guess(trees("diameter", cells, -87.6, 41.9), "dbh_cm")->source.unit, "in");
    EXPECT_EQ(guess(trees("diameter", cells, 9.1, 48.7), "dbh_cm")->source.unit, "cm");
}

TEST_F(Recognise, AUnitInTheNameNeedsNoMark) {
    const auto found = trees("girth_mm,height_ft", [](int i) {
        return fmt::format("{},{}", 100 * thickness(i), 3 * thickness(i) / 2);
    });
    EXPECT_EQ(guess(found, "dbh_cm")->source.unit, "mm");
    EXPECT_TRUE(guess(found, "dbh_cm")->source.girth);
    EXPECT_EQ(guess(found, "dbh_cm")->confirm, "");
    EXPECT_EQ(guess(found, "height_m")->source.unit, "ft");
    EXPECT_EQ(guess(found, "height_m")->confirm, "");
}

TEST_F(Recognise, AUnitThatCannotBeIsNotBelieved) {
    const auto found = trees("trunk_girth_m", [](int i) { return fmt::format("{}", 4 * thickness(i)); });
    EXPECT_EQ(guess(found, "dbh_cm")->source.unit, "cm");
    EXPECT_NE(guess(found, "dbh_cm")->confirm.find("in m trees would be"), std::string::npos);
}

TEST_F(Recognise, NumbersOfClassesAreNoHeights) {
    const auto found =
        trees("height_class,diameter_cm", [](int i) { return fmt::format("{},{}", i % 8, thickness(i)); });
    EXPECT_EQ(guess(found, "height_m"), nullptr);
    ASSERT_EQ(found.layers[0].notes.size(), 1U);
    EXPECT_NE(found.layers[0].notes[0].find("height_class holds numbers of classes"), std::string::npos);
}

TEST_F(Recognise, CodesWithoutADirectionAreNotMapped) {
    const auto even =
        trees("condition,diameter_cm", [](int i) { return fmt::format("{},{}", 1 + i % 4, thickness(i)); });
    EXPECT_TRUE(guess(even, "condition") == nullptr || !guess(even, "condition")->confirm.empty());
    EXPECT_TRUE(guess(even, "condition") == nullptr || guess(even, "condition")->source.values.empty());
    const auto falling = trees("condition,diameter_cm", [](int i) {
        return fmt::format("{},{}", i % 10 == 0 ? 4 : i % 4 == 0 ? 3 : i % 3 == 0 ? 2 : 1, thickness(i));
    });
    EXPECT_EQ(guess(falling, "condition")->source.values.at("1"), "good");
    EXPECT_EQ(guess(falling, "condition")->source.values.at("4"), "dead");
    EXPECT_FALSE(guess(falling, "condition")->confirm.empty());
}

TEST_F(Recognise, ALetterForWorkIsNoNo) {
    const auto found = trees("works,diameter_cm", [](int i) {
        return fmt::format("{},{}", i % 9 == 0 ? "F" : "keine", thickness(i));
    });
    const auto& values = guess(found, "planned_work")->source.values;
    EXPECT_EQ(values.at("keine"), "no");
    EXPECT_FALSE(values.contains("F"));
}

TEST_F(Recognise, WhatIsNoTreeIsLeftOutButARefusedPermissionIsNot) {
    const auto found = trees("permission,remark,diameter_cm", [](int i) {
        return fmt::format("{},{},{}", i % 9 == 0 ? "refused" : "given", i % 20 == 0 ? "felled" : "ok",
                           thickness(i));
    });
    EXPECT_EQ(found.layers[0].source.only, "\"remark\" NOT IN ('felled') OR \"remark\" IS NULL");
    EXPECT_FALSE(found.layers[0].confirm_only.empty());
    ASSERT_NE(guess(found, "permission"), nullptr);
}

TEST_F(Recognise, DaysAndMonthsThatCanBeEitherGoByTheCustomAndAreMarked) {
    const auto cells = [](int i) {
        return fmt::format("{},0{}/0{}/2024", thickness(i), 1 + i % 9, 1 + i % 7);
    };
    const RecognisedLayer here = trees("dbh_cm,inspected", cells).layers[0];
    EXPECT_EQ(here.source.date_order, "dmy");
    EXPECT_FALSE(here.confirm_date_order.empty());
    EXPECT_EQ(trees("dbh_cm,inspected", cells, -87.6, 41.9).layers[0].source.date_order, "mdy");
    const auto told = [](int i) { return fmt::format("{},{}/03/2024", thickness(i), 1 + i % 28); };
    EXPECT_EQ(trees("dbh_cm,inspected", told).layers[0].source.date_order, "");
}

TEST_F(Recognise, TheZoneIsThatOfTheNearestPlaceInTheTable) {
    const auto cells = [](int i) { return fmt::format("{}", thickness(i)); };
    EXPECT_EQ(trees("dbh_cm", cells).timezone, "Europe/London");
    EXPECT_EQ(trees("dbh_cm", cells, 144.97, -37.79).timezone, "Australia/Melbourne");
    EXPECT_EQ(trees("dbh_cm", cells, -73.98, 40.75).timezone, "America/New_York");
}

TEST_F(Recognise, MetresWithoutASystemAreAskedForUnlessAnotherFileTells) {
    std::string text = "Baum,Stammumfang,x,y\n";
    for (int i = 0; i < 60; ++i)
        text += fmt::format("{},{},{},{}\n", i, 30 + i, 476'000 + 3 * i, 5'551'000 + 2 * i);
    put_text(folder / "baum.csv", text);
    const RecognisedLayer alone = recognise({(folder / "baum.csv").string()}, folder / "park").layers.at(0);
    EXPECT_EQ(alone.source.crs, "");
    EXPECT_FALSE(alone.confirm_crs.empty());
    put_text(
        folder / "grenze.geojson",
        R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[[[8.66,50.10],[8.67,50.10],[8.67,50.12],[8.66,50.10]]]}}]})");
    const Recognised both =
        recognise({(folder / "baum.csv").string(), (folder / "grenze.geojson").string()}, folder / "park");
    EXPECT_EQ(both.layers.at(0).source.crs, "EPSG:25832");
    EXPECT_FALSE(both.layers.at(0).confirm_crs.empty());
    EXPECT_EQ(both.layers.at(1).source.role, "allowed_area");
}

TEST_F(Recognise, TwoFilesOfAKindAreNotMixed) {
    put_text(
        folder / "roads.geojson",
        R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":{"type":"LineString","coordinates":[[8.66,50.10],[8.67,50.10]]}}]})");
    put_text(folder / "streets.geojson", testing::text_of(folder / "roads.geojson"));
    const Recognised found = recognise(
        {(folder / "roads.geojson").string(), (folder / "streets.geojson").string()}, folder / "park");
    EXPECT_EQ(found.layers.size(), 1U);
    ASSERT_EQ(found.unknown.size(), 1U);
    EXPECT_NE(found.unknown[0].why.find("one file of a kind"), std::string::npos);
}

TEST_F(Recognise, WhatNobodyCanTellIsLeftOut) {
    put_text(folder / "list.csv", "a,b\n1,2\n3,4\n");
    const Recognised found = recognise({(folder / "list.csv").string()}, folder / "park");
    EXPECT_TRUE(found.layers.empty());
    ASSERT_EQ(found.unknown.size(), 1U);
    EXPECT_EQ(found.unknown[0].file, "../list.csv");
    EXPECT_THROW((void)recognise({(folder / "none.csv").string()}, folder / "park"), core::Error);
}

TEST_F(Recognise, SheetsOfAWorkbookAreLookedAtOneByOne) {
    const std::string book = ROOSTWARD_SOURCE_DIR "/tests/io/data/spreadsheets/several_sheets.xlsx";
    const Recognised found = recognise({book}, folder / "park");
    ASSERT_EQ(found.layers.size(), 1U);
    EXPECT_EQ(found.layers[0].source.role, "trees");
    EXPECT_EQ(found.layers[0].source.layer, "North");
    ASSERT_EQ(found.unknown.size(), 1U);
    EXPECT_EQ(found.unknown[0].layer, "South");
}

TEST_F(Recognise, AnyColumnNameGivesASiteFileThatReads) {
    std::string text = "\"tree \"\"no\"\"\",lat,lon,\"stem girth\n[cm] \\ # x\"\n";
    for (int i = 0; i < 50; ++i)
        text += fmt::format("{},52.3,{:.5f},{}\n", i, -1.9 + 0.0001 * i, 60 + i);
    put_text(folder / "trees.csv", text);
    put_text(folder / "passes.csv", "time,lon,lat,bearing_deg\n2026-06-09T21:36:16Z,-1.8956,52.2982,80\n");
    const Recognised found =
        recognise({(folder / "trees.csv").string(), (folder / "passes.csv").string()}, folder.path());
    put_text(folder / "site.toml", site_file_text({"A \"park\"\n"}, found));
    const SiteFile site = read_site_file((folder / "site.toml").string(), {});
    EXPECT_EQ(site.settings.site_name, "A \"park\"\n");
    EXPECT_EQ(site.trees->fields.at("dbh_cm").column, "stem girth\n[cm] \\ # x");
    EXPECT_TRUE(site.trees->fields.at("dbh_cm").girth);
}

}  // namespace
}  // namespace roostward::io
