#include "roostward/io/tree_words.hpp"

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
                              "PNIAK",
                              "PRIVATE TREE AT THIS SITE.  NOT A CITY TREE."})
        EXPECT_TRUE(tree_words_within().meaning_of(words).no_tree) << words;
}

TEST(NoTree, IsNotFoundInNamesOfTrees) {
    for (const char* words :
         {"", "Quercus robur", "Stumpery oak", "Platane", "plantain", "Vacantia", "Noble fir", "Not known",
          "unknown", "0", "dead", "Standing dead", "OTHER", "Empty-cone pine", "Tom Thumb apple", "no"})
        EXPECT_FALSE(tree_words_within().meaning_of(words).no_tree) << words;
}

std::string kind_of(const char* words) {
    const auto meaning = tree_words_within().meaning_of(words);
    return meaning.no_box ? meaning.no_box->kind : "";
}

// Kinds that hold no box: common practice, no source.
TEST(NoBox, IsFoundByGenusAndByEverydayName) {
    for (const char* palm :
         {"Phoenix canariensis", "WASHINGTONIA", "Trachycarpus fortunei", "x Butiagrus nabonnandii", "Palm",
          "Mexican fan palm", "PALM, CANARY ISLAND DATE", "Palms - Washingtonia robusta", "palmera canaria",
          "palmier", "Hanfpalme", "Cabbage palmetto", "date palm (Phoenix)", "Palmeira-imperial"})
        EXPECT_EQ(kind_of(palm), "palm") << palm;
    EXPECT_EQ(kind_of("Dicksonia antarctica"), "tree fern");
    EXPECT_EQ(kind_of("Soft tree-fern"), "tree fern");
    EXPECT_EQ(kind_of("Saguaro"), "cactus");
    EXPECT_EQ(kind_of("Opuntia ficus-indica"), "cactus");
    EXPECT_EQ(kind_of("Musa basjoo"), "banana");
    EXPECT_EQ(kind_of("Bananier"), "banana");
}

TEST(NoBox, IsNotFoundInOtherNames) {
    for (const char* tree : {"Acer palmatum", "Quercus palmeri", "Palmer oak", "Magnolia figo",
                             "Banana shrub", "Palm Court", "Ulmus 'Phoenix'", "Palmetto Avenue oak",
                             "Fern-leaf beech", "Fern pine", "Salix", "Musagetes ash", "Phoenixville elm"})
        EXPECT_EQ(kind_of(tree), "") << tree;
}

TEST(Dead, IsFoundByAnyWordForItAlone) {
    for (const char* words : {"Seco", "snag", "DEAD", "Standing dead", "mort", "tot", "muerto", "Árbol seco",
                              "Quercus robur (dead)", "abgestorben", "dood", "Morto", "suchý"})
        EXPECT_TRUE(tree_words_within().meaning_of(words).dead) << words;
    for (const char* words : {"Dead Man's Fingers", "dead wood in crown", "not dead", "Totara", "Mortonia",
                              "Secoya", "half dead"})
        EXPECT_FALSE(tree_words_within().meaning_of(words).dead) << words;
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

TEST_F(Inventory, LooksAtSpeciesConditionKindAndNameWhateverTheirColumn) {
    read(
        "tree,lon,lat,dbh,Tree Condition,Kind,botanical name,what_it_is\n"
        "1,-1.8956,52.2980,40,Stump,,,\n"
        "2,-1.8957,52.2981,40,good,OTHER,,\n"
        "3,-1.8958,52.2982,40,good,Palm,,\n"
        "4,-1.8959,52.2983,40,,,Seco,\n"
        "5,-1.8960,52.2984,40,Tot,,Acer palmatum,\n"
        "6,-1.8961,52.2985,40,fair,,Acer palmatum,Palm\n");
    ASSERT_EQ(inputs_.trees.rows.size(), 5U) << "the stump is apart";
    EXPECT_FALSE(inputs_.trees.rows[0].no_box) << "nobody says what it is: it stays";
    EXPECT_TRUE(site_.found("kind of tree not told"));
    ASSERT_TRUE(inputs_.trees.rows[1].no_box);
    EXPECT_EQ(inputs_.trees.rows[1].no_box->words, "Palm");
    EXPECT_EQ(inputs_.trees.rows[2].condition, trees::Condition::dead);
    EXPECT_EQ(inputs_.trees.rows[3].condition, trees::Condition::dead);
    EXPECT_FALSE(site_.found("unknown condition"));
    EXPECT_FALSE(inputs_.trees.rows[4].no_box) << "no column that tells what stands there";
}

TEST_F(Inventory, CountsAColumnThatIsBlankInEveryRowAsMissing) {
    read(
        "tree,lon,lat,dbh,height,condition,hollow\n"
        "1,-1.8956,52.2980,,0,?,no\n2,-1.8957,52.2981, ,0,unknown,\n");
    using trees::TreeField;
    for (const TreeField field : {TreeField::dbh, TreeField::height, TreeField::condition})
        EXPECT_FALSE(inputs_.trees.columns.has(field));
    EXPECT_TRUE(inputs_.trees.columns.has(TreeField::has_hollow));
    EXPECT_TRUE(site_.found("blank column"));
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
