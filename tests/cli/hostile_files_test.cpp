// An inventory that somebody wrote to do harm comes out as text in every file that other programs open. The
// page has a test of its own (tests/page).
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "cli/program.hpp"

namespace roostward {
namespace {

using nlohmann::json;
using testing::ScratchFolder;
using Rows = std::vector<std::vector<std::string>>;

const std::vector<std::string>& hostile_names() {
    static const std::vector<std::string> names{"<script>alert(1)</script>",
                                                "</name></wpt><wpt lat=\"0\" lon=\"0\">",
                                                "=HYPERLINK(\"http://x\")",
                                                "oak;=1+1",
                                                "\xE2\x80\xAE"
                                                "abc\xE2\x81\xA6",
                                                "&\"'<![CDATA[ ]]>",
                                                "'); DROP TABLE trees; --",
                                                std::string(10'000, 'x')};
    return names;
}

std::string cell(const std::string& text) {
    std::string quoted = "\"";
    for (const char c : text)
        quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
    return quoted + "\"";
}

/// The demo, whose best trees have tags, species and owners of the kind.
void spoil_demo(const ScratchFolder& park) {
    testing::copy_demo(park);
    constexpr std::array<std::string_view, 8> best{"0155", "0150", "0152", "0151",
                                                   "0153", "0256", "0303", "0307"};
    std::stringstream lines(testing::text_of(park / "trees.csv"));
    std::string spoilt;
    for (std::string line; std::getline(lines, line);) {
        const auto found = std::ranges::find(best, line.substr(0, 4));
        if (found != best.end()) {
            const auto which = static_cast<std::size_t>(found - best.begin());
            std::vector<std::string> cells;
            std::stringstream parts(line);
            for (std::string part; std::getline(parts, part, ',');)
                cells.push_back(part);
            cells[0] = cell(hostile_names()[which]);
            cells[1] = cell(hostile_names()[(which + 1) % best.size()]);
            cells[10] = cell(hostile_names()[(which + 2) % best.size()]);
            line = cells[0];
            for (std::size_t i = 1; i < cells.size(); ++i)
                line += "," + cells[i];
        }
        spoilt += line + "\n";
    }
    testing::put_text(park / "trees.csv", spoilt);
}

/// The table of a file as RFC 4180 reads it.
Rows rows_of(const std::string& text) {
    Rows rows{{""}};
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"')
            rows.back().back() += text[++i];
        else if (c == '"')
            quoted = !quoted;
        else if (!quoted && c == ',')
            rows.back().emplace_back();
        else if (!quoted && c == '\n')
            rows.push_back({""});
        else if (quoted || c != '\r')
            rows.back().back() += c;
    }
    rows.pop_back();
    return rows;
}

/// What a command prints.
std::string output_of(const std::string& command) {
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe(::popen(command.c_str(), "r"), ::pclose);
    std::string all;
    std::array<char, 4096> part{};
    while (const std::size_t read = std::fread(part.data(), 1, part.size(), pipe.get()))
        all.append(part.data(), read);
    return all;
}

/// A layer's features, as GDAL reads them.
json features_of(const std::filesystem::path& file, const std::string& layer) {
    return json::parse(output_of("ogr2ogr -f GeoJSON /vsistdout/ '" + file.string() + "' " + layer +
                                 " 2>/dev/null"))["features"];
}

class HostileFiles : public ::testing::Test {
 protected:
    static void SetUpTestSuite() {
        park = new ScratchFolder;
        spoil_demo(*park);
        ran = testing::run_program(
                  {"plan", (*park / "site.toml").string(), "--out", (*park / "out").string(), "--quiet"})
                  .exit_code;
    }
    static void TearDownTestSuite() { delete park; }
    void SetUp() override { ASSERT_EQ(ran, 0); }

    static std::filesystem::path out(const char* name) { return *park / "out" / name; }
    /// Tags of the chosen trees, site 1 first.
    static std::vector<std::string> chosen() {
        const json ranked = json::parse(testing::text_of(out("ranked_sites.geojson")));
        std::vector<std::string> tags(6);
        for (const auto& tree : ranked["features"])
            if (tree["properties"]["chosen"].get<bool>())
                tags.at(tree["properties"]["site"].get<std::size_t>() - 1) = tree["properties"]["tree"];
        return tags;
    }

    static inline ScratchFolder* park = nullptr;
    static inline int ran = -1;
};

TEST_F(HostileFiles, TheNamesTakePart) {
    const auto tags = chosen();
    EXPECT_GE(std::ranges::count_if(tags,
                                    [](const std::string& tag) {
                                        return std::ranges::find(hostile_names(), tag) !=
                                               hostile_names().end();
                                    }),
              4);
}

// GPX 1.1: see tests/reference/report/SOURCE.
TEST_F(HostileFiles, GpxIsValidAndTellsEverySite) {
    const std::string schema = std::string(ROOSTWARD_SOURCE_DIR) + "/tests/reference/report/gpx.xsd";
    const auto validate = [&schema](const std::filesystem::path& file) {
        return std::system(
            ("xmllint --nonet --noout --schema " + schema + " '" + file.string() + "' 2>/dev/null").c_str());
    };
    EXPECT_EQ(validate(out("chosen_sites.gpx")), 0);
    std::string broken = testing::text_of(out("chosen_sites.gpx"));
    broken.replace(broken.find("<cmt>"), 5, "<desc/><cmt>");
    testing::put_text(*park / "broken.gpx", broken);
    EXPECT_NE(validate(*park / "broken.gpx"), 0) << "the schema itself must be able to find a fault";

    const auto tags = chosen();
    const json waypoints = features_of(out("chosen_sites.gpx"), "waypoints");
    ASSERT_EQ(waypoints.size(), tags.size());
    for (std::size_t i = 0; i < tags.size(); ++i)
        EXPECT_EQ(waypoints[i]["properties"]["name"], "Site " + std::to_string(i + 1) + ", tree " + tags[i]);
}

TEST_F(HostileFiles, NoCellOfATableRunsAsAFormula) {
    for (const char* name : {"boxes_to_hang.csv", "findings.csv"}) {
        const Rows rows = rows_of(testing::text_of(out(name)));
        ASSERT_GT(rows.size(), 10U) << name;
        for (const auto& row : rows)
            for (const auto& text : row) {
                ASSERT_EQ(row.size(), rows.front().size()) << name;
                const std::size_t first = text.find_first_not_of(' ');
                if (first == std::string::npos || text.find_first_not_of("-.0123456789") == std::string::npos)
                    continue;
                EXPECT_EQ(std::string_view("=+-@\t\r\n").find(text[first]), std::string_view::npos) << text;
                EXPECT_EQ(text.find(";="), std::string::npos) << text;
            }
    }
    const Rows rows = rows_of(testing::text_of(out("boxes_to_hang.csv")));
    std::set<std::string> told;
    for (std::size_t i = 1; i < rows.size(); ++i)
        told.insert(rows[i][2]);
    const auto tags = chosen();
    EXPECT_EQ(told.size(), tags.size());
    for (const auto& tag : tags)
        EXPECT_TRUE(told.contains(tag) || told.contains("'" + tag) || tag.find(";=") != std::string::npos)
            << tag;
}

TEST_F(HostileFiles, TheGeoPackageHoldsThemAsTheyAre) {
    std::set<std::string> tags;
    for (const char* layer : {"ranked_sites", "other_trees"})
        for (const auto& tree : features_of(out("plan.gpkg"), layer))
            tags.insert(tree["properties"]["tree"].get<std::string>());
    EXPECT_GT(tags.size(), 300U);
    for (const auto& name : hostile_names())
        EXPECT_TRUE(tags.contains(name)) << name.substr(0, 40);
}

}  // namespace
}  // namespace roostward
