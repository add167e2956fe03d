#include "roostward/io/no_tree.hpp"

#include <gtest/gtest.h>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;
using testing::source_of;

// Words of inventories in several languages: common practice, no source.
TEST(NoTree, IsFoundByWhatTheEntryIsCalled) {
    for (const char* words : {"STUMP",
                              "Stump - grind 24 in",
                              "Planting Site-Small",
                              "NO ROOM FOR REPLANT",
                              "Vacant site, small",
                              "No tree at this site",
                              "Tree removed 2019",
                              "removed",
                              "GEFÄLLT",
                              "Baum gefällt (2021)",
                              "Baumstumpf",
                              "leere Baumscheibe",
                              "Souche",
                              "Emplacement vide",
                              "ABATTU",
                              "alcorque vacío",
                              "Tocón",
                              "ceppaia",
                              "posto vuoto",
                              "lege plek",
                              "Geen boom",
                              "gekapt",
                              "caldeira vazia",
                              "træstub",
                              "Fældet",
                              "FÄLLD",
                              "pařez",
                              "PAŘEZ",
                              "kaadettu",
                              "PNIAK"})
        EXPECT_TRUE(names_no_tree(words)) << words;
}

TEST(NoTree, IsNotFoundInNamesOfTrees) {
    for (const char* words :
         {"", "Quercus robur", "Stumpery oak", "Platane", "plantain", "Vacantia", "Noble fir", "Not known",
          "unknown", "0", "dead", "Standing dead", "OTHER", "Empty-cone pine", "Tom Thumb apple", "no"})
        EXPECT_FALSE(names_no_tree(words)) << words;
}

class Inventory : public ::testing::Test {
 protected:
    void read(std::string_view text) {
        site_.put("trees.csv", text);
        site_.file.trees = source_of("trees", site_.folder / "trees.csv");
        inputs_ = site_.read();
        testing::expect_nothing_lost(inputs_, site_.findings);
    }
    ReadingSite site_;
    siting::Inputs inputs_;
};

TEST_F(Inventory, SetsApartWhatIsNoTreeWithoutCallingTheFileBad) {
    read(
        "tree,lon,lat,dbh,species,status\n"
        "1,-1.8956,52.2980,40,Alnus glutinosa,standing\n"
        "2,-1.8957,52.2981,0,Planting site,standing\n"
        "3,-1.8958,52.2982,55,Quercus robur,felled\n"
        "4,-1.8959,52.2983,55,Stump,\n");
    ASSERT_EQ(inputs_.trees.rows.size(), 1U);
    EXPECT_EQ(inputs_.trees.rows[0].id, "1");
    EXPECT_EQ(std::ranges::count(site_.findings, std::string("no tree"), &core::Finding::kind), 3);
    const auto felled = std::ranges::find(site_.findings, std::string("felled"), &core::Finding::value);
    ASSERT_NE(felled, site_.findings.end());
    EXPECT_EQ(felled->place.field, "status");
    EXPECT_EQ(felled->place.row, 4U);
}

TEST_F(Inventory, TakesZeroForUnknownOnlyWhereZeroIsImpossible) {
    read(
        "tree,lon,lat,dbh,height,species\n1,-1.8956,52.2980,0,0,Alnus glutinosa\n"
        "2,-1.8957,52.2981,,,Alnus glutinosa\n3,-1.8958,52.2982,30,9,Alnus glutinosa\n");
    ASSERT_EQ(inputs_.trees.rows.size(), 3U);
    EXPECT_FALSE(inputs_.trees.rows[0].dbh);
    EXPECT_FALSE(inputs_.trees.rows[0].height);
    EXPECT_FALSE(inputs_.trees.rows[1].dbh);
    EXPECT_TRUE(inputs_.trees.rows[2].dbh);
}

TEST_F(Inventory, MoreBadRowsThanAllowedStillStopTheRun) {
    site_.put("trees.csv",
              "tree,lon,lat,species\n1,-1.8956,52.2980,Stump\n2,,,Alnus glutinosa\n3,-1.8958,52.2982,Ash\n");
    site_.file.trees = source_of("trees", site_.folder / "trees.csv");
    const auto stop = site_.stop();
    EXPECT_EQ(stop.fault, core::Fault::inputs);
    EXPECT_NE(stop.text.find("1 of 3 rows (33 %)"), std::string::npos) << stop.text;
    EXPECT_NE(stop.text.find("no coordinates"), std::string::npos) << stop.text;
}

}  // namespace
}  // namespace roostward::io
