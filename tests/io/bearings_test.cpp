#include "roostward/io/bearings.hpp"

#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <string_view>

#include <fmt/format.h>

namespace roostward::io {
namespace {

/// The degrees, or the kind of trouble.
std::string told(std::string_view text) {
    const Reading<double> reading = read_bearing(text);
    const double* degrees = value_in(reading);
    return degrees == nullptr ? trouble_in(reading).kind : fmt::format("{}", *degrees);
}

// The 16 points of the compass, 22.5° apart.
TEST(Bearings, AreDegreesOrCompassWords) {
    EXPECT_EQ(told("NNE"), "22.5");
    EXPECT_EQ(told("north-east"), "45");
    EXPECT_EQ(told("West South West"), "247.5");
    EXPECT_EQ(told("nw"), "315");
    EXPECT_EQ(told("N.W."), "315");
    EXPECT_EQ(told("045°"), "45");
    EXPECT_EQ(told("360"), "0");
    EXPECT_EQ(told("361"), "impossible bearing");
    EXPECT_EQ(told("-10"), "impossible bearing");
    EXPECT_EQ(told("30-40"), "unknown bearing");
    EXPECT_EQ(told("upwards"), "unknown bearing");
    EXPECT_EQ(told("NEN"), "unknown bearing");
}

TEST(Bearings, AreReadInOtherLanguages) {
    for (const char* text : {"Nordost", "nord-est", "NORDESTE", "noreste", "Noordoost", "nordøst", "nordöst"})
        EXPECT_EQ(told(text), "45") << text;
    for (const char* text : {"Südwest", "SÜDWEST", "Suedwest", "sud-ouest", "suroeste", "sudoeste",
                             "sud-ovest", "zuidwest", "ZW", "sydväst", "sydvest"})
        EXPECT_EQ(told(text), "225") << text;
    EXPECT_EQ(told("Ost"), "90");
    EXPECT_EQ(told("est"), "90");
    EXPECT_EQ(told("Oeste"), "270");
    EXPECT_EQ(told("ZO"), "135") << "Z is Dutch, so O is east";
    EXPECT_EQ(told("Nordnordost"), "22.5");
}

TEST(Bearings, WithAnOAreNotGuessed) {
    for (const char* text : {"O", "NO", "SO", "NNO", "ono", "towards NO"}) {
        EXPECT_EQ(told(text), "east or west?") << text;
    }
    EXPECT_EQ(told("no idea"), "unknown bearing");
}

TEST(Bearings, AreReadFromEverydayWords) {
    EXPECT_EQ(told("towards NE"), "45");
    EXPECT_EQ(told("to the north"), "0");
    EXPECT_EQ(told("flying south"), "180");
    EXPECT_EQ(told("eastbound"), "90");
    EXPECT_EQ(told("Westwards"), "270");
    EXPECT_EQ(told("nach Osten"), "unknown bearing");
    EXPECT_EQ(told("nach Südwest"), "225");
    EXPECT_EQ(told("from SW"), "45");
    EXPECT_EQ(told("from the north-west"), "135");
    EXPECT_EQ(told("SW to NE"), "45");
    EXPECT_EQ(told("from E to W"), "270");
    EXPECT_EQ(told("N->S"), "180");
    EXPECT_EQ(told("N → S"), "180");
}

TEST(Bearings, OfTwoWaysAreNone) {
    for (const char* text : {"SW-NE", "NE/SW", "N–S", "N/S both ways", "E ↔ W", "N and S"})
        EXPECT_EQ(told(text), "two ways at once") << text;
    EXPECT_EQ(told("N-E"), "45") << "one point of the compass";
}

TEST(NamedWays, AreToldFromOtherWords) {
    const auto way = [](std::string_view text) {
        const std::optional<NamedWay> found = read_named_way(text);
        return found ? (found->from ? "from " : "to ") + found->name : std::string("none");
    };
    EXPECT_EQ(way("towards the Creek"), "to Creek");
    EXPECT_EQ(way("toward creek"), "to creek");
    EXPECT_EQ(way("flew to the Long Avenue"), "to Long Avenue");
    EXPECT_EQ(way("vers l'étang"), "to étang");
    EXPECT_EQ(way("from the barn"), "from barn");
    EXPECT_EQ(way("creek"), "none");
    EXPECT_EQ(way("towards"), "none");
}

}  // namespace
}  // namespace roostward::io
