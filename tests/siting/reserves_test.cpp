#include "roostward/siting/reserves.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "roostward/siting/choice.hpp"

namespace roostward::siting {
namespace {

using core::Metres;

/// Trees along a path, the better the earlier they are given; two sites 30 m apart.
struct Row {
    trees::Inventory inventory;
    std::vector<Candidate> candidates;
    ChoiceSettings settings;

    explicit Row(const std::vector<double>& eastings) {
        settings.sites = 2;
        for (const double easting : eastings) {
            inventory.rows.emplace_back();
            inventory.rows.back().stem = {easting, 0.0};
            Candidate tree;
            tree.activity.watched = true;
            tree.activity.flight_density = 1.0 / (1.0 + static_cast<double>(candidates.size()));
            tree.activity.evenings_watched = tree.activity.evenings_used = 3;
            candidates.push_back(tree);
        }
    }
    void beside_line(std::size_t tree, std::size_t line) {
        candidates[tree].flight_line = LineOffset{line, Metres(5), {}};
    }
    [[nodiscard]] Reserves reserves() {
        score_and_rank(candidates, inventory);
        choose(candidates, inventory, settings);
        return reserves_of(candidates, inventory, settings);
    }
};

// Sites at 0 and 100 m. The tree at 20 m is the better one, and near site 1 only; that at 130 m near site 2.
TEST(Reserves, AreTheBestNearBy) {
    Row row({0, 100, 20, 130, 40});
    const Reserves reserves = row.reserves();
    ASSERT_EQ(reserves.of_sites.size(), 2U);
    EXPECT_EQ(reserves.of_sites[0]->tree, 2U);
    EXPECT_EQ(reserves.of_sites[0]->nearness, Nearness::near_by);
    EXPECT_DOUBLE_EQ(reserves.of_sites[0]->away.value(), 20.0);
    EXPECT_EQ(reserves.of_sites[1]->tree, 3U);
}

// 50 m from site 1 is near, but 20 m from site 2, which stays.
TEST(Reserves, KeepTheSpacingToTheSitesThatStay) {
    Row row({0, 70, 50, 45});
    const Reserves reserves = row.reserves();
    EXPECT_FALSE(reserves.of_sites[0]);
    EXPECT_EQ(reserves.of_sites[1]->tree, 2U);
    ASSERT_EQ(reserves.in_order.size(), 2U);
    EXPECT_EQ(reserves.in_order[0].tree, 2U);
    EXPECT_EQ(reserves.in_order[0].sites, std::vector<std::size_t>{2});
}

TEST(Reserves, ComeFromTheSameFlightLineWhereNoneIsNearAndElseFromAnywhere) {
    Row row({0, 300, 700, 500});
    row.beside_line(0, 1);
    row.beside_line(3, 1);
    const Reserves reserves = row.reserves();
    EXPECT_EQ(reserves.of_sites[0]->tree, 3U) << "the third is better, but beside another line";
    EXPECT_EQ(reserves.of_sites[0]->nearness, Nearness::same_flight_line);
    EXPECT_EQ(reserves.of_sites[1]->tree, 2U);
    EXPECT_EQ(reserves.of_sites[1]->nearness, Nearness::anywhere);
    ASSERT_EQ(reserves.in_order.size(), 2U);
    EXPECT_EQ(reserves.in_order[0].sites, (std::vector<std::size_t>{1, 2}));
}

TEST(Reserves, HaveEnoughEvidence) {
    Row row({0, 100, 20});
    row.candidates[2].activity.evenings_used = 1;
    const Reserves reserves = row.reserves();
    EXPECT_FALSE(reserves.of_sites[0]);
    EXPECT_TRUE(reserves.in_order.empty());
}

// One site an owner: the better tree belongs to the owner of site 2, so that it can replace that one alone.
TEST(Reserves, KeepQuotas) {
    Row row({0, 100, 20, 30});
    row.settings.at_most = {{Shared::owner, 1}};
    const char* const owners[] = {"church", "council", "council", "school"};
    for (std::size_t i = 0; i < 4; ++i)
        row.inventory.rows[i].owner = owners[i];
    const Reserves reserves = row.reserves();
    EXPECT_EQ(reserves.of_sites[0]->tree, 3U);
    ASSERT_EQ(reserves.in_order.size(), 1U) << "20 m from site 1, the third stands in for neither";
    EXPECT_EQ(reserves.in_order[0].tree, 3U);
}

}  // namespace
}  // namespace roostward::siting
