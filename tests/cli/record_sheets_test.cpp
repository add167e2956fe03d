// The blank sheets, filled in, are read without a word about their columns.
#include "roostward/report/record_sheets.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "cli/program.hpp"
#include "roostward/io/writers.hpp"

namespace roostward {
namespace {

using nlohmann::json;
using report::RecordSheet;
using testing::Ran;
using testing::run_program;
using testing::ScratchFolder;

using Row = std::map<std::string, std::string>;

std::vector<Row> passes() {
    std::vector<Row> rows;
    for (int i = 0; i < 40; ++i)
        rows.push_back({{"date", i % 2 == 0 ? "2026-06-09" : "2026-06-10"},
                        {"time", fmt::format("22:{}", 10 + i)},
                        {"watch", i % 2 == 0 ? "A" : "B"},
                        {"lon", fmt::format("{:.5f}", -1.9006 + 0.00003 * i)},
                        {"lat", "52.3001"},
                        {"bearing_deg", i % 3 == 0 ? "E" : "90"},
                        {"count", i == 7 ? "2" : ""},
                        {"height_m", "4"},
                        {"behaviour", "commuting"},
                        {"animal", "bat"},
                        {"notes", "3-4 m over the hedge"}});
    return rows;
}

std::vector<Row> watches() {
    std::vector<Row> rows;
    for (const auto& [watch, date] : {std::pair{"A", "2026-06-09"}, std::pair{"B", "2026-06-10"}})
        rows.push_back({{"watch", watch},
                        {"date", date},
                        {"start", "21:30"},
                        {"end", "23:30"},
                        {"lon", "-1.9000"},
                        {"lat", "52.3000"},
                        {"farthest_seen_m", "100"},
                        {"look_deg", "N"},
                        {"view_deg", "360"},
                        {"observer", "R.K."},
                        {"seen_by", "eye"},
                        {"temp_c", "16"},
                        {"wind_ms", "2"},
                        {"rain", "no"}});
    return rows;
}

std::vector<Row> trees() {
    std::vector<Row> rows;
    for (int i = 0; i < 20; ++i)
        rows.push_back({{"tree", fmt::format("{:04}", 101 + i)},
                        {"lon", fmt::format("{:.4f}", -1.9005 + 0.0001 * i)},
                        {"lat", "52.3001"},
                        {"species", "Alnus glutinosa"},
                        {"dbh_cm", "40"},
                        {"height_m", "12"},
                        {"crown_radius_m", "3.5"},
                        {"condition", "good"},
                        {"hazard", "improbable"},
                        {"inspected", "2026-03-01"},
                        {"has_hollow", "no"},
                        {"protected", "no"},
                        {"owner", "the city"},
                        {"permission", "given"}});
    return rows;
}

geo::Table filled(const RecordSheet& sheet, const std::vector<Row>& rows) {
    geo::Table table = report::blank_table(sheet);
    for (const Row& row : rows) {
        std::vector<std::string> cells;
        for (const std::string& column : table.header)
            cells.push_back(row.contains(column) ? row.at(column) : "");
        table.rows.push_back(std::move(cells));
    }
    return table;
}

std::vector<Row> rows_for(const RecordSheet& sheet) {
    return sheet.name == "passes" ? passes() : sheet.name == "watches" ? watches() : trees();
}

/// As text, or as a spreadsheet with the sheet that says how to fill it in still beside it.
void put(const std::filesystem::path& folder, const RecordSheet& sheet, const std::string& ending) {
    const std::filesystem::path file = folder / (sheet.name + "." + ending);
    std::vector<geo::NamedTable> book = report::blank_workbook(sheet);
    book[0].table = filled(sheet, rows_for(sheet));
    if (ending == "csv")
        io::write_csv(file, book[0].table);
    else
        io::write_xlsx(file, book);
}

Ran plan(const ScratchFolder& folder, const std::string& ending) {
    testing::put_text(folder / "site.toml",
                      fmt::format("[site]\nname = \"Alder Reach Park\"\ntimezone = \"Europe/London\"\n"
                                  "animal = \"small-crevice-bat\"\n[inputs]\npasses = \"passes.{0}\"\n"
                                  "watches = \"watches.{0}\"\ntrees = \"trees.{0}\"\n",
                                  ending));
    return run_program({"plan", (folder / "site.toml").string(), "--out", (folder / "out").string()});
}

json plan_of(const ScratchFolder& folder) {
    return json::parse(testing::text_of(folder / "out/plan.json"));
}

/// The columns that the program says it read from an input.
std::set<std::string> columns_read(const json& document, const std::string& role) {
    std::set<std::string> read;
    for (const json& input : document["inputs"]) {
        if (input["role"] != role) continue;
        for (const json& told : input["columns"])
            read.insert(told.get<std::string>().substr(0, told.get<std::string>().find(' ')));
    }
    return read;
}

TEST(RecordSheetsFilledIn, ArePlannedWithoutAMapping) {
    std::vector<std::string> ranked;
    for (const std::string ending : {"csv", "xlsx"}) {
        const ScratchFolder folder;
        for (const RecordSheet& sheet : report::record_sheets())
            put(folder.path(), sheet, ending);
        const Ran ran = plan(folder, ending);
        ASSERT_EQ(ran.exit_code, 0) << ran.err;
        ranked.push_back(testing::text_of(folder / "out/ranked_sites.geojson"));
        EXPECT_EQ(testing::text_of(folder / "out/findings.csv").find("set aside"), std::string::npos)
            << ending;
        for (const RecordSheet& sheet : report::record_sheets()) {
            const std::set<std::string> read = columns_read(plan_of(folder), sheet.name);
            for (const report::RecordColumn& column : sheet.columns)
                EXPECT_EQ(read.contains(column.name), column.name != "notes")
                    << sheet.name << " " << column.name;
        }
    }
    EXPECT_EQ(ranked[0], ranked[1]) << "the format makes no difference";
    EXPECT_NE(ranked[0].find("\"0101\""), std::string::npos) << "a tag keeps its zero";
}

TEST(RecordSheetsFilledIn, BlankOnesSayWhatIsMissing) {
    const ScratchFolder folder;
    for (const RecordSheet& sheet : report::record_sheets())
        io::write_xlsx(folder / (sheet.name + ".xlsx"), report::blank_workbook(sheet));
    const Ran ran = plan(folder, "xlsx");
    EXPECT_EQ(ran.exit_code, 3) << ran.err;
    EXPECT_NE(ran.err.find("passes.xlsx"), std::string::npos) << ran.err;
}

}  // namespace
}  // namespace roostward
