#include "roostward/io/field_map.hpp"

#include <gtest/gtest.h>

#include <numbers>
#include <string>
#include <vector>

#include "roostward/core/error.hpp"
#include "roostward/io/row_reader.hpp"

namespace roostward::io {
namespace {

const std::vector<FieldSpec> specs = {
    {"tree", {}, Dimension::plain, {{"id"}, {"tag"}}},
    {"dbh_cm", "cm", Dimension::length, {{"dbh"}, {"dbhin", "in"}, {"girthcm", "cm", true}}},
    {"condition", {}, Dimension::plain, {}},
};

/// The map of a table's columns, and what was said about it.
struct Mapped {
    explicit Mapped(const std::vector<std::string>& columns, InputSource source = {})
        : fields((source.role = "trees", source.file = "trees.csv", specs), columns, source, report) {}
    LayerReport report{"trees.csv", "trees"};
    FieldMap fields;
};

InputSource with(const std::string& field, FieldSource from) {
    InputSource source;
    source.fields[field] = std::move(from);
    return source;
}

std::string text_of_stop(const std::vector<std::string>& columns, const InputSource& source,
                         core::Fault fault) {
    try {
        const Mapped mapped(columns, source);
    } catch (const core::Error& error) {
        EXPECT_EQ(error.fault(), fault);
        return error.what();
    }
    ADD_FAILURE();
    return {};
}

TEST(FieldMap, TakesOwnNamesThenSynonyms) {
    const Mapped mapped({"ID", "Dbh (cm)", "", "CONDITION"});
    EXPECT_EQ(mapped.fields.at("tree").column, std::optional<std::size_t>(0));
    EXPECT_EQ(mapped.fields.at("dbh_cm").column, std::optional<std::size_t>(1));
    EXPECT_EQ(mapped.fields.at("condition").column, std::optional<std::size_t>(3));
    EXPECT_EQ(mapped.fields.wanted(), (std::vector<bool>{true, true, false, true}));
    EXPECT_TRUE(mapped.report.findings().empty());
}

TEST(FieldMap, OfTwoColumnsTheExactNameWinsElseItIsTold) {
    const Mapped exact({"dbh", "dbh_cm"});
    EXPECT_EQ(exact.fields.at("dbh_cm").column, std::optional<std::size_t>(1));
    EXPECT_TRUE(exact.report.findings().empty());
    const Mapped two({"tag", "id"});
    EXPECT_EQ(two.fields.at("tree").column, std::optional<std::size_t>(1));
    ASSERT_EQ(two.report.findings().size(), 1U);
    EXPECT_EQ(two.report.findings()[0].kind, "two columns for one field");
}

TEST(FieldMap, TheSiteFileDecides) {
    const Mapped mapped({"tree", "girth_in", "dbh"}, with("dbh_cm", {"girth_in", "in", true, {}}));
    EXPECT_EQ(mapped.fields.at("dbh_cm").column, std::optional<std::size_t>(1));
    // A girth of 40 in is 40 · 2.54 / π cm through.
    EXPECT_DOUBLE_EQ(40.0 * mapped.fields.at("dbh_cm").factor, 40.0 * 2.54 / std::numbers::pi);
    EXPECT_EQ(mapped.fields.told().back(), "dbh_cm ← girth_in (girth, in in)");
}

TEST(FieldMap, UnitsInColumnNamesCount) {
    EXPECT_DOUBLE_EQ(Mapped({"dbh_in"}).fields.at("dbh_cm").factor, 2.54);
    EXPECT_DOUBLE_EQ(Mapped({"Girth cm"}).fields.at("dbh_cm").factor, 1.0 / std::numbers::pi);
}

TEST(FieldMap, SaysWhatIsThere) {
    const std::string missing =
        text_of_stop({"asset", "girth"}, with("dbh_cm", {"diameter", "", false, {}}), core::Fault::inputs);
    EXPECT_NE(missing.find("no column \"diameter\""), std::string::npos) << missing;
    EXPECT_NE(missing.find("asset, girth"), std::string::npos) << missing;
    const std::string unit =
        text_of_stop({"d"}, with("dbh_cm", {"d", "furlong", false, {}}), core::Fault::site_file);
    EXPECT_NE(unit.find("mm, cm, m, in or ft"), std::string::npos) << unit;
    const std::string field =
        text_of_stop({"d"}, with("dbhcm", {"d", "", false, {}}), core::Fault::site_file);
    EXPECT_NE(field.find("tree, dbh_cm, condition"), std::string::npos) << field;
}

TEST(RowReader, ConvertsUnitsAndMapsWords) {
    Mapped mapped({"tree", "dbh_cm", "condition"},
                  with("condition", {"condition", "", false, {{"1", "good"}}}));
    const std::vector<Value> values = {std::string_view("A 7"), std::string_view("12 in"), 1.0};
    const SourceRow row{2, values, nullptr, nullptr};
    mapped.report.begin_row(2);
    const RowReader reader(row, mapped.report);
    EXPECT_EQ(reader.text(mapped.fields.at("tree")), "A 7");
    EXPECT_EQ(reader.number(mapped.fields.at("dbh_cm")), std::optional(30.48));
    EXPECT_EQ(reader.text(mapped.fields.at("condition")), "good");
}

TEST(RowReader, SaysWhatItCannotRead) {
    Mapped mapped({"dbh_cm"});
    const auto dbh = [&](Value value, Limits limits) {
        const std::vector<Value> values = {value};
        const SourceRow row{3, values, nullptr, nullptr};
        mapped.report.begin_row(3);
        return RowReader(row, mapped.report).number(mapped.fields.at("dbh_cm"), limits);
    };
    EXPECT_FALSE(dbh(std::monostate(), {}));
    EXPECT_FALSE(dbh(0.0, {0.0, 1500.0, true}));
    EXPECT_FALSE(dbh(std::string_view("unknown"), {}));
    EXPECT_TRUE(mapped.report.findings().empty());
    EXPECT_FALSE(dbh(14700.0, {0.0, 1500.0, true}));
    EXPECT_EQ(dbh(std::string_view("30-45"), {}), std::optional(30.0));
    const core::Findings findings = mapped.report.findings();
    ASSERT_EQ(findings.size(), 2U);
    EXPECT_EQ(findings[0].kind, "impossible dbh_cm");
    EXPECT_EQ(findings[1].kind, "range");
    EXPECT_TRUE(mapped.report.usable());
}

}  // namespace
}  // namespace roostward::io
