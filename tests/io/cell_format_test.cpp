#include "roostward/io/cell_format.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace roostward::io {
namespace {

constexpr auto year_1900 = DateEpoch::year_1900;
constexpr auto year_1904 = DateEpoch::year_1904;

std::string moment(double serial, ShownAs shown, DateEpoch epoch = year_1900) {
    return moment_text(serial, shown, epoch).value_or("none");
}

// ECMA-376, part 1: the examples of section 18.17.4.3, "Combined Date and Time Conversion for Serial Values"
// (1900 backward compatibility and 1904), and those of 18.17.4.1 for dates.
TEST(CellFormat, CountsDaysAsTheStandardsExamples) {
    const auto both = ShownAs::date_and_time;
    EXPECT_EQ(moment(3687.4207639, both), "1910-02-03T10:05:54");
    EXPECT_EQ(moment(1.5, both), "1900-01-01T12:00:00");
    EXPECT_EQ(moment(2958465.9999884, both), "9999-12-31T23:59:59");
    EXPECT_EQ(moment(2225.4207639, both, year_1904), "1910-02-03T10:05:54");
    EXPECT_EQ(moment(2957003.9999884, both, year_1904), "9999-12-31T23:59:59");
    EXPECT_EQ(moment(38749.0, ShownAs::date), "2006-02-01");
    EXPECT_EQ(moment(37287.0, ShownAs::date, year_1904), "2006-02-01");
    EXPECT_EQ(moment(0.0, ShownAs::date, year_1904), "1904-01-01");
}

// ECMA-376, first edition, part 4, section 3.17.4.1: "serial value 59 corresponds to February 28, and serial
// value 61 corresponds to March 1", 60 to a day that never was.
TEST(CellFormat, KeepsTheFalseLeapDay) {
    EXPECT_EQ(moment(1.0, ShownAs::date), "1900-01-01");
    EXPECT_EQ(moment(59.0, ShownAs::date), "1900-02-28");
    EXPECT_EQ(moment(60.0, ShownAs::date), "1900-02-29");
    EXPECT_EQ(moment(61.0, ShownAs::date), "1900-03-01");
}

TEST(CellFormat, KeepsTheTimeOfDayWhateverTheFormat) {
    const double whole = 46182.0 + (21 * 3600 + 46 * 60 + 46) / 86400.0;
    for (const ShownAs shown : {ShownAs::date, ShownAs::time, ShownAs::date_and_time})
        EXPECT_EQ(moment(whole, shown), "2026-06-09T21:46:46");
    EXPECT_EQ(moment(0.907476851851852, ShownAs::time), "21:46:46");
    EXPECT_EQ(moment(0.907476851851852, ShownAs::date), "21:46:46");
    EXPECT_EQ(moment(0.0, ShownAs::time), "00:00:00");
    EXPECT_EQ(moment(46182.0, ShownAs::date_and_time), "2026-06-09T00:00:00");
    EXPECT_EQ(moment(46182.99999999, ShownAs::date_and_time), "2026-06-10T00:00:00") << "no 24:00:00";
    EXPECT_EQ(moment(0.5 + 0.25 / 86400.0, ShownAs::time), "12:00:00.250");
    EXPECT_EQ(moment(1.0 + 15.0 / 1440.0, ShownAs::elapsed), "24:15:00");
}

TEST(CellFormat, RefusesWhatIsNoDate) {
    EXPECT_EQ(moment(-1.0, ShownAs::date), "none");
    EXPECT_EQ(moment(2958466.0, ShownAs::date), "none");
    EXPECT_EQ(moment(0.0, ShownAs::date), "none");
    EXPECT_EQ(moment(std::nan(""), ShownAs::date), "none");
}

// ECMA-376, part 1, section 18.8.31: what the letters of a format code mean.
TEST(CellFormat, TellsDatesFromNumbersByTheirFormat) {
    for (const char* code :
         {"dd/mm/yyyy", "d.m.yy;@", "yyyy\\-mm\\-dd", "[$-409]mmmm\\ d\\,\\ yyyy", "mmm", "aaa d"})
        EXPECT_EQ(shown_as(code), ShownAs::date) << code;
    for (const char* code : {"hh:mm", "h:mm:ss AM/PM", "mm:ss.0", "[$-F400]h:mm:ss\\ AM/PM", "HH\"h\"MM"})
        EXPECT_EQ(shown_as(code), ShownAs::time) << code;
    for (const char* code : {"dd/mm/yyyy hh:mm", "m/d/yy h:mm"})
        EXPECT_EQ(shown_as(code), ShownAs::date_and_time) << code;
    for (const char* code : {"[h]:mm", "[mm]:ss", "[HH]:MM:SS"})
        EXPECT_EQ(shown_as(code), ShownAs::elapsed) << code;
    for (const char* code : {"0%", "0.00%", "0\\ %"})
        EXPECT_EQ(shown_as(code), ShownAs::percent) << code;
    for (const char* code : {"General", "GENERAL", "0.00", "0.00E+00", "#,##0", "@", "0\" days\"", "0\\m",
                             "0_d", "[Red]0", "[$-809]0.0", "", "\"", "[", "\\"})
        EXPECT_EQ(shown_as(code), ShownAs::number) << code;
}

// ECMA-376, part 1, section 18.8.30: 14 mm-dd-yy, 20 h:mm, 22 m/d/yy h:mm, 46 [h]:mm:ss, 9 0%, 2 0.00.
TEST(CellFormat, KnowsTheFormatsWithoutCode) {
    EXPECT_EQ(shown_as_built_in(14), ShownAs::date);
    EXPECT_EQ(shown_as_built_in(20), ShownAs::time);
    EXPECT_EQ(shown_as_built_in(22), ShownAs::date_and_time);
    EXPECT_EQ(shown_as_built_in(46), ShownAs::elapsed);
    EXPECT_EQ(shown_as_built_in(9), ShownAs::percent);
    for (const int number : {0, 1, 2, 3, 4, 11, 37, 44, 48, 49})
        EXPECT_EQ(shown_as_built_in(number), ShownAs::number) << number;
}

TEST(CellFormat, WritesSharesAsPeopleSeeThem) {
    EXPECT_EQ(percent_text(0.35), "35%");
    EXPECT_EQ(percent_text(0.07), "7%");
    EXPECT_EQ(percent_text(0.125), "12.5%");
}

}  // namespace
}  // namespace roostward::io
