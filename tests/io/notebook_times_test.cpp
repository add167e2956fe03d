#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "io/reading_site.hpp"

namespace roostward::io {
namespace {

using testing::ReadingSite;

const std::string place = ",-1.8956,52.2982";

/// Three evenings of two stations; "bridge" was used once only.
struct Notebook : ReadingSite {
    Notebook() {
        put("watches.csv",
            "watch,lon,lat,date,start,end,farthest_seen_m\n"
            "avenue,-1.8963,52.2979,2026-06-09,21:25,23:00,70\n"
            "avenue,-1.8963,52.2979,2026-06-11,23:10,00:30,70\n"
            "bridge,-1.8963,52.2979,2026-06-10,21:25,23:50,70\n");
        file.max_bad_share = 1.0;
    }

    /// The times in UTC, as "row time evening"; Europe/London is an hour ahead in June.
    std::vector<std::string> times_of(const std::string& header, const std::vector<std::string>& rows) {
        std::string text = header + ",lon,lat\n";
        for (const std::string& row : rows)
            text += row + place + "\n";
        put("passes.csv", text);
        const siting::Inputs inputs = read();
        testing::expect_nothing_lost(inputs, findings);
        std::vector<std::string> told;
        for (const survey::Pass& pass : inputs.passes.rows) {
            told.push_back(std::to_string(pass.row.number) + " " + core::to_text(*pass.time) + " " +
                           core::to_text(pass.evening));
        }
        return told;
    }

    [[nodiscard]] core::Finding finding_of(std::size_t row) const {
        for (const core::Finding& f : findings)
            if (f.place.layer == "passes" && f.place.row == row) return f;
        return {};
    }

    [[nodiscard]] std::string kind_of(std::size_t row) const {
        for (const core::Finding& f : findings)
            if (f.place.layer == "passes" && f.place.row == row && f.kind != "the same pass twice")
                return f.kind;
        return "";
    }
};

using Times = std::vector<std::string>;

// An evening runs from noon to noon: our own rule.
TEST(NotebookTimes, HaveTheDateOfTheNamedWatch) {
    Notebook book;
    EXPECT_EQ(book.times_of("time,watch", {"21:46,bridge", "00:20,bridge", "22:10,avenue", "00:10,avenue",
                                           "20:10,avenue", "21:46,brigde"}),
              (Times{"2 2026-06-10T20:46:00Z 2026-06-10", "3 2026-06-10T23:20:00Z 2026-06-10",
                     "4 2026-06-09T21:10:00Z 2026-06-09", "5 2026-06-11T23:10:00Z 2026-06-11"}));
    EXPECT_EQ(book.kind_of(2), "");
    EXPECT_EQ(book.kind_of(6), "time without a date") << "no watch of this name at that time";
    EXPECT_EQ(book.kind_of(7), "time without a date") << "no watch of this name";
}

TEST(NotebookTimes, HaveTheDateOfTheOnlyEveningWatchedThen) {
    Notebook book;
    EXPECT_EQ(book.times_of("time", {"23:30", "22:10", "00:10"}),
              (Times{"4 2026-06-11T23:10:00Z 2026-06-11"}));
    EXPECT_EQ(book.kind_of(2), "time without a date") << "two evenings were watched then";
    EXPECT_EQ(book.kind_of(3), "time without a date");
    EXPECT_EQ(book.kind_of(4), "date from the watches");
}

TEST(NotebookTimes, OfTwelveHoursAreThoseOfTheWatch) {
    Notebook book;
    EXPECT_EQ(book.times_of("date,time,watch",
                            {"2026-06-09,9:46,avenue", "2026-06-09,9:46 pm,avenue", "2026-06-09,9.46pm,",
                             "2026-06-09,946,", "2026-06-09,2146,", "2026-06-09,21h46,", "2026-06-09,21.46,",
                             "2026-06-09,21:46 Uhr,", "2026-06-09,7:46,avenue", "2026-06-11,12:10,avenue"}),
              (Times{"2 2026-06-09T20:46:00Z 2026-06-09", "3 2026-06-09T20:46:00Z 2026-06-09",
                     "4 2026-06-09T20:46:00Z 2026-06-09", "5 2026-06-09T20:46:00Z 2026-06-09",
                     "6 2026-06-09T20:46:00Z 2026-06-09", "7 2026-06-09T20:46:00Z 2026-06-09",
                     "8 2026-06-09T20:46:00Z 2026-06-09", "9 2026-06-09T20:46:00Z 2026-06-09",
                     "10 2026-06-09T06:46:00Z 2026-06-08", "11 2026-06-11T23:10:00Z 2026-06-11"}));
    EXPECT_EQ(book.kind_of(11), "time of the evening");
    EXPECT_EQ(book.kind_of(3), "");
    EXPECT_EQ(book.finding_of(11).sentence.substr(0, 7), "\"12:10\"");
    EXPECT_EQ(book.finding_of(11).rows, 3U) << "rows 2, 5 and 11, told once";
    EXPECT_EQ(book.kind_of(10), "") << "no watch says that it is meant otherwise";
}

TEST(NotebookTimes, OfTwelveHoursNeedNoDateEither) {
    Notebook book;
    EXPECT_EQ(book.times_of("time,watch", {"9:46,bridge"}), (Times{"2 2026-06-10T20:46:00Z 2026-06-10"}));
    EXPECT_EQ(book.kind_of(2), "time of the evening");
}

TEST(NotebookTimes, AfterMidnightMayCarryTheEveningsDate) {
    Notebook book;
    EXPECT_EQ(book.times_of("date,time,watch", {"2026-06-11,00:10,avenue", "2026-06-12,00:10,avenue"}),
              (Times{"2 2026-06-11T23:10:00Z 2026-06-11", "3 2026-06-11T23:10:00Z 2026-06-11"}));
    EXPECT_EQ(book.kind_of(2), "date of the evening");
    EXPECT_EQ(book.kind_of(3), "");
    // One cell says what it says.
    EXPECT_EQ(book.times_of("time,watch", {"2026-06-11 00:10,avenue"}),
              (Times{"2 2026-06-10T23:10:00Z 2026-06-10"}));
}

TEST(NotebookTimes, OrderOfDayAndMonthIsThatOfTheWatches) {
    Notebook book;
    book.put("passes.csv", "date,time,lon,lat\n09/06/2026,21:46" + place + "\n");
    EXPECT_NE(book.stop().text.find("date_order"), std::string::npos) << "nothing shows it";
    book.put("watches.csv",
             "watch,lon,lat,date,start,end\na,-1.8963,52.2979,09/06/2026,21:25,23:00\n"
             "a,-1.8963,52.2979,13/06/2026,21:25,23:00\n");
    EXPECT_EQ(core::to_text(book.read().passes.rows.front().evening), "2026-06-09");
    EXPECT_TRUE(book.found("date order of the watches"));
    book.put("passes.csv",
             "date,time,lon,lat\n06/13/2026,21:46" + place + "\n06/09/2026,21:46" + place + "\n");
    EXPECT_EQ(core::to_text(book.read().passes.rows.back().evening), "2026-06-09") << "shown by the passes";
    EXPECT_FALSE(book.found("date order of the watches"));
}

TEST(NotebookTimes, OfWatchesAreThoseOfTheEvening) {
    Notebook book;
    book.put("watches.csv",
             "watch,lon,lat,date,start,end,farthest_seen_m\n"
             "a,-1.8963,52.2979,2026-06-09,9:25,11:00,70\n"
             "b,-1.8963,52.2979,2026-06-09,10:40,12:15,70\n"
             "c,-1.8963,52.2979,2026-06-09,04:10,05:30,70\n"
             "d,-1.8963,52.2979,2026-06-09,05:10,06:30,70\n"
             "e,-1.8963,52.2979,2026-06-09,9:25 am,11:00 am,70\n"
             "f,-1.8963,52.2979,2026-06-09,11:30,1:00,70\n");
    const siting::Inputs inputs = book.read();
    std::vector<std::string> told;
    for (const survey::Watch& watch : inputs.watches.rows)
        told.push_back(watch.name + " " + core::to_text(watch.start) + " " + core::to_text(watch.end));
    EXPECT_EQ(
        told,
        (Times{"a 2026-06-09T20:25:00Z 2026-06-09T22:00:00Z", "b 2026-06-09T21:40:00Z 2026-06-09T23:15:00Z",
               "c 2026-06-09T03:10:00Z 2026-06-09T04:30:00Z", "d 2026-06-09T04:10:00Z 2026-06-09T05:30:00Z",
               "e 2026-06-09T08:25:00Z 2026-06-09T10:00:00Z",
               "f 2026-06-09T22:30:00Z 2026-06-10T00:00:00Z"}));
    EXPECT_TRUE(book.found("time of the evening"));
}

}  // namespace
}  // namespace roostward::io
