// `new`: what a park begins with, and how other people's files are recognised.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <numbers>
#include <set>

#include "cli/invented_inventories.hpp"
#include "cli/program.hpp"
#include "roostward/geo/crs.hpp"
#include "roostward/io/recognise.hpp"
#include "roostward/io/values.hpp"

namespace roostward {
namespace {

using testing::Inventory;
using testing::Ran;
using testing::run_program;
using testing::ScratchFolder;
using testing::TrueField;

std::vector<std::string> files_of(const Inventory& inventory, const ScratchFolder& folder) {
    return {(folder / inventory.file).string(), (folder / "passes.csv").string(),
            (folder / "watches.csv").string()};
}

const io::RecognisedLayer* layer_of(const io::Recognised& recognised, const std::string& role) {
    const auto found =
        std::ranges::find_if(recognised.layers, [&](const auto& layer) { return layer.source.role == role; });
    return found == recognised.layers.end() ? nullptr : &*found;
}

/// Centimetres or metres that a bare 1 in the column stands for.
double factor(const std::string& field, const std::string& unit, bool girth) {
    const std::string own = field == "dbh_cm" ? "cm" : "m";
    return io::micrometres_in(unit.empty() ? own : unit).value_or(0.0) / *io::micrometres_in(own) /
           (girth ? std::numbers::pi : 1.0);
}

/// Whether their word comes out as ours, by the map or because it is ours already.
bool maps_to(const io::FieldSource& source, const std::string& theirs, const std::string& ours) {
    const auto found = source.values.find(theirs);
    if (found != source.values.end()) return found->second == ours;
    if (ours == "yes" || ours == "no") return io::read_yes_no(theirs) == std::optional(ours == "yes");
    static const std::set<std::string> good{"good", "excellent", "verygood", "healthy"},
        fair{"fair", "moderate", "average"}, poor{"poor", "bad", "declining", "dying"};
    const std::string bare = io::bare_word(theirs);
    return ours == "good"   ? good.contains(bare)
           : ours == "fair" ? fair.contains(bare)
           : ours == "poor" ? poor.contains(bare)
                            : bare == "dead";
}

bool is_right(const io::FieldGuess& guess, const TrueField& truth) {
    if (guess.source.column != truth.column) return false;
    const bool length = guess.field == "dbh_cm" || guess.field.ends_with("_m");
    const double expected = factor(guess.field, truth.unit, truth.girth);
    if (length &&
        std::abs(factor(guess.field, guess.source.unit, guess.source.girth) / expected - 1.0) > 1e-9)
        return false;
    return std::ranges::all_of(
        truth.values, [&](const auto& word) { return maps_to(guess.source, word.first, word.second); });
}

struct Score {
    int expected = 0, right = 0, missing = 0, wrong_but_marked = 0, wrong = 0, marks = 0;
    std::string told;
};

void judge_fields(const Inventory& inventory, const io::RecognisedLayer& layer, Score& score) {
    const std::map<std::string, TrueField> truth = true_fields(inventory);
    const bool geometry = inventory.file.ends_with(".geojson");
    for (const auto& [field, expected] : truth) {
        if (geometry && (field == "lon" || field == "lat")) continue;
        ++score.expected;
        const auto guess = std::ranges::find(layer.fields, field, &io::FieldGuess::field);
        if (guess == layer.fields.end()) {
            ++score.missing;
            score.told += fmt::format("  {}: {} not found in {}\n", inventory.file, field, expected.column);
        } else if (is_right(*guess, expected)) {
            ++score.right;
        }
    }
    for (const io::FieldGuess& guess : layer.fields) {
        if (!guess.confirm.empty()) ++score.marks;
        const auto expected = truth.find(guess.field);
        if (expected != truth.end() && is_right(guess, expected->second)) continue;
        ++(guess.confirm.empty() ? score.wrong : score.wrong_but_marked);
        score.told +=
            fmt::format("  {}: {} wrongly from {} (unit \"{}\", {}): {}\n", inventory.file, guess.field,
                        guess.source.column, guess.source.unit, guess.source.girth ? "girth" : "as it is",
                        guess.confirm.empty() ? "NO MARK" : guess.confirm);
    }
}

/// The system counts as one more field, where one is needed.
void judge_crs(const Inventory& inventory, const io::RecognisedLayer& layer, Score& score) {
    const bool needed = !inventory.crs.empty();
    if (needed) ++score.expected;
    if (layer.source.crs.empty()) {
        if (needed)
            ++score.missing,
                score.told += fmt::format("  {}: no system: {}\n", inventory.file, layer.confirm_crs);
        return;
    }
    const core::PlanePoint place =
        geo::Transform(geo::wgs84(), {inventory.crs})({inventory.longitude, inventory.latitude});
    const core::PlanePoint lands = geo::Transform({layer.source.crs}, geo::wgs84())(place);
    const core::Metres off =
        geo::geodesic_distance({core::Degrees(lands.easting), core::Degrees(lands.northing)},
                               {core::Degrees(inventory.longitude), core::Degrees(inventory.latitude)});
    constexpr double datums_of_one_grid_m = 5.0;
    if (needed && off.value() < datums_of_one_grid_m) {
        ++score.right;
    } else {
        ++(layer.confirm_crs.empty() ? score.wrong : score.wrong_but_marked);
        score.told += fmt::format("  {}: {} for {}: {:.0f} m off\n", inventory.file, layer.source.crs,
                                  inventory.crs, off.value());
    }
    if (!layer.confirm_crs.empty()) ++score.marks;
}

TEST(New, WritesWhatAParkBeginsWith) {
    const ScratchFolder folder;
    const Ran ran = run_program({"new", (folder / "alder-reach").string()});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    const std::string site = testing::text_of(folder / "alder-reach/site.toml");
    EXPECT_NE(site.find("name = \"Alder Reach\""), std::string::npos);
    EXPECT_NE(testing::text_of(folder / "alder-reach/before_you_start.html").find("Nobody watches alone"),
              std::string::npos);
    EXPECT_FALSE(std::filesystem::exists(folder / "alder-reach/squares.geojson"));
    for (const char* sheet : {"passes", "watches", "trees"}) {
        EXPECT_NE(site.find(fmt::format("{0} = \"{0}.csv\"", sheet)), std::string::npos);
        EXPECT_TRUE(std::filesystem::exists(folder / fmt::format("alder-reach/{}.csv", sheet)));
        EXPECT_TRUE(std::filesystem::exists(folder / fmt::format("alder-reach/{}.xlsx", sheet)));
    }
    const Ran checked = run_program({"check", (folder / "alder-reach/site.toml").string()});
    EXPECT_EQ(checked.exit_code, 3);
    EXPECT_NE(checked.err.find("there is no pass in it"), std::string::npos) << checked.err;
}

TEST(New, TouchesNoFolderThatHoldsAnything) {
    const ScratchFolder folder;
    std::filesystem::create_directory(folder / "full");
    testing::put_text(folder / "full/plan.json", "{\"files\":[{\"file\":\"plan.json\"}]}");
    const Ran full = run_program({"new", (folder / "full").string()});
    EXPECT_EQ(full.exit_code, 2);
    EXPECT_NE(full.err.find("not empty: plan.json"), std::string::npos) << full.err;
    EXPECT_EQ(testing::bytes_of(folder / "full").size(), 1U);
    std::filesystem::create_directory(folder / "empty");
    EXPECT_EQ(run_program({"new", (folder / "empty").string()}).exit_code, 0);
    EXPECT_EQ(run_program({"new", (folder / "full/plan.json").string()}).exit_code, 2);
    EXPECT_EQ(run_program({"new", (folder / "none/park").string()}).exit_code, 2);
}

TEST(New, AFileThatCannotBeReadLeavesNothingBehind) {
    const ScratchFolder folder;
    testing::put_text(folder / "broken.gpkg", "not a database");
    const Ran ran =
        run_program({"new", (folder / "park").string(), "--files", (folder / "broken.gpkg").string()});
    EXPECT_EQ(ran.exit_code, 3);
    EXPECT_NE(ran.err.find("broken.gpkg"), std::string::npos) << ran.err;
    EXPECT_FALSE(std::filesystem::exists(folder / "park"));
}

TEST(New, AFileThatCannotBeReadIsLeftOutBesideOthers) {
    const ScratchFolder folder;
    testing::put_text(folder / "broken.gpkg", "not a database");
    write_park(testing::invented_inventories().front(), folder.path());
    const Ran ran =
        run_program({"new", (folder / "park").string(), "--files", (folder / "broken.gpkg").string(),
                     (folder / "passes.csv").string(), (folder / "watches.csv").string()});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    const std::string site = testing::text_of(folder / "park/site.toml");
    EXPECT_NE(site.find("# Not used: ../broken.gpkg"), std::string::npos) << site;
    EXPECT_NE(site.find("passes = \"../passes.csv\""), std::string::npos) << site;
    EXPECT_TRUE(std::filesystem::exists(folder / "park/trees.csv"));
    EXPECT_FALSE(std::filesystem::exists(folder / "park/passes.csv"));
}

TEST(New, ASheetFilledInWithSquaresOfTheMapIsRead) {
    const Inventory& inventory = testing::invented_inventories().front();
    const ScratchFolder folder;
    write_park(inventory, folder.path());
    ASSERT_EQ(run_program({"new", (folder / "park").string(), "--files", (folder / inventory.file).string(),
                           (folder / "watches.csv").string()})
                  .exit_code,
              0);
    const std::string header = testing::text_of(folder / "park/passes.csv");
    const std::string squares = testing::text_of(folder / "park/squares.geojson");
    const std::string key = "\"square\":\"";
    const std::size_t name = squares.find(key) + key.size();
    std::string passes = "date,time,watch,square\n";
    for (int i = 0; i < 20; ++i)
        passes += fmt::format("2026-09-20,19:{:02},W0,{}\n", 15 + i,
                              squares.substr(name, squares.find('"', name) - name));
    for (const char* column : {"date,", "time,", "watch,", "square,"})
        EXPECT_NE(header.find(column), std::string::npos) << header;
    testing::put_text(folder / "park/passes.csv", passes);
    const Ran checked = run_program({"check", (folder / "park/site.toml").string(), "--json"});
    EXPECT_EQ(checked.exit_code, 0) << checked.err;
    const auto rows = nlohmann::json::parse(checked.out)["rows"];
    const auto of_passes =
        std::ranges::find_if(rows, [](const auto& row) { return row["layer"] == "passes"; });
    ASSERT_NE(of_passes, rows.end());
    EXPECT_EQ((*of_passes)["read"], 20);
    EXPECT_EQ((*of_passes)["used"], 20);
}

TEST(New, ThirtyInventoriesAreRecognisedAndNothingIsGuessedInSilence) {
    Score score;
    for (const Inventory& inventory : testing::invented_inventories()) {
        const ScratchFolder folder;
        write_park(inventory, folder.path());
        const io::Recognised recognised = io::recognise(files_of(inventory, folder), folder / "park");
        const io::RecognisedLayer* trees = layer_of(recognised, "trees");
        EXPECT_NE(layer_of(recognised, "passes"), nullptr) << inventory.file;
        EXPECT_NE(layer_of(recognised, "watches"), nullptr) << inventory.file;
        ASSERT_NE(trees, nullptr) << inventory.file;
        judge_fields(inventory, *trees, score);
        judge_crs(inventory, *trees, score);
    }
    std::cout << fmt::format(
        "{} inventories: {} of {} fields right ({:.0f} %), {} not found, {} wrong but marked, {} wrong "
        "without a mark; {} marks\n{}",
        testing::invented_inventories().size(), score.right, score.expected,
        100.0 * score.right / score.expected, score.missing, score.wrong_but_marked, score.wrong, score.marks,
        score.told);
    EXPECT_EQ(testing::invented_inventories().size(), 30U);
    EXPECT_EQ(score.wrong, 0);
    EXPECT_GE(score.right * 10, score.expected * 9);
}

TEST(New, CheckAndPlanRunOnWhatWasRecognised) {
    int planned = 0;
    for (const Inventory& inventory : testing::invented_inventories()) {
        const ScratchFolder folder;
        write_park(inventory, folder.path());
        std::vector<std::string> words{"new", (folder / "park").string(), "--files"};
        std::ranges::copy(files_of(inventory, folder), std::back_inserter(words));
        ASSERT_EQ(run_program(words).exit_code, 0) << inventory.file;
        const std::string site = (folder / "park/site.toml").string();
        const Ran checked = run_program({"check", site});
        ASSERT_EQ(checked.exit_code, 0) << inventory.file << checked.err << testing::text_of(site);
        // Coarse maps: they cost most of the time and say nothing here.
        const Ran ran =
            run_program({"plan", site, "--out", (folder / "out").string(), "--set", "activity.cell_m=5"});
        EXPECT_TRUE(ran.exit_code == 0 || ran.exit_code == 4) << inventory.file << ran.err;
        if (ran.exit_code == 0) ++planned;
    }
    std::cout << planned << " of 30 parks had sites chosen, the others none that can be chosen\n";
}

}  // namespace
}  // namespace roostward
