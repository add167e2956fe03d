// Whose flights count: words for animals, and what stays apart.
#include <gtest/gtest.h>

#include <algorithm>

#include "roostward/survey/animal_words.hpp"
#include "survey/notes.hpp"

namespace roostward::survey {
namespace {

using namespace notes;
using Is = AnimalGroup::Is;
using Kinds = std::vector<std::string>;

AnimalWords small_bats() {
    return {{{"bat", "bat", Is::animal, true, {"bat", "Fledermaus", "murciélago"}},
             {"small bat", "bat", Is::animal, false, {"pipistrelle", "Pipistrellus", "long-eared bat"}},
             {"large bat", "bat", Is::animal, false, {"noctule"}},
             {"fruit bat", "bat", Is::animal, false, {"fruit bat", "flying fox"}},
             {"owl", "owl", Is::animal, true, {"owl"}},
             {"forest owl", "owl", Is::animal, false, {"tawny owl", "long-eared owl"}},
             {"fox", "fox", Is::animal, false, {"fox"}},
             {"noise", "noise", Is::noise, false, {"noise", "no bat"}},
             {"not told apart", "unknown", Is::unknown, true, {"NoID"}},
             {"no name", "unnamed", Is::unnamed, true, {"flight"}}},
            {"bat", "small bat"},
            {},
            false};
}

AnimalFit fit(std::string_view written, const AnimalWords& words = small_bats()) {
    return AnimalDictionary(words).meaning_of(written).fit;
}

TEST(Animals, AreKnownByTheLongestOfTheirWords) {
    for (const char* ours : {"", " - ", "Bats (2)", "pipistrellus pygmaeus", "FLEDERMAUS", "murcielagos",
                             "brown long-eared bat", "flight", "bat, NoID", "a flight of bats"})
        EXPECT_EQ(fit(ours), AnimalFit::counted) << ours;
    for (const char* other : {"Fruit bats", "flying fox", "noctule", "Noctule bat", "fox", "long-eared owl",
                              "Tawny Owl", "an owl"})
        EXPECT_EQ(fit(other), AnimalFit::another) << other;
    for (const char* noise : {"NOISE", "no bats", "flight noise"})
        EXPECT_EQ(fit(noise), AnimalFit::noise) << noise;
}

TEST(Animals, ThatAreTwoOrNobodyKnowsAreAskedFor) {
    for (const char* unknown :
         {"acrobat", "NoID", "bat or owl", "fox, bat", "pipistrelle/noctule", "bat noise"})
        EXPECT_EQ(fit(unknown), AnimalFit::unknown) << unknown;
}

TEST(Animals, AllCountWhereNobodySaysWhich) {
    EXPECT_EQ(fit("possum", {}), AnimalFit::counted);
    AnimalWords all = small_bats();
    all.keep_others = true;
    EXPECT_EQ(fit("fox", all), AnimalFit::counted);
    EXPECT_EQ(fit("acrobat", all), AnimalFit::counted);
    EXPECT_EQ(fit("noise", all), AnimalFit::noise) << "noise is no animal";
}

TEST(Animals, HaveWordsOfOnesOwnThatComeFirst) {
    AnimalWords words = small_bats();
    words.counted = {"bat", "noctule", "nachtling"};
    words.left_out = {"Pipistrelle"};
    EXPECT_EQ(fit("noctule", words), AnimalFit::counted);
    EXPECT_EQ(fit("Nachtling", words), AnimalFit::counted);
    EXPECT_EQ(fit("pipistrelle", words), AnimalFit::another);
}

TEST(Animals, AreWhatTheSiteFileAnswers) {
    const AnimalDictionary dictionary(small_bats());
    const AnimalAnswers answers{
        {"noid", AnimalFit::counted}, {"large bat", AnimalFit::counted}, {"x7", AnimalFit::noise}};
    AnimalReader reader(dictionary, answers);
    EXPECT_EQ(reader.meaning_of("NoID").fit, AnimalFit::counted);
    EXPECT_EQ(reader.meaning_of("Noctules").fit, AnimalFit::counted) << "by the name of the group";
    EXPECT_EQ(reader.meaning_of(" X7").fit, AnimalFit::noise);
    EXPECT_EQ(reader.meaning_of("fox").fit, AnimalFit::another);
}

/// Passes of these animals, seen from one watch, and as many tallies.
Notes of(std::initializer_list<const char*> animals) {
    Notes notes;
    notes.settings.animals = small_bats();
    notes.settings.keep_from = {"owl"};
    notes.watches.rows = {watch("oak", {0, 0}, 1)};
    for (const char* animal : animals) {
        notes.passes.rows.push_back(pass("oak", {10, 0}, 1, 5));
        notes.passes.rows.back().row = notes.passes.rows.size() + 1;
        notes.passes.rows.back().animal = animal;
    }
    return notes;
}

TEST(Animals, ThatTheBoxesAreNotForAreApartWithOneLineAKind) {
    const Matched seen = of({"bat", "fox", "", "Fox", "noise", "zzz", "noctule"}).match();
    EXPECT_EQ(seen.survey.flights.size(), 2U);
    EXPECT_EQ(seen.set_aside("passes"), 0U);
    EXPECT_EQ(seen.apart("passes"), 5U);
    ASSERT_EQ(kinds(seen), (Kinds{"another animal", "another animal", "noise", "unknown animal"}));
    const core::Finding& fox = seen.findings[0];
    EXPECT_EQ(fox.severity, core::Severity::apart);
    EXPECT_EQ(fox.value, "fox");
    EXPECT_EQ(fox.rows, 2U);
    EXPECT_EQ(fox.place.row, 3U);
    EXPECT_EQ(seen.findings[1].value, "large bat");
    EXPECT_NE(seen.findings[3].sentence.find("counts = { \"zzz\" = \"yes\" }"), std::string::npos)
        << seen.findings[3].sentence;
}

TEST(Animals, AreApartInTalliesAndTracksToo) {
    Notes notes = of({"bat"});
    notes.tallies.rows = {tally("oak", 40), tally("oak", 3)};
    notes.tallies.rows[0].animal = "Flying foxes";
    notes.tracks.file = "tracks.geojson";
    Track track;
    track.row = 5;
    track.path = {{0, 0}, {20, 0}};
    track.time = at(1, 21, 10);
    track.evening = {june(1)};
    track.animal = "fox";
    notes.tracks.rows = {track};
    const Matched seen = notes.match();
    EXPECT_EQ(seen.apart("tallies"), 1U);
    EXPECT_EQ(seen.apart("tracks"), 1U);
    double animals = 0.0;
    for (const Flight& flight : seen.survey.flights)
        animals += flight.count;
    EXPECT_NEAR(animals, 1.0 + 3.0, 1e-12) << "no fruit bats, no fox";
}

TEST(Animals, AnswersOfTheSiteFileHoldForTheirLayer) {
    Notes notes = of({"NoID", "NoID"});
    EXPECT_EQ(notes.match().survey.flights.size(), 0U);
    notes.settings.answers[NotedIn::tracks] = {{"noid", AnimalFit::counted}};
    EXPECT_EQ(notes.match().survey.flights.size(), 0U);
    notes.settings.answers[NotedIn::passes] = {{"noid", AnimalFit::counted}};
    EXPECT_EQ(notes.match().survey.flights.size(), 2U);
}

TEST(Animals, ToKeepFromAreToldWhereTheyWereSeen) {
    Notes notes = of({"bat", "Tawny owl", "fox", "owl"});
    notes.passes.rows[3].behaviour = Behaviour::perched;
    const Matched seen = notes.match();
    ASSERT_EQ(seen.neighbours.size(), 2U);
    EXPECT_EQ(seen.neighbours[0].animal, "Tawny owl");
    EXPECT_FALSE(seen.neighbours[0].perched);
    EXPECT_EQ(seen.neighbours[0].place.row, 3U);
    EXPECT_TRUE(seen.neighbours[1].perched);
    EXPECT_EQ(seen.neighbours[1].evening.date, june(1));
}

TEST(Animals, OfOtherKindsMakeNoRoostButOtherBatsDo) {
    Notes notes = of({"fox", "noctule", "bat"});
    for (Pass& pass : notes.passes.rows)
        pass.behaviour = Behaviour::emerging;
    const Matched seen = notes.match();
    ASSERT_EQ(seen.roost_signs.size(), 2U);
    EXPECT_EQ(seen.roost_signs[0].behaviour, Behaviour::emerging);
}

}  // namespace
}  // namespace roostward::survey
