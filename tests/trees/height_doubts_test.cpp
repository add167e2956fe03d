#include "roostward/trees/height_doubts.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace roostward::trees {
namespace {

using core::Metres;

/// Twenty trees of 20 m in a row, 10 m apart, each crown a block of 20 m in the model.
struct Avenue {
    Inventory inventory;
    std::optional<core::Raster> canopy;
    Settings settings;

    Avenue() {
        canopy.emplace();
        canopy->grid = {{0.0, 10.0}, Metres(1.0), 10, 200};
        canopy->values.assign(2000, 20.0F);
        canopy->known.assign(2000, 1);
        inventory.file = "trees.csv";
        inventory.layer = "trees";
        for (std::size_t i = 0; i < 20; ++i) {
            Tree tree;
            tree.row = i + 1;
            tree.stem = {10.0 * static_cast<double>(i) + 5.0, 5.0};
            tree.height = Metres(20);
            inventory.rows.push_back(tree);
        }
    }
    /// All cells within 5 m to the east and west of a tree.
    void grow(std::size_t tree, float height) {
        for (std::size_t i = 0; i < canopy->values.size(); ++i)
            if (i % 200 / 10 == tree) canopy->values[i] = height;
    }
    [[nodiscard]] core::Findings findings() const { return height_doubts(inventory, canopy, settings, {}); }
};

TEST(HeightDoubts, AreNoneWhereInventoryAndCanopyAgree) {
    Avenue avenue;
    EXPECT_TRUE(avenue.findings().empty());
    avenue.canopy.reset();
    EXPECT_TRUE(avenue.findings().empty());
}

TEST(HeightDoubts, TellOfMoreThanOneTreeInTwenty) {
    Avenue avenue;
    avenue.grow(3, 5.0F);
    EXPECT_TRUE(avenue.findings().empty()) << "5 % of them";
    avenue.grow(11, 0.0F);
    avenue.grow(15, 27.5F);
    const core::Findings findings = avenue.findings();
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].severity, core::Severity::doubtful);
    EXPECT_EQ(findings[0].place.file, "trees.csv");
    EXPECT_EQ(findings[0].place.field, "height_m");
    EXPECT_EQ(findings[0].value, "3 of 20 trees");
    EXPECT_NE(findings[0].sentence.find("by -15.0 m in their median"), std::string::npos);
    EXPECT_NE(
        findings[0].sentence.find("row 12: 20.0 m told, 0.0 m in the model; row 4: 20.0 m told, 5.0 m in "
                                  "the model; row 16: 20.0 m told, 27.5 m in the model"),
        std::string::npos)
        << findings[0].sentence;
}

// 30 % of 20 m are 6 m; of 5 m they are less than 3 m. Both limits themselves still agree.
TEST(HeightDoubts, AllowThreeMetresAndThirtyPerCent) {
    const auto odd = [](double told, float in_model) {
        Avenue avenue;
        avenue.grow(0, in_model);
        avenue.inventory.rows.resize(1);
        avenue.inventory.rows[0].height = Metres(told);
        return !avenue.findings().empty();
    };
    EXPECT_FALSE(odd(20.0, 26.0F));
    EXPECT_TRUE(odd(20.0, 26.5F));
    EXPECT_FALSE(odd(20.0, 14.0F));
    EXPECT_TRUE(odd(20.0, 13.5F));
    EXPECT_FALSE(odd(5.0, 8.0F));
    EXPECT_TRUE(odd(5.0, 8.5F));
    EXPECT_FALSE(odd(5.0, 2.0F));
    EXPECT_TRUE(odd(5.0, 1.5F));
}

TEST(HeightDoubts, LeaveOutTreesThatCannotBeCompared) {
    Avenue avenue;
    for (std::size_t i = 0; i < 20; ++i)
        avenue.grow(i, 3.0F);
    for (Tree& tree : avenue.inventory.rows)
        tree.height.reset();
    EXPECT_TRUE(avenue.findings().empty()) << "no heights told";
    avenue.inventory.rows[7].height = Metres(20);
    EXPECT_EQ(avenue.findings().at(0).value, "1 of 1 trees");
    avenue.canopy->known[5 * 200 + 75] = 0;
    EXPECT_TRUE(avenue.findings().empty()) << "its crown holds an unknown cell";
}

TEST(HeightDoubts, LookWithinTheTreesOwnCrown) {
    Avenue avenue;
    avenue.inventory.rows.resize(1);
    avenue.inventory.rows[0].height = Metres(8);
    avenue.grow(0, 8.0F);  // the next crown, 20 m high, begins 5 m to the east; its first middle is 5.5 m off
    avenue.inventory.rows[0].stem = {5.0, 5.5};
    EXPECT_TRUE(avenue.findings().empty()) << "3 m where not told";
    avenue.inventory.rows[0].crown_radius = Metres(4);
    EXPECT_TRUE(avenue.findings().empty());
    avenue.inventory.rows[0].stem = {6.5, 5.5};
    EXPECT_FALSE(avenue.findings().empty());
}

}  // namespace
}  // namespace roostward::trees
