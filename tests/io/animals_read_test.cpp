// The list of animals in the program, and rows of files that name them.
#include <gtest/gtest.h>

#include "io/reading_site.hpp"
#include "roostward/io/animal_groups.hpp"
#include "roostward/io/box_profiles.hpp"

namespace roostward::io {
namespace {

using survey::AnimalFit;
using testing::ReadingSite;

survey::AnimalWords words_of(std::string_view profile) {
    const auto profiles = parse_box_profiles(box_profiles_text, "box-profiles.toml");
    const auto found = std::ranges::find(profiles, profile, &siting::Profile::id);
    return {parse_animal_groups(animal_groups_text, "animals.toml"), found->counted_animals.value,
            found->left_out_animals.value, false};
}

struct Said {
    const char* profile;
    const char* words;
    AnimalFit fit;
};

// Which animals use which boxes: common practice, no source.
TEST(ListOfAnimals, SaysWhoCountsForEachProfile) {
    constexpr AnimalFit counted = AnimalFit::counted, another = AnimalFit::another;
    const std::vector<Said> all{{"small-crevice-bat", "Bat", counted},
                                {"small-crevice-bat", "Microbats", counted},
                                {"small-crevice-bat", "unidentified bat", counted},
                                {"small-crevice-bat", "P. pipistrellus", counted},
                                {"small-crevice-bat", "Zwergfledermaus", counted},
                                {"small-crevice-bat", "Chauve-souris", counted},
                                {"small-crevice-bat", "Brown long-eared bat", counted},
                                {"small-crevice-bat", "Fledermäuse", counted},
                                {"small-crevice-bat", "n/a", counted},
                                {"small-crevice-bat", "Noctule", another},
                                {"small-crevice-bat", "Nyctalus noctula", another},
                                {"small-crevice-bat", "grey-headed flying fox", another},
                                {"small-crevice-bat", "Fruit bat", another},
                                {"small-crevice-bat", "lesser horseshoe bat", another},
                                {"small-crevice-bat", "Rabbit", another},
                                {"small-crevice-bat", "Hedgehogs", another},
                                {"small-crevice-bat", "Long-eared owl", another},
                                {"small-crevice-bat", "Katze", another},
                                {"small-crevice-bat", "hawk moth", another},
                                {"small-crevice-bat", "Noise", AnimalFit::noise},
                                {"small-crevice-bat", "no bats", AnimalFit::noise},
                                {"small-crevice-bat", "NoID", AnimalFit::unknown},
                                {"small-crevice-bat", "unknown", AnimalFit::unknown},
                                {"small-crevice-bat", "Qzx7", AnimalFit::unknown},
                                {"larger-hollow-bat", "noctule bat", counted},
                                {"larger-hollow-bat", "pipistrelle", another},
                                {"larger-hollow-bat", "bat", counted},
                                {"barn-owl", "Tyto alba", counted},
                                {"barn-owl", "owl", counted},
                                {"barn-owl", "tawny owl", another},
                                {"sugar-squirrel-glider", "glider", counted},
                                {"sugar-squirrel-glider", "greater glider", another},
                                {"small-parrot", "rainbow lorikeet", counted}};
    for (const Said& said : all)
        EXPECT_EQ(survey::AnimalDictionary(words_of(said.profile)).meaning_of(said.words).fit, said.fit)
            << said.profile << ": " << said.words;
}

TEST(ListOfAnimals, RefusesAWordOfTwoGroups) {
    const char* group = "is = \"animal\"\nfamily = \"f\"\nwords = [\"Fox\"]\nstatus = \"from memory\"\n";
    EXPECT_THROW(static_cast<void>(parse_animal_groups(
                     std::string("[group.a]\n") + group + "[group.b]\n" + group, "mine.toml")),
                 core::Error);
}

class Notes : public ::testing::Test {
 protected:
    Notes() { site_.file.settings.survey.animals = words_of("small-crevice-bat"); }

    void read(std::string_view passes) {
        site_.put("passes.csv", passes);
        inputs_ = site_.read();
        testing::expect_nothing_lost(inputs_, site_.findings);
    }
    [[nodiscard]] std::vector<std::string> animals() const {
        std::vector<std::string> animals;
        for (const survey::Pass& pass : inputs_.passes.rows)
            animals.push_back(pass.animal);
        return animals;
    }
    ReadingSite site_;
    siting::Inputs inputs_;
};

using Animals = std::vector<std::string>;

TEST_F(Notes, TellTheAnimalInColumnsOfManyNames) {
    for (const char* column : {"animal", "Species", "TAXON", "What", "seen", "Kind", "Art", "espèce",
                               "Tierart", "What was seen", "especie", "soort"}) {
        read(std::string("time,lon,lat,") + column +
             "\n2026-06-09T21:36:16,-1.8956,52.2982,fox\n2026-06-09T21:37:16,-1.8956,52.2982,\n");
        EXPECT_EQ(animals(), (Animals{"fox", ""})) << column;
        EXPECT_FALSE(site_.found("column of animals")) << column;
    }
}

TEST_F(Notes, NameOthersPlainlyInAColumnThatNobodyKnows) {
    read(
        "time,lon,lat,critter,remarks\n"
        "2026-06-09T21:36:16,-1.8956,52.2982,bat,low over the path\n"
        "2026-06-09T21:37:16,-1.8956,52.2982,Fox,\n"
        "2026-06-09T21:38:16,-1.8956,52.2982,,a fox ran by while the bat flew over\n"
        "2026-06-09T21:39:16,-1.8956,52.2982,,noise\n");
    EXPECT_EQ(animals(), (Animals{"", "Fox", "", "noise"}));
    const auto told =
        std::ranges::find(site_.findings, std::string("column of animals"), &core::Finding::kind);
    ASSERT_NE(told, site_.findings.end());
    EXPECT_EQ(told->value, "critter");
    EXPECT_NE(told->sentence.find("bat (1)"), std::string::npos) << told->sentence;
    EXPECT_NE(told->sentence.find("fields = { animal = \"critter\" }"), std::string::npos) << told->sentence;
}

TEST_F(Notes, SayWhatPerches) {
    read("time,lon,lat,animal,behaviour\n2026-06-09T21:36:16,-1.8956,52.2982,owl,perched\n");
    EXPECT_EQ(inputs_.passes.rows[0].behaviour, survey::Behaviour::perched);
}

}  // namespace
}  // namespace roostward::io
