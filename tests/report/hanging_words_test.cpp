#include "roostward/report/hanging_words.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "roostward/report/settling_words.hpp"

namespace roostward::report {
namespace {

/// A site at 51° north, for animals that use slots of 12 to 15 mm and are doubtful of others than 13 to 20
/// mm.
plan::Plan site() {
    plan::Plan plan;
    plan.middle = {core::Degrees(-2), core::Degrees(51)};
    plan.mounting.boxes = 2;
    siting::Profile& profile = plan.settings.profile;
    profile.entrance_kind = "slot";
    profile.entrance_mm.value = {12, 15};
    profile.entrance_doubtful_mm = siting::Sourced<siting::Span>{{13, 20}, {}};
    profile.clear_approach.value = core::Metres(3);
    profile.clear_drop.value = core::Metres(2.5);
    plan.settings.box.slot = core::Millimetres(15);
    return plan;
}

bool says(const std::vector<std::string>& list, const std::string& words) {
    return std::ranges::any_of(
        list, [&](const std::string& text) { return text.find(words) != std::string::npos; });
}

// 15 mm, told outside 13 to 20 mm: common practice, no source. Both ends inclusive.
TEST(BeforeYouHangIt, TellsASlotThatDoesNotFit) {
    plan::Plan plan = site();
    EXPECT_TRUE(says(before_you_hang_it(plan), "15 mm fits"));
    for (const auto& [width, words] : {std::pair{12.9, "12.9 mm is doubtful: these animals use a slot 12 to"},
                                       {13.0, "13 mm fits"},
                                       {20.0, "20 mm fits"},
                                       {20.1, "20.1 mm is doubtful"}}) {
        plan.settings.box.slot = core::Millimetres(width);
        EXPECT_TRUE(says(before_you_hang_it(plan), words)) << width;
    }
    plan.settings.box.slot.reset();
    EXPECT_TRUE(
        says(before_you_hang_it(plan), "Measure the entrance: these animals use a slot 12 to 15 mm wide."));
    plan.settings.profile.entrance_doubtful_mm.reset();
    plan.settings.box.slot = core::Millimetres(16);
    EXPECT_TRUE(says(before_you_hang_it(plan), "16 mm is doubtful")) << "then by what they use";
}

TEST(BeforeYouHangIt, GoesByWhatTheBoxIsMadeOf) {
    plan::Plan plan = site();
    plan.settings.box.made_of = "old plastic drum";
    EXPECT_TRUE(says(before_you_hang_it(plan), "Smooth plastic gives no hold"));
    EXPECT_TRUE(says(before_you_hang_it(plan), "heats up"));
    plan.settings.box.made_of = "boards";
    plan.settings.box.wall = siting::Wall::insulated;
    EXPECT_FALSE(says(before_you_hang_it(plan), "Smooth plastic"));
    EXPECT_FALSE(says(before_you_hang_it(plan), "heats up"));
    EXPECT_FALSE(says(before_you_hang_it(plan), "Thin walls"));
}

// 7 h and more after Brittingham & Williams 2000; thin boxes for the warm months and 3 h: common practice, no
// source.
TEST(KindOfBox, GoesByTheSun) {
    siting::Candidate tree;
    EXPECT_TRUE(kind_of_box(tree).empty()) << "not known";
    const auto with = [&](double hours) {
        tree.sun = sun::FaceSun{core::Hours(hours), core::Hours(1), core::Hours(0)};
        return kind_of_box(tree);
    };
    EXPECT_NE(with(7.0).find("Pale, insulated"), std::string::npos);
    EXPECT_NE(with(6.9).find("One thin box for the warm months, one insulated"), std::string::npos);
    EXPECT_NE(with(3.0).find("One thin box"), std::string::npos);
    EXPECT_TRUE(with(2.9).starts_with("2.9 h of sun a day on the first box in the warm half-year: shady."));
}

// September to February in the north, March to August in the south: common practice, no source.
TEST(WhenToPutUp, GoesByTheHemisphere) {
    plan::Plan plan = site();
    EXPECT_TRUE(
        when_to_put_up(plan).starts_with("Put boxes up from September to February, never while birds"));
    plan.middle.latitude = core::Degrees(-37);
    EXPECT_TRUE(when_to_put_up(plan).starts_with("Put boxes up from March to August, never while birds"));
}

TEST(ClimberConfirms, WhatADeskCannotKnow) {
    plan::Plan plan = site();
    EXPECT_TRUE(says(climber_confirms(plan), "free for 3 m"));
    EXPECT_TRUE(says(climber_confirms(plan), "2.5 m are free below"));
    plan.settings.profile.clear_approach.value = plan.settings.profile.clear_drop.value = core::Metres(0);
    EXPECT_FALSE(says(climber_confirms(plan), "free")) << "these animals climb to it";
}

/// With one tree to settle for two reasons that concern one person.
plan::Plan to_settle() {
    plan::Plan plan = site();
    plan.settings.choice.sites = 2;
    plan.trees.rows.resize(1);
    plan.trees.rows[0].id = "T7";
    plan.candidates.resize(1);
    siting::Candidate& tree = plan.candidates[0];
    tree.would_rank = 3;
    tree.verdict.state = trees::State::settle_first;
    tree.verdict.reasons = {
        {"not asked", trees::State::settle_first, "owner", {}, {}, "Nobody asked.", "May we?"},
        {"trunk too thin", trees::State::ruled_out, "", {}, {}, "Too thin.", ""},
        {"planned work", trees::State::settle_first, "owner", {}, {}, "Work.", "When?"}};
    plan.worth_settling = {0};
    return plan;
}

TEST(WorthSettling, SaysWhoDecidesAndWhatToAsk) {
    const plan::Plan plan = to_settle();
    const trees::Verdict& verdict = plan.candidates[0].verdict;
    EXPECT_EQ(who_decides(verdict), "owner");
    EXPECT_EQ(what_to_ask(verdict), "Ask the owner: May we? Ask the owner: When?");
    EXPECT_EQ(settling_in_short(plan), "Worth settling first: T7 (owner).");
    EXPECT_EQ(core::to_json(settling_document(plan)),
              R"([{"tree":"T7","would_rank":3,"score":0,"questions":[)"
              R"({"rule":"not asked","who":"owner","ask":"May we?","why":"Nobody asked."},)"
              R"({"rule":"planned work","who":"owner","ask":"When?","why":"Work."}]}])");
    EXPECT_TRUE(settling_in_short(site()).empty());
}

// What the owner must know before saying yes: Bat Conservation Trust, news page, of the UK; elsewhere common
// practice, no source.
TEST(TheOwner, IsToldBeforeSayingYes) {
    plan::Plan plan = to_settle();
    EXPECT_TRUE(owners_paragraph(plan).empty()) << "nothing to ask for";
    plan.chosen = {0};
    const std::string text = owners_paragraph(plan);
    EXPECT_TRUE(text.starts_with("To the owner: may we hang 2 boxes on one tree (T7)?")) << text;
    for (const char* words : {"protect it even when it is empty", "licence", "year five"})
        EXPECT_NE(text.find(words), std::string::npos) << words;
}

}  // namespace
}  // namespace roostward::report
