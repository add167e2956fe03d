#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "cli/program.hpp"

namespace roostward::testing {

/// A small park that a test spoils: one watch, a line of passes, a few trees.
class SmallPark : public ::testing::Test {
 protected:
    SmallPark() {
        put_text(folder / "site.toml", site("passes = \"passes.csv\"\nwatches = \"watches.csv\""));
        put_text(folder / "watches.csv",
                 "watch,lon,lat,date,start,end,farthest_seen_m\n"
                 "A,-1.9000,52.3000,2026-06-09,21:30,23:30,100\n"
                 "B,-1.9000,52.3000,2026-06-10,21:30,23:30,100\n");
        put_text(folder / "passes.csv", passes(40));
        std::string trees = "tree,lon,lat,dbh_cm,height_m,condition\n";
        for (int i = 0; i < 20; ++i)
            trees += "T" + std::to_string(i) + "," + std::to_string(-1.9005 + 0.0001 * i) +
                     ",52.3001,40,12,good\n";
        put_text(folder / "trees.csv", trees);
    }
    static std::string site(const std::string& inputs) {
        return "[site]\nname = \"Alder Reach Park\"\ntimezone = \"Europe/London\"\nanimal = "
               "\"small-crevice-bat\"\n"
               "[inputs]\n" +
               inputs + "\ntrees = \"trees.csv\"\n";
    }
    static std::string passes(int count) {
        std::string text = "date,time,watch,lon,lat,bearing_deg\n";
        for (int i = 0; i < count; ++i)
            text += std::string(i % 2 == 0 ? "2026-06-09" : "2026-06-10") + ",22:" + std::to_string(10 + i) +
                    "," + (i % 2 == 0 ? "A" : "B") + "," + std::to_string(-1.9006 + 0.00003 * i) +
                    ",52.3001,90\n";
        return text;
    }
    Ran plan(std::vector<std::string> more = {}) {
        std::vector<std::string> words{"plan", (folder / "site.toml").string(), "--out",
                                       (folder / "out").string()};
        words.insert(words.end(), more.begin(), more.end());
        return run_program(words);
    }
    void fails(int exit_code, std::initializer_list<const char*> said, std::vector<std::string> more = {}) {
        const Ran ran = plan(std::move(more));
        EXPECT_EQ(ran.exit_code, exit_code) << ran.err;
        for (const char* words : said)
            EXPECT_NE(ran.err.find(words), std::string::npos) << words << " not in: " << ran.err;
        EXPECT_FALSE(std::filesystem::exists(folder / "out"));
        EXPECT_EQ(std::ranges::count_if(
                      std::filesystem::directory_iterator(folder.path()),
                      [](const auto& e) { return e.path().filename().string().starts_with(".out"); }),
                  0)
            << "something half written was left behind";
    }
    ScratchFolder folder;
};

}  // namespace roostward::testing
