#include "roostward/siting/choice.hpp"

#include <gtest/gtest.h>

#include <string>

#include "evidence.hpp"
#include "roostward/core/error.hpp"

namespace roostward::siting {
namespace {

/// Trees 100 m apart, each a little worse than the one before: T0, T1 …
struct Row {
    trees::Inventory inventory;
    std::vector<Candidate> candidates;
    Settings settings;

    explicit Row(std::size_t trees) {
        inventory.file = "trees.csv";
        inventory.layer = "trees";
        settings.site_file = "site.toml";
        for (const auto field : {trees::TreeField::owner, trees::TreeField::cost})
            inventory.columns.add(field);
        for (std::size_t i = 0; i < trees; ++i) {
            trees::Tree tree;
            tree.id = "T" + std::to_string(i);
            tree.row = i + 2;
            tree.stem = {100.0 * static_cast<double>(i), 0.0};
            tree.owner = "council";
            tree.cost = 100.0;
            inventory.rows.push_back(tree);
            Candidate candidate;
            candidate.score = 0.9 - 0.1 * static_cast<double>(i);
            candidate.rank = i + 1;
            candidate.enough_evidence = true;
            candidates.push_back(candidate);
        }
    }
    Choice chosen() {
        findings = heed_wishes(candidates, inventory, settings);
        return choose(candidates, inventory, settings.choice);
    }
    [[nodiscard]] std::vector<std::size_t> sites() const { return in_order_of_site(candidates); }

    /// What it refuses with.
    void refuses(core::Fault fault, std::initializer_list<const char*> said) {
        try {
            static_cast<void>(heed_wishes(candidates, inventory, settings));
            ADD_FAILURE() << "nothing was wrong";
        } catch (const core::Error& error) {
            EXPECT_EQ(error.fault(), fault);
            for (const std::string words : said)
                EXPECT_NE(std::string(error.what()).find(words), std::string::npos)
                    << words << ": " << error.what();
        }
    }
    core::Findings findings;
};

using Trees = std::vector<std::size_t>;

TEST(Choice, TakesWhatMustAndLeavesWhatNever) {
    Row row(5);
    row.settings.choice.sites = 2;
    row.settings.choice.must = {" t3"};
    row.settings.choice.never = {"T0"};
    row.candidates[3].enough_evidence = false;
    const Choice choice = row.chosen();
    EXPECT_EQ(row.sites(), (Trees{1, 3}));
    EXPECT_NEAR(choice.total_score, 0.8 + 0.6, 1e-9);
    EXPECT_TRUE(choice.proven && choice.unique);
    EXPECT_EQ(row.candidates[0].wish, Wish::never);
}

TEST(Choice, AMustKeepsItsDistanceFromOthers) {
    Row row(3);
    row.inventory.rows[1].stem = {20.0, 0.0};
    row.settings.choice.must = {"T1"};
    EXPECT_EQ(row.chosen().too_near, 1U);
    EXPECT_EQ(row.sites(), (Trees{1, 2}));
}

TEST(Choice, QuotasCountTheSameOwnerInAnyLetters) {
    Row row(5);
    row.inventory.rows[1].owner = "Council ";
    row.inventory.rows[3].owner = "church";
    row.settings.choice.at_most = {{Shared::owner, 2}};
    const Choice choice = row.chosen();
    EXPECT_EQ(row.sites(), (Trees{0, 1, 3}));
    ASSERT_EQ(choice.full.size(), 1U);
    EXPECT_EQ(choice.full[0].name, "council");
    EXPECT_EQ(choice.full[0].kept_out, 2U);
    EXPECT_TRUE(row.findings.empty());
}

TEST(Choice, TreesOfUnknownOwnersCountTogetherAndAreTold) {
    Row row(4);
    row.inventory.rows[0].owner = row.inventory.rows[2].owner = "";
    row.settings.choice.at_most = {{Shared::owner, 1}};
    static_cast<void>(row.chosen());
    EXPECT_EQ(row.sites(), (Trees{0, 1}));
    ASSERT_EQ(row.findings.size(), 1U);
    EXPECT_EQ(row.findings[0].kind, "no owner");
    EXPECT_EQ(row.findings[0].rows, 2U);
    EXPECT_EQ(row.findings[0].place.row, 2U);
}

TEST(Choice, StaysWithinTheBudget) {
    Row row(4);
    row.inventory.rows[0].cost = 250.0;
    row.inventory.rows[3].cost.reset();
    row.settings.choice.budget = 300.0;
    const Choice choice = row.chosen();
    EXPECT_EQ(row.sites(), (Trees{1, 2})) << "1.5 for 200 beats 0.9 for 250";
    EXPECT_EQ(choice.spent, 200.0);
    EXPECT_EQ(choice.too_dear, 1U);
    ASSERT_EQ(row.findings.size(), 1U);
    EXPECT_EQ(row.findings[0].kind, "no cost");
}

TEST(Choice, TheBestSetOfARedrawKeepsTheSameRules) {
    Row row(5);
    row.settings.choice.sites = 3;
    row.settings.choice.must = {"T4"};
    row.settings.choice.at_most = {{Shared::owner, 2}};
    row.inventory.rows[1].owner = "church";
    static_cast<void>(row.chosen());
    std::vector<Contender> contenders;
    for (std::size_t i = 0; i < row.candidates.size(); ++i)
        contenders.push_back(contender_of(row.candidates, i));
    EXPECT_EQ(best_apart(contenders, row.inventory, row.settings.choice), row.sites());
    EXPECT_EQ(row.sites(), (Trees{0, 1, 4}));
}

TEST(Choice, RefusesWhatCannotBe) {
    const auto refused = [](core::Fault fault, std::initializer_list<const char*> said, auto spoil) {
        Row row(5);
        spoil(row);
        row.refuses(fault, said);
    };
    using core::Fault;
    refused(Fault::site_file, {"site.toml", "choose.must", "trees.csv", "\"T9\""},
            [](Row& row) { row.settings.choice.must = {"T9"}; });
    refused(Fault::site_file, {"choose.never", "\"T9\""},
            [](Row& row) { row.settings.choice.never = {"T9"}; });
    refused(Fault::site_file, {"choose.must", "T1", "never"},
            [](Row& row) { row.settings.choice.must = row.settings.choice.never = {"T1"}; });
    refused(Fault::site_file, {"\"T1\"", "rows 2 and 3"}, [](Row& row) {
        row.inventory.rows[0].id = "t1";
        row.settings.choice.must = {"T1"};
    });
    refused(Fault::site_file, {"T0 and T1", "20.0 m", "spacing_m"}, [](Row& row) {
        row.inventory.rows[1].stem = {20.0, 0.0};
        row.settings.choice.must = {"T0", "T1"};
    });
    refused(Fault::site_file, {"choose.must", "2 trees", "sites = 1"}, [](Row& row) {
        row.settings.choice.sites = 1;
        row.settings.choice.must = {"T0", "T1"};
    });
    refused(Fault::site_file, {"T1", "at_most", "owner \"council\""}, [](Row& row) {
        row.settings.choice.must = {"T0", "T1"};
        row.settings.choice.at_most = {{Shared::owner, 1}};
    });
    refused(Fault::site_file, {"cost 200", "budget of 150"}, [](Row& row) {
        row.settings.choice.must = {"T0", "T1"};
        row.settings.choice.budget = 150.0;
    });
    refused(Fault::inputs, {"T2", "row 4", "no cost"}, [](Row& row) {
        row.settings.choice.must = {"T2"};
        row.settings.choice.budget = 150.0;
        row.inventory.rows[2].cost.reset();
    });
    refused(Fault::inputs, {"choose.budget", "trees.csv", "cost"}, [](Row& row) {
        row.settings.choice.budget = 150.0;
        row.inventory.columns = {};
    });
    refused(Fault::inputs, {"choose.at_most", "trees.csv", "zone"}, [](Row& row) {
        row.settings.choice.at_most = {{Shared::zone, 1}};
    });
}

TEST(Choice, AWishNeverOverridesARule) {
    for (const auto state :
         {trees::State::ruled_out, trees::State::settle_first, trees::State::not_watched}) {
        Row row(3);
        row.settings.choice.must = {"T1"};
        row.candidates[1].verdict.state = state;
        row.candidates[1].verdict.reasons.push_back(
            {"a rule", state, {}, {}, {}, "The trunk is too thin.", {}});
        row.refuses(core::Fault::inputs,
                    {"choose.must", "T1", "row 3", "The trunk is too thin.", "Take it out"});
    }
}

}  // namespace
}  // namespace roostward::siting
