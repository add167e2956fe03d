// What a copy for everybody must not hold, looked for in all of its bytes.
#include <gtest/gtest.h>

#include <cctype>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <sstream>

#include "cli/program.hpp"

namespace roostward {
namespace {

using nlohmann::json;
using testing::ScratchFolder;

/// The cells of a column of one of the demo's tables, none of which is quoted.
std::set<std::string> column(const char* file, const std::string& name) {
    std::ifstream table(testing::demo() / file);
    std::string line;
    const auto cells_of = [](const std::string& text) {
        std::vector<std::string> cells;
        std::stringstream parts(text);
        for (std::string part; std::getline(parts, part, ',');)
            cells.push_back(part);
        return cells;
    };
    std::getline(table, line);
    const auto header = cells_of(line);
    const auto at = static_cast<std::size_t>(std::ranges::find(header, name) - header.begin());
    std::set<std::string> values;
    while (std::getline(table, line)) {
        const auto cells = cells_of(line);
        if (at < cells.size() && !cells[at].empty()) values.insert(cells[at]);
    }
    EXPECT_FALSE(values.empty()) << file << " " << name;
    return values;
}

/// Whether a word stands in a text by itself, in any case.
bool holds_word(const std::string& text, const std::string& word) {
    const auto same = [](char a, char b) {
        return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
    };
    const auto in_word = [&text](std::ptrdiff_t i) {
        return i >= 0 && i < std::ssize(text) &&
               std::isalnum(static_cast<unsigned char>(text[static_cast<std::size_t>(i)])) != 0;
    };
    for (auto at = text.begin();; ++at) {
        at = std::search(at, text.end(), word.begin(), word.end(), same);
        if (at == text.end()) return false;
        const auto first = at - text.begin();
        if (!in_word(first - 1) && !in_word(first + std::ssize(word))) return true;
    }
}

/// Every number of a text, with how many decimals it has.
struct Number {
    double value = 0.0;
    std::size_t decimals = 0;
};
std::vector<Number> numbers_of(const std::string& text) {
    std::vector<Number> all;
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t begin = text.find_first_of("0123456789", i);
        if (begin == std::string::npos) break;
        const std::size_t end = std::min(text.find_first_not_of("0123456789.", begin), text.size());
        const std::string word = text.substr(begin, end - begin);
        const std::size_t point = word.find('.');
        all.push_back(
            {std::strtod(word.c_str(), nullptr), point == std::string::npos ? 0 : word.size() - point - 1});
        i = end;
    }
    return all;
}

class PublicCopy : public ::testing::Test {
 protected:
    static void SetUpTestSuite() {
        folder = new ScratchFolder;
        ran =
            new testing::Ran(testing::run_program({"plan", (testing::demo() / "site.toml").string(), "--out",
                                                   (*folder / "out").string(), "--public", "--quiet"}));
    }
    static void TearDownTestSuite() {
        delete ran;
        delete folder;
    }
    static std::string bytes() {
        std::string all;
        for (const auto& [name, text] : testing::bytes_of(*folder / "out"))
            all += name + "\n" + text + "\n";
        return all;
    }
    /// Without the style, hashes and the plan's number, whose digits are no places.
    static std::string bytes_that_may_be_places() {
        std::string all = bytes();
        all.erase(all.find("<style>"), all.find("</style>") - all.find("<style>"));
        const std::string number = json::parse(testing::text_of(*folder / "out" / "plan.json"))["number"];
        EXPECT_EQ(number.size(), 8U);
        return std::regex_replace(all, std::regex(R"re("sha256": "[0-9a-f]{64}"|)re" + number), "");
    }

    static inline ScratchFolder* folder = nullptr;
    static inline testing::Ran* ran = nullptr;
};

TEST_F(PublicCopy, IsAPageAndASummary) {
    ASSERT_EQ(ran->exit_code, 0) << ran->err;
    const auto files = testing::bytes_of(*folder / "out");
    ASSERT_EQ(files.size(), 2U);
    EXPECT_EQ(files[0].first, "plan.json");
    EXPECT_EQ(files[1].first, "report.html");
    const json plan = json::parse(files[0].second);
    EXPECT_EQ(plan["boxes"], 12);
    EXPECT_GE(plan["squares"].size(), 4U);
    std::size_t boxes = plan["boxes_elsewhere"];
    for (const auto& square : plan["squares"]) {
        boxes += square["boxes"].get<std::size_t>();
        EXPECT_EQ(std::fmod(square["east"].get<double>(), 100.0), 0.0);
        EXPECT_EQ(std::fmod(square["north"].get<double>(), 100.0), 0.0);
    }
    EXPECT_EQ(boxes, 12U);
}

TEST_F(PublicCopy, HoldsNoTagNameOrFile) {
    const std::string text = bytes();
    for (const auto& [file, name] : {std::pair{"trees.csv", "asset_no"},
                                     {"trees.csv", "species"},
                                     {"trees.csv", "owner"},
                                     {"watches.csv", "observer"},
                                     {"watches.csv", "watch"},
                                     {"roosts.csv", "roost"},
                                     {"tallies.csv", "along"}})
        for (const std::string& value : column(file, name))
            EXPECT_FALSE(holds_word(text, value)) << file << " " << name << ": " << value;
    EXPECT_EQ(text.find("data:image"), std::string::npos) << "the picture from above";
    for (const auto& entry : std::filesystem::directory_iterator(testing::demo()))
        EXPECT_FALSE(holds_word(text, entry.path().filename().string())) << entry.path();
}

// Every place of the demo lies within one degree of 52.298 N, 1.897 W; its easting and northing, in whatever
// metric system, have six digits and more.
TEST_F(PublicCopy, HoldsNoExactPlace) {
    for (const Number& number : numbers_of(bytes_that_may_be_places())) {
        EXPECT_FALSE(number.decimals >= 2 && ((number.value > 51.298 && number.value < 53.298) ||
                                              (number.value > 0.897 && number.value < 2.897)))
            << number.value;
        EXPECT_TRUE(number.value < 1e5 || std::fmod(number.value, 100.0) == 0.0) << number.value;
    }
}

TEST_F(PublicCopy, ReplacesAPlanWhollyAndItselfAgain) {
    const ScratchFolder scratch;
    const std::string site = (testing::demo() / "site.toml").string(), out = (scratch / "out").string();
    ASSERT_EQ(testing::run_program({"plan", site, "--out", out, "--quiet"}).exit_code, 0);
    ASSERT_TRUE(std::filesystem::exists(scratch / "out" / "plan.gpkg"));
    for (int i = 0; i < 2; ++i) {
        const auto again = testing::run_program({"plan", site, "--out", out, "--public", "--quiet"});
        ASSERT_EQ(again.exit_code, 0) << again.err;
        EXPECT_EQ(testing::bytes_of(scratch / "out").size(), 2U);
    }
}

TEST_F(PublicCopy, AnswersNoQuestionAboutATree) {
    const auto asked = testing::run_program({"why", (*folder / "out").string(), "0155"});
    EXPECT_EQ(asked.exit_code, 2);
    EXPECT_NE(asked.err.find("a copy for everybody, which names no tree"), std::string::npos) << asked.err;
}

TEST_F(PublicCopy, SaysThatNoBoxIsPlanned) {
    const ScratchFolder scratch;
    const auto none = testing::run_program({"plan", (testing::demo() / "site.toml").string(), "--out",
                                            (scratch / "out").string(), "--public", "--quiet", "--set",
                                            "suitability.min_dbh_cm=500"});
    EXPECT_EQ(none.exit_code, 4) << none.err;
    EXPECT_NE(testing::text_of(scratch / "out" / "report.html").find("No box is planned."),
              std::string::npos);
}

}  // namespace
}  // namespace roostward
