#include "world.hpp"

#include "roostward/core/random.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace roostward::trees {
namespace {

TEST(Suitability, LetsATreeThatMeetsEveryRuleBeChosen) {
    const Verdict verdict = World().verdict();
    EXPECT_EQ(verdict.state, State::can_be_chosen);
    EXPECT_TRUE(verdict.reasons.empty());
}

TEST(Suitability, GivesMeasuredAndRequiredValues) {
    World world;
    world.tree().dbh = Centimetres(18);
    const Reason reason = world.verdict().reasons.front();
    EXPECT_EQ(core::to_json(reason.measured), "18");
    EXPECT_EQ(core::to_json(reason.required), "25");
    world.tree().condition = Condition::dead;
    EXPECT_EQ(core::to_json(world.verdict().reasons.back().measured), "\"dead\"");
    EXPECT_EQ(core::to_json(world.verdict().reasons.back().required), "[\"good\",\"fair\"]");
}

std::vector<std::string> rules_of(const Verdict& verdict) {
    std::vector<std::string> rules;
    for (const Reason& reason : verdict.reasons)
        rules.push_back(reason.rule);
    return rules;
}

TEST(Suitability, GivesEveryReasonNotOnlyTheFirst) {
    World world;
    world.tree().dbh = Centimetres(10);
    world.tree().height = Metres(3);
    world.tree().hazard.reset();
    world.tree().permission = Permission::refused;
    with_avoid(world, line({0, -9}, {0, 9}), 10, State::settle_first, "network owner");
    const Verdict verdict = world.verdict();
    EXPECT_EQ(rules_of(verdict), (std::vector<std::string>{"trunk too thin", "too low", "safety not judged",
                                                           "refused", "overhead power line"}));
    EXPECT_EQ(verdict.state, State::ruled_out);
}

// "A column that is missing altogether keeps its trees in the ranking, subject to check."
TEST(Suitability, HoldsNothingAgainstATreeForAColumnThatIsMissing) {
    World world;
    world.inventory.columns = {};
    world.tree() = Tree{};
    EXPECT_EQ(world.verdict().state, State::can_be_chosen);
    world.tree().hazard = Hazard::improbable;
    EXPECT_EQ(world.verdict().state, State::can_be_chosen);
}

TEST(Suitability, IsCarefulWithoutADateForToday) {
    World world;
    world.around.today = {};
    world.tree().work_due = date(2090, 1, 1);
    EXPECT_EQ(rules_of(world.verdict()), (std::vector<std::string>{"safety outdated", "planned work"}));
}

/// Trees with anything told or not, among power lines, roads and roosts.
World random_world(std::uint64_t seed, std::size_t trees) {
    core::RandomStream random(seed, "trees");
    World world;
    const Tree whole = world.tree();
    world.inventory.rows.clear();
    for (std::size_t i = 0; i < trees; ++i) {
        Tree tree = whole;
        tree.stem = {random.uniform(0, 500), random.uniform(0, 500)};
        tree.dbh = Centimetres(random.uniform(15, 80));
        tree.crown_radius = Metres(random.uniform(1, 8));
        if (random.uniform() < 0.3) tree.crown_radius.reset();
        if (random.uniform() < 0.1) tree.hazard.reset();
        if (random.uniform() < 0.1) tree.condition = Condition::poor;
        if (random.uniform() < 0.1) tree.permission = Permission::asked;
        world.inventory.rows.push_back(tree);
    }
    for (int i = 0; i < 2; ++i) {
        const double at = random.uniform(100, 400);
        world.around.avoid.push_back({"lines.geojson",
                                      "line " + std::to_string(i),
                                      Metres(20),
                                      i == 0 ? State::ruled_out : State::settle_first,
                                      "network owner",
                                      {line({at, 0}, {500 - at, 500}), line({0, at}, {500, at})}});
    }
    with_roosts(world, {{250, 250}, {100, 400}});
    return world;
}

bool holds_all(const std::vector<std::string>& all, const std::vector<std::string>& some) {
    return std::all_of(some.begin(), some.end(), [&](const std::string& rule) {
        return std::find(all.begin(), all.end(), rule) != all.end();
    });
}

// Law: the state is the gravest of the reasons' states, and a further feature never makes it lighter.
TEST(Suitability, NeverGrowsLighterWithMoreReasons) {
    World world = random_world(1, 1000);
    const auto more = judge(world.inventory, world.around, world.settings, {});
    const AvoidLayer taken = world.around.avoid.front();
    world.around.avoid.erase(world.around.avoid.begin());
    world.around.roosts.clear();
    const auto fewer = judge(world.inventory, world.around, world.settings, {});
    for (std::size_t i = 0; i < more.size(); ++i) {
        State gravest = State::can_be_chosen;
        for (const Reason& reason : more[i].reasons)
            gravest = std::max(gravest, reason.state);
        EXPECT_EQ(more[i].state, gravest);
        EXPECT_GE(more[i].state, fewer[i].state);
        EXPECT_TRUE(holds_all(rules_of(more[i]), rules_of(fewer[i])));
    }
}

TEST(Suitability, MeasuresFromTheCrownsEdgeForEveryTree) {
    const World world = random_world(2, 1000);
    const auto verdicts = judge(world.inventory, world.around, world.settings, {});
    int near = 0;
    for (std::size_t i = 0; i < verdicts.size(); ++i) {
        const Tree& tree = world.inventory.rows[i];
        const PlanePoint stem = tree.stem;
        for (const AvoidLayer& layer : world.around.avoid) {
            // Both lines cross the whole park, so the distance is that to the endless line.
            double distance = 1e9;
            for (const geo::Shape& shape : layer.shapes) {
                const PlanePoint a = shape.lines[0][0];
                const PlanePoint b = shape.lines[0][1];
                const double across = (b.easting - a.easting) * (stem.northing - a.northing) -
                                      (b.northing - a.northing) * (stem.easting - a.easting);
                distance = std::min(distance, std::abs(across) / core::distance(a, b).value());
            }
            const double crown = tree.crown_radius ? tree.crown_radius->value() : 6.0;
            const bool expected = distance - crown <= 20.0;
            // Where the foot of the perpendicular lies past a line's end, the true distance is longer.
            const bool near_a_corner =
                std::min({stem.easting, 500 - stem.easting, stem.northing, 500 - stem.northing}) < 40;
            if (near_a_corner) continue;
            const auto rules = rules_of(verdicts[i]);
            EXPECT_EQ(std::find(rules.begin(), rules.end(), layer.reason) != rules.end(), expected);
            near += expected ? 1 : 0;
        }
    }
    EXPECT_GT(near, 100);
}

TEST(Suitability, IsTheSameForAnyNumberOfThreads) {
    const World world = random_world(3, 5000);
    const auto told = [&](unsigned threads) {
        std::string text;
        for (const Verdict& verdict :
             judge(world.inventory, world.around, world.settings, core::Threads{threads}))
            for (const Reason& reason : verdict.reasons)
                text += reason.sentence + core::to_json(reason.measured) + "\n";
        return text;
    };
    const std::string one = told(1);
    EXPECT_GT(one.size(), 10000U);
    EXPECT_EQ(one, told(2));
    EXPECT_EQ(one, told(7));
}

TEST(Suitability, TakesAnEmptyInventory) {
    World world;
    world.inventory.rows.clear();
    EXPECT_TRUE(judge(world.inventory, world.around, world.settings, {}).empty());
}

}  // namespace
}  // namespace roostward::trees
