#include "world.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

namespace roostward::trees {
namespace {

struct Case {
    const char* name;
    std::function<void(World&)> given;
    std::string rule;  ///< empty: no reason at all
    State state = State::can_be_chosen;
    std::string who;
    std::string sentence;
};

void PrintTo(const Case& one, std::ostream* out) {
    *out << one.name;
}

struct Rules : testing::TestWithParam<Case> {};

TEST_P(Rules, GiveTheirReasonAndNoOther) {
    World world;
    GetParam().given(world);
    const Verdict verdict = world.verdict();
    EXPECT_EQ(verdict.state, GetParam().state);
    if (GetParam().rule.empty()) {
        EXPECT_TRUE(verdict.reasons.empty()) << verdict.reasons.front().sentence;
        return;
    }
    ASSERT_EQ(verdict.reasons.size(), 1U);
    const Reason& reason = verdict.reasons.front();
    EXPECT_EQ(reason.rule, GetParam().rule);
    EXPECT_EQ(reason.state, GetParam().state);
    EXPECT_EQ(reason.who, GetParam().who);
    EXPECT_EQ(reason.sentence, GetParam().sentence);
}

constexpr State fine = State::can_be_chosen;
constexpr State settle = State::settle_first;
constexpr State out = State::ruled_out;

std::string name_of(const testing::TestParamInfo<Case>& info) {
    return info.param.name;
}

// Trunk of 25 cm or more, height of mount height + 3 m or more, good or fair: common practice, no source.
// Live trunk: published advice of an island bat group. Missing data is "hold", never "pass": common practice,
// no source.
INSTANTIATE_TEST_SUITE_P(
    OfTheTree, Rules,
    testing::Values(
        Case{"TrunkAtTheLimit", [](World& w) { w.tree().dbh = Centimetres(25); }, "", fine, "", ""},
        Case{"TrunkBelow", [](World& w) { w.tree().dbh = Centimetres(18); }, "trunk too thin", out, "",
             "Trunk 18 cm; a box of this kind needs 25 cm."},
        Case{"TrunkJustBelow", [](World& w) { w.tree().dbh = Centimetres(24.96); }, "trunk too thin", out, "",
             "Trunk 24.96 cm; a box of this kind needs 25 cm."},
        Case{"TrunkBlank", [](World& w) { w.tree().dbh.reset(); }, "trunk not told", settle, "surveyor",
             "Trunk diameter not told. Measure it: 25 cm are needed."},
        Case{"HeightAtTheLimit", [](World& w) { w.tree().height = Metres(7.5); }, "", fine, "", ""},
        Case{"HeightBelow", [](World& w) { w.tree().height = Metres(6); }, "too low", out, "",
             "Tree 6 m high; a box of this kind needs 7.5 m."},
        Case{"HeightBlank", [](World& w) { w.tree().height.reset(); }, "height not told", settle, "surveyor",
             "Height not told. Measure it: 7.5 m are needed."},
        Case{"CrownBlank", [](World& w) { w.tree().crown_radius.reset(); }, "", fine, "", ""},
        Case{"Fair", [](World& w) { w.tree().condition = Condition::fair; }, "", fine, "", ""},
        Case{"Poor", [](World& w) { w.tree().condition = Condition::poor; }, "unfit condition", out, "",
             "Tree in poor condition; a box needs good or fair condition."},
        Case{"Dead", [](World& w) { w.tree().condition = Condition::dead; }, "unfit condition", out, "",
             "Dead tree; a box needs good or fair condition."},
        Case{"PoorWhereAllowed",
             [](World& w) {
                 w.tree().condition = Condition::poor;
                 w.settings.conditions.push_back(Condition::poor);
             },
             "", fine, "", ""},
        Case{"ConditionBlank", [](World& w) { w.tree().condition.reset(); }, "condition not told", settle,
             "surveyor", "Condition not told. Look at the tree: good or fair is needed."},
        Case{"AvoidedGenus",
             [](World& w) {
                 w.settings.avoid_species = {"Salix", "quercus"};
             },
             "avoided species", out, "", "Quercus robur: a species to avoid for a box of this kind."},
        Case{"AvoidedWholeName", [](World& w) { w.settings.avoid_species = {"QUERCUS ROBUR"}; },
             "avoided species", out, "", "Quercus robur: a species to avoid for a box of this kind."},
        Case{"AvoidedPartOfAWord",
             [](World& w) {
                 w.settings.avoid_species = {"Querc", "robur", ""};
             },
             "", fine, "", ""},
        Case{"SpeciesBlankWhereItMatters",
             [](World& w) {
                 w.tree().species.clear();
                 w.settings.avoid_species = {"Salix"};
             },
             "species not told", settle, "surveyor",
             "Species not told. Name it: some species are to be avoided for a box of this kind."},
        Case{"SpeciesBlank", [](World& w) { w.tree().species.clear(); }, "", fine, "", ""}),
    name_of);

// The words improbable to imminent: the ISA tree-risk form, via a council's plan. Which of them to accept, a
// date on every judgement, three years and six years: common practice, no source.
INSTANTIATE_TEST_SUITE_P(
    OfSafety, Rules,
    testing::Values(
        Case{"Probable", [](World& w) { w.tree().hazard = Hazard::probable; }, "likely to fail", out, "",
             "Failure of this tree is judged probable. Keep away from it."},
        Case{"Imminent", [](World& w) { w.tree().hazard = Hazard::imminent; }, "likely to fail", out, "",
             "Failure of this tree is judged imminent. Keep away from it."},
        Case{"PossibleAndSignedOff", [](World& w) { w.tree().hazard = Hazard::possible; }, "", fine, "", ""},
        Case{"PossibleUndated",
             [](World& w) {
                 w.tree().hazard = Hazard::possible;
                 w.tree().inspected.reset();
             },
             "may fail", settle, "arborist",
             "Failure of this tree is possible, judged without a date. An arborist must sign it off, with a "
             "date."},
        Case{"PossibleLongAgo",
             [](World& w) {
                 w.tree().hazard = Hazard::possible;
                 w.tree().inspected = date(2019, 5, 1);
             },
             "may fail", settle, "arborist",
             "Failure of this tree is possible, judged on 2019-05-01, more than 3 years ago. An arborist "
             "must sign it "
             "off, with a date."},
        Case{"ImprobableUndated", [](World& w) { w.tree().inspected.reset(); }, "safety outdated", settle,
             "tree officer", "Safety was judged without a date. Have it judged again."},
        Case{"JudgedThreeYearsAgo", [](World& w) { w.tree().inspected = date(2023, 6, 12); }, "", fine, "",
             ""},
        Case{"JudgedADayEarlier", [](World& w) { w.tree().inspected = date(2023, 6, 11); }, "safety outdated",
             settle, "tree officer",
             "Safety was judged on 2023-06-11, more than 3 years ago. Have it judged again."},
        Case{"HazardBlank", [](World& w) { w.tree().hazard.reset(); }, "safety not judged", settle,
             "tree officer",
             "Nobody has judged its safety. Condition says how it grows, not whether it is safe."},
        Case{"FellingSoon",
             [](World& w) {
                 w.tree().planned_work = "felling";
                 w.tree().work_due = date(2027, 2, 1);
             },
             "planned work", settle, "tree officer",
             "Planned work (felling) due 2027-02-01: a used box would stop it."},
        Case{"WorkInSixYears",
             [](World& w) {
                 w.tree().planned_work = "reduction";
                 w.tree().work_due = date(2032, 6, 12);
             },
             "planned work", settle, "tree officer",
             "Planned work (reduction) due 2032-06-12: a used box would stop it."},
        Case{"WorkADayLater",
             [](World& w) {
                 w.tree().planned_work = "reduction";
                 w.tree().work_due = date(2032, 6, 13);
             },
             "", fine, "", ""},
        Case{"WorkOverdue",
             [](World& w) {
                 w.tree().planned_work = "felling";
                 w.tree().work_due = date(2025, 1, 1);
             },
             "planned work", settle, "tree officer",
             "Planned work (felling) due 2025-01-01: a used box would stop it."},
        Case{"WorkUndated", [](World& w) { w.tree().planned_work = "felling"; }, "planned work", settle,
             "tree officer", "Planned work (felling), no date told: a used box would stop it."},
        Case{"DateWithoutWork", [](World& w) { w.tree().work_due = date(2027, 2, 1); }, "planned work",
             settle, "tree officer", "Planned work due 2027-02-01: a used box would stop it."},
        Case{"LeapDay",
             [](World& w) {
                 w.around.today = date(2028, 2, 29);
                 w.tree().inspected = date(2025, 2, 28);  // three years before: the last of February
             },
             "", fine, "", ""}),
    name_of);

World& with_hollow(World& w, std::optional<bool> hollow) {
    w.tree().has_hollow = hollow;
    return w;
}

// A roost within 15 m or an own hollow: common practice, no source. A box never replaces or obstructs a
// natural hollow: a council's leaflet. Consent for protected, leased and private trees: common practice, no
// source.
INSTANTIATE_TEST_SUITE_P(
    OfConsent, Rules,
    testing::Values(
        Case{"OwnHollow", [](World& w) { with_hollow(w, true); }, "own hollow", settle, "licensed bat person",
             "Animals may already live here. Do not climb, fix or prune: the tree has a hollow of its own."},
        Case{"HollowBlank", [](World& w) { with_hollow(w, std::nullopt); }, "hollow not told", settle,
             "surveyor", "Whether it has a hollow is not told. Look from the ground before anyone climbs."},
        Case{"RoostAtTheReach",
             [](World& w) {
                 with_roosts(w, {{9, 12}});
             },
             "roost near", settle, "licensed bat person",
             "Animals may already live here. Do not climb, fix or prune: animals seen emerging, 15 m away."},
        Case{"RoostJustBeyond",
             [](World& w) {
                 with_roosts(w, {{9, 12.001}});
             },
             "", fine, "", ""},
        Case{"RoostsNear",
             [](World& w) {
                 with_roosts(w, {{10, 0}, {0, 4.26}, {50, 0}});
             },
             "roost near", settle, "licensed bat person",
             "Animals may already live here. Do not climb, fix or prune: animals seen emerging, 4.3 m away, "
             "the nearest "
             "of 2."},
        Case{"Protected", [](World& w) { w.tree().protected_tree = true; }, "protected", settle,
             "tree officer", "Protected tree. Ask for consent before anything is fixed to it."},
        Case{"ProtectionBlank", [](World& w) { w.tree().protected_tree.reset(); }, "protection not told",
             settle, "tree officer",
             "Whether it is protected is not told. Ask before anything is fixed to it."},
        Case{"Refused",
             [](World& w) {
                 w.tree().permission = Permission::refused;
                 w.tree().owner = "Mill House";
             },
             "refused", out, "", "The owner (Mill House) refused."},
        Case{"Asked", [](World& w) { w.tree().permission = Permission::asked; }, "not answered", settle,
             "owner", "The owner was asked and has not answered."},
        Case{"NotAsked", [](World& w) { w.tree().permission.reset(); }, "not asked", settle, "owner",
             "The owner was not asked. Ask first."}),
    name_of);

void with_area(World& w, double west) {
    w.around.allowed_area = {
        {{{west, -50}, {west + 100, -50}, {west + 100, 50}, {west, 50}, {west, -50}}, {}}};
}

// 10 m from a power line: a quoted guide of the tree industry; from the crown's edge, unknown crowns 6 m:
// common practice, no source. The stem stands at (0, 0) with a crown of 4 m.
INSTANTIATE_TEST_SUITE_P(
    OfPlace, Rules,
    testing::Values(Case{"LineAtTheDistance",
                         [](World& w) {
                             with_avoid(w, line({14, -9}, {14, 9}), 10, out, "");
                         },
                         "overhead power line", out, "",
                         "Overhead power line 10 m from the crown's edge; more than 10 m are needed."},
                    Case{"LineJustBeyond",
                         [](World& w) {
                             with_avoid(w, line({14.001, -9}, {14.001, 9}), 10, out, "");
                         },
                         "", fine, "", ""},
                    Case{"LineOverTheCrown",
                         [](World& w) {
                             with_avoid(w, line({-20, 3}, {20, 3}), 10, out, "");
                         },
                         "overhead power line", out, "",
                         "Overhead power line within the crown's reach; more than 10 m are needed."},
                    Case{"LineToSettle",
                         [](World& w) {
                             with_avoid(w, line({12.2, -9}, {12.2, 9}), 10, settle, "network owner");
                         },
                         "overhead power line", settle, "network owner",
                         "Overhead power line 8.2 m from the crown's edge; more than 10 m are needed."},
                    Case{"CrownNotTold",
                         [](World& w) {
                             w.tree().crown_radius.reset();
                             with_avoid(w, line({16, -9}, {16, 9}), 10, out, "");
                         },
                         "overhead power line", out, "",
                         "Overhead power line 10 m from the crown's edge (crown radius not told: 6 m taken); "
                         "more than 10 m are "
                         "needed."},
                    Case{"InsideAPolygon",
                         [](World& w) {
                             with_avoid(
                                 w,
                                 {{}, {}, {{{{-50, -50}, {50, -50}, {50, 50}, {-50, 50}, {-50, -50}}, {}}}},
                                 0, out, "");
                         },
                         "overhead power line", out, "",
                         "Overhead power line within the crown's reach; more than 0 m are needed."},
                    Case{"InTheArea", [](World& w) { with_area(w, -1); }, "", fine, "", ""},
                    Case{"OnTheAreasEdge", [](World& w) { with_area(w, 0); }, "", fine, "", ""},
                    Case{"OutsideTheArea", [](World& w) { with_area(w, 12.34); }, "outside area", out, "",
                         "Stands 12.34 m outside the area where boxes may hang."}),
    name_of);

/// Open ground of 21 × 21 cells of 1 m about the stem at (0, 0), but for canopy in one cell so far to the
/// east.
core::Raster clearing(std::size_t canopy_to_the_east) {
    core::Raster raster;
    raster.grid = {{-10.5, 10.5}, Metres(1), 21, 21};
    raster.values.assign(raster.grid.size(), 0.5F);
    raster.known.assign(raster.grid.size(), 1);
    raster.values[raster.grid.index({10, 10 + canopy_to_the_east})] = 12.0F;
    return raster;
}

// Open down to 2 m above ground: Brokaw 1982, via an encyclopaedia; 25 m² and the crown radius: common
// practice, no source.
INSTANTIATE_TEST_SUITE_P(
    OfTheCanopy, Rules,
    testing::Values(Case{"CanopyBeyondTheCrown", [](World& w) { w.around.canopy_height = clearing(5); },
                         "canopy gap", settle, "surveyor",
                         "Not seen in the canopy model: it stands in a gap of 440 m² with no canopy within 4 "
                         "m. Check that it "
                         "exists."},
                    Case{"CanopyAtTheCrownsEdge", [](World& w) { w.around.canopy_height = clearing(4); }, "",
                         fine, "", ""},
                    Case{"CrownNotToldInAGap",
                         [](World& w) {
                             w.tree().crown_radius.reset();
                             w.around.canopy_height = clearing(4);
                         },
                         "canopy gap", settle, "surveyor",
                         "Not seen in the canopy model: it stands in a gap of 440 m² with no canopy within 3 "
                         "m. Check that it "
                         "exists."},
                    Case{"UnderCanopy", [](World& w) { w.around.canopy_height = clearing(0); }, "", fine, "",
                         ""},
                    Case{"UnknownCanopy",
                         [](World& w) {
                             w.around.canopy_height = clearing(5);
                             std::fill(w.around.canopy_height->known.begin(),
                                       w.around.canopy_height->known.end(), 0);
                         },
                         "", fine, "", ""},
                    Case{"OffTheRaster",
                         [](World& w) {
                             w.around.canopy_height = clearing(5);
                             w.tree().stem = {500, 500};
                         },
                         "", fine, "", ""}),
    name_of);

/// The tree's crown reaches 4 m; a road runs from south to north so far to the east.
geo::Shape road_at(double easting) {
    return line({easting, -100}, {easting, 100});
}

// A carriageway within 20 m, a route over one within 30 m of the crown's edge; owls and raptors within 100 m
// of the stem: common practice, no source.
INSTANTIATE_TEST_SUITE_P(
    OfRoadsAndOtherAnimals, Rules,
    testing::Values(
        Case{"CarriagewayAtTheLimit", [](World& w) { with_road(w, road_at(24)); }, "carriageway", settle,
             "tree officer", "Carriageway 20 m from the crown's edge; more than 20 m are needed."},
        Case{"CarriagewayJustBeyond", [](World& w) { with_road(w, road_at(24.001)); }, "", fine, "", ""},
        Case{"CarriagewayUnderAnUnknownCrown",
             [](World& w) {
                 w.tree().crown_radius.reset();
                 with_road(w, road_at(5));
             },
             "carriageway", settle, "tree officer",
             "Carriageway within the crown's reach (crown radius not told: 6 m taken); more than 20 m are "
             "needed."},
        Case{"CrossingAtTheLimit",
             [](World& w) {
                 w.around.crossings = {{-34, 0}, {0, 90}};
             },
             "route crosses a road", settle, "surveyor",
             "The flight line crosses a road 30 m from the crown's edge; more than 30 m are needed."},
        Case{"CrossingJustBeyond",
             [](World& w) {
                 w.around.crossings = {{-34.001, 0}};
             },
             "", fine, "", ""},
        Case{"OwlsAtTheLimit",
             [](World& w) {
                 with_box(w, "barn owls", {60, 80});
                 with_box(w, "small bats", {1, 0});
             },
             "other animals near", settle, "licensed bat person",
             "Barn owls (boxes.csv) 100 m away; more than 100 m are needed."},
        Case{"OwlsJustBeyond",
             [](World& w) {
                 with_box(w, "barn owls", {60, 80.001});
             },
             "", fine, "", ""},
        Case{"OwlsThatHaveLeft",
             [](World& w) {
                 with_box(w, "owl", {9, 0}, BoxStatus::removed);
             },
             "", fine, "", ""},
        Case{"WordsWithOwlInThem",
             [](World& w) {
                 with_box(w, "fowl", {9, 0});
             },
             "", fine, "", ""}),
    name_of);

// Somebody must be able to act on it.
TEST(Reasons, ToSettleSayWhomToAskWhat) {
    World world;
    world.inventory.rows[0] = Tree{};
    with_road(world, road_at(10));
    world.around.crossings = {{0, 10}};
    with_box(world, "owl", {9, 0});
    with_roosts(world, {{1, 1}});
    with_avoid(world, line({5, -9}, {5, 9}), 10, State::settle_first, "network owner");
    std::size_t to_settle = 0;
    for (const Reason& reason : world.verdict().reasons) {
        EXPECT_EQ(reason.who.empty(), reason.state != State::settle_first) << reason.rule;
        EXPECT_EQ(reason.ask.empty(), reason.state != State::settle_first) << reason.rule;
        if (reason.state == State::settle_first) ++to_settle;
    }
    EXPECT_GE(to_settle, 12U);
}

/// Where an animal was seen; on the x axis from the tree's stem.
void with_seen(World& w, const char* animal, double metres, unsigned day, bool perched = false) {
    w.settings.keep_from.seen_within = Metres(50);
    w.around.neighbours_seen.push_back({{metres, 0}, animal, date(2026, 6, day), perched});
}

// 50 m, two evenings, a perch: common practice, no source.
INSTANTIATE_TEST_SUITE_P(
    OfOwlsAndHawks, Rules,
    testing::Values(Case{"OwlOnOneEvening", [](World& w) { with_seen(w, "owl", 10, 9); }, "", fine, "", ""},
                    Case{"OwlOnTwoEvenings",
                         [](World& w) {
                             with_seen(w, "Tawny owl", 50, 9);
                             with_seen(w, "tawny owl", 12.04, 11);
                         },
                         "other animals seen", settle, "licensed bat person",
                         "Tawny owl seen within 50 m on 2026-06-09 and 2026-06-11, the nearest 12 m away."},
                    Case{"TwoOnOneEvening",
                         [](World& w) {
                             with_seen(w, "owl", 10, 9);
                             with_seen(w, "owl", 20, 9);
                         },
                         "", fine, "", ""},
                    Case{"OnePerched", [](World& w) { with_seen(w, "Cat", 3, 9, true); },
                         "other animals seen", settle, "licensed bat person",
                         "Cat sat or lived within 50 m on 2026-06-09, the nearest 3 m away."},
                    Case{"JustBeyond",
                         [](World& w) {
                             with_seen(w, "owl", 50.1, 9);
                             with_seen(w, "owl", 50.1, 10);
                         },
                         "", fine, "", ""}),
    name_of);

TEST(OwlsAndHawks, AreToldWithTheirDatesWhereTheySettleNothing) {
    World world;
    with_seen(world, "owl", 10, 9);
    EXPECT_EQ(world.verdict().neighbours, "Owl seen within 50 m on 2026-06-09, the nearest 10 m away.");
    with_seen(world, "owl", 10, 10);
    EXPECT_EQ(world.verdict().neighbours, "") << "it is a reason now";
}

void with_kind(World& w, const char* kind, const char* words) {
    w.tree().no_box = std::make_shared<const NoBoxKind>(NoBoxKind{kind, words});
}

// Palms and the like hold no box: common practice, no source.
INSTANTIATE_TEST_SUITE_P(
    OfKindsWithoutBox, Rules,
    testing::Values(Case{"Palm", [](World& w) { with_kind(w, "palm", "Phoenix canariensis"); },
                         "holds no box", out, "", "\"Phoenix canariensis\": palm. It holds no box."},
                    Case{"AllowedBySpecies",
                         [](World& w) {
                             with_kind(w, "palm", "Phoenix canariensis");
                             w.settings.allow = {"phoenix"};
                         },
                         "", fine, "", ""},
                    Case{"AllowedByKind",
                         [](World& w) {
                             with_kind(w, "palm", "Date palm");
                             w.settings.allow = {"Palm"};
                         },
                         "", fine, "", ""},
                    Case{"AnotherIsAllowed",
                         [](World& w) {
                             with_kind(w, "palm", "Date palm");
                             w.settings.allow = {"banana", "Date"};
                             w.tree().no_box = std::make_shared<const NoBoxKind>(NoBoxKind{"palm", "Sabal"});
                         },
                         "holds no box", out, "", "\"Sabal\": palm. It holds no box."}),
    name_of);

TEST(Height, OfATreeIsNeverBelowThatOfItsBox) {
    World world;
    world.settings.min_height = Metres(3);
    world.settings.entrance = Metres(4.5);
    world.tree().height = Metres(3.04);
    EXPECT_EQ(world.verdict().state, State::ruled_out);
    world.tree().height = Metres(5.5);
    EXPECT_EQ(world.verdict().state, State::can_be_chosen);
}

}  // namespace
}  // namespace roostward::trees
