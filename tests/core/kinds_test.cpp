// Kinds of findings, and where they were found, in words.
#include <gtest/gtest.h>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::core {
namespace {

/// English again at the end, whatever a test said before.
struct KindsOfFindings : testing::Test {
    ~KindsOfFindings() override { speak({}); }
};

TEST_F(KindsOfFindings, HaveKeysOfTheirWords) {
    EXPECT_EQ(key_of("kind", "swapped coordinates"), "kind.swapped_coordinates");
    EXPECT_EQ(key_of("kind", "how many?"), "kind.how_many");
    EXPECT_EQ(key_of("kind", "coordinates (0, 0)"), "kind.coordinates_0_0");
    EXPECT_EQ(key_of("kind", "bearings heaped on 45°"), "kind.bearings_heaped_on_45");
    EXPECT_EQ(key_of("kind", "?"), "kind");
}

/// In English a kind is its own words; so no key is misspelt.
TEST_F(KindsOfFindings, AreTheirOwnWordsInEnglish) {
    std::size_t kinds = 0;
    for (const auto& [key, text] : catalogue()) {
        if (!key.starts_with("kind.") || text.find('{') != std::string::npos) continue;
        EXPECT_EQ(key_of("kind", text), key);
        ++kinds;
    }
    EXPECT_GT(kinds, 90U);
    EXPECT_EQ(shown("kind", "impossible dbh_cm"), "impossible dbh_cm");
    EXPECT_EQ(shown("kind", "a kind of nobody's"), "a kind of nobody's");
}

TEST_F(KindsOfFindings, AreSaidInTheOtherLanguage) {
    speak(
        {{"kind.no_tree", "kein Baum"}, {"kind.impossible", "{rest} unmöglich"}, {"kind.no", "kein {rest}"}});
    EXPECT_EQ(shown("kind", "no tree"), "kein Baum");
    EXPECT_EQ(shown("kind", "impossible dbh_cm"), "dbh_cm unmöglich");
    EXPECT_EQ(shown("kind", "impossible bearing"), "impossible bearing");
    EXPECT_EQ(shown("kind", "no owner"), "kein owner");
    EXPECT_EQ(shown("kind", "no"), "no");
}

TEST_F(KindsOfFindings, AndTheirPlacesToo) {
    EXPECT_EQ(to_text(Place{"a.csv", "trees", 12, "dbh_cm"}), "a.csv, layer trees, row 12, field dbh_cm");
    speak({{"place.row", "Zeile {row}"}, {"place.field", "Feld {field}"}});
    EXPECT_EQ(to_text(Place{{}, {}, 12, "dbh_cm"}), "Zeile 12, Feld dbh_cm");
}

}  // namespace
}  // namespace roostward::core
