// A translation of every text into itself between ⟦ and ⟧: what people read outside of them was never in the
// catalogue.
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "cli/program.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward {
namespace {

using nlohmann::json;
using testing::run_program;
using testing::ScratchFolder;

constexpr std::string_view open = "⟦", close = "⟧";

/// As a file of words says it.
std::string entry(const std::string& key, const std::string& text) {
    std::string quoted;
    for (const char c : text) {
        if (c == '"' || c == '\\') quoted += '\\';
        quoted += c == '\n' ? std::string("\\n") : std::string(1, c);
    }
    return key + " = \"" + quoted + "\"\n";
}

std::string every_text_in_brackets() {
    // Not words, but what the page's script and browsers read.
    const std::set<std::string> signs{"language", "number.decimal", "ui.points"};
    std::string file;
    for (const auto& [key, text] : core::catalogue())
        file += entry(key, signs.contains(key) ? text : std::string(open) + text + std::string(close));
    return file;
}

/// What stands in no brackets, a blank in place of them.
std::string outside(std::string_view text) {
    std::string out;
    int depth = 0;
    while (!text.empty()) {
        if (text.starts_with(open)) ++depth;
        if (depth == 0) out += text.front();
        const bool ends = text.starts_with(close);
        if (ends && --depth == 0) out += "  ";
        text.remove_prefix(ends || text.starts_with(open) ? open.size() : 1);
    }
    return out;
}

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// The runs of two words or more with one blank between, of two letters or more each.
std::vector<std::string> runs_of_words(const std::string& text) {
    std::vector<std::string> runs;
    std::string run;
    int words = 0;
    const auto end_run = [&] {
        if (words > 1) runs.push_back(run);
        run.clear();
        words = 0;
    };
    for (std::size_t i = 0; i < text.size();) {
        std::size_t end = i;
        while (end < text.size() && is_letter(text[end]))
            ++end;
        if (end - i >= 2) {
            run += (run.empty() ? "" : " ") + text.substr(i, end - i);
            ++words;
            const bool goes_on =
                text.substr(end, 2).size() == 2 && text[end] == ' ' && is_letter(text[end + 1]);
            if (!goes_on) end_run();
        } else {
            end_run();
        }
        i = std::max(end, i) + 1;
    }
    end_run();
    return runs;
}

/// The demo's own names and notes, the longest first.
std::vector<std::string> words_of_the_demo() {
    std::set<std::string> words{"Alder Reach Park"};
    for (const auto& file : std::filesystem::directory_iterator(testing::demo())) {
        if (file.path().extension() != ".csv") continue;
        std::istringstream lines(testing::text_of(file.path()));
        for (std::string line; std::getline(lines, line);) {
            std::istringstream cells(line);
            for (std::string cell; std::getline(cells, cell, ',');)
                if (cell.find(' ') != std::string::npos) words.insert(cell);
        }
    }
    std::vector<std::string> sorted(words.begin(), words.end());
    std::ranges::sort(sorted, [](const auto& a, const auto& b) { return a.size() > b.size(); });
    return sorted;
}

std::string without(std::string text, const std::vector<std::string>& data) {
    for (const std::string& datum : data)
        for (std::size_t at = text.find(datum); at != std::string::npos; at = text.find(datum, at))
            text.replace(at, datum.size(), "  ");
    return text;
}

/// The texts of a JSON value, those under the keys that hold data left out.
void texts_in(const json& value, std::string& texts) {
    static const std::set<std::string> data{
        "species", "file",   "crs",     "operation", "repeat", "site",     "state",     "rule",
        "status",  "set_by", "source",  "kind",      "matter", "who",      "authority", "definition",
        "name",    "key",    "columns", "layer",     "value",  "measured", "required",  "tree"};
    if (value.is_string()) texts += value.get<std::string>() + "\n";
    if (value.is_array())
        for (const json& item : value)
            texts_in(item, texts);
    if (value.is_object())
        for (const auto& [key, member] : value.items())
            if (!data.contains(key)) texts_in(member, texts);
}

/// What stands between the tags, and in the attributes that are read out; no style, no script.
std::string visible_text(std::string_view html) {
    std::string text;
    while (!html.empty()) {
        const std::size_t tag = std::min(html.find('<'), html.size());
        text += html.substr(0, tag);
        html.remove_prefix(tag);
        for (const std::string_view element : {"style", "script"}) {
            if (!html.starts_with("<" + std::string(element))) continue;
            html.remove_prefix(std::min(html.find("</" + std::string(element)), html.size()));
        }
        const std::size_t end = std::min(html.find('>'), html.size());
        const std::string_view inside = html.substr(0, end);
        for (const std::string_view attribute :
             {" alt=\"", " title=\"", " aria-label=\"", " placeholder=\""}) {
            const std::size_t start = inside.find(attribute);
            if (start == std::string_view::npos) continue;
            const std::string_view value = inside.substr(start + attribute.size());
            text += "\n" + std::string(value.substr(0, value.find('"')));
        }
        text += "\n";
        html.remove_prefix(std::min(end + 1, html.size()));
    }
    return text;
}

/// The demo's plan in brackets, made once for all tests of this file.
class InBrackets : public ::testing::Test {
 protected:
    static void SetUpTestSuite() {
        folder = new ScratchFolder;
        testing::copy_demo(*folder);
        testing::put_text(*folder / "words.toml", every_text_in_brackets());
        ran = new testing::Ran(
            run_program({"plan", site(), "--out", out().string(), "--set", "site.words=words.toml"}));
    }
    static void TearDownTestSuite() {
        delete ran;
        delete folder;
    }
    static std::string site() { return (*folder / "site.toml").string(); }
    static std::filesystem::path out() { return *folder / "out"; }
    static std::string read(const char* file) { return testing::text_of(out() / file); }
    static std::string texts_of(const char* file) {
        std::string texts;
        texts_in(json::parse(read(file)), texts);
        return texts;
    }

    /// No words in no brackets, but for the demo's own.
    static void expect_all_in_brackets(const std::string& text) {
        static const std::vector<std::string> data = words_of_the_demo();
        EXPECT_NE(text.find(open), std::string::npos);
        std::set<std::string> strays;
        for (std::string& run : runs_of_words(without(outside(text), data)))
            strays.insert(std::move(run));
        for (const std::string& run : strays)
            ADD_FAILURE() << run;
    }

    static inline ScratchFolder* folder = nullptr;
    static inline testing::Ran* ran = nullptr;
};

TEST_F(InBrackets, IsTakenWhole) {
    ASSERT_EQ(ran->exit_code, 0) << ran->err;
    EXPECT_EQ(read("findings.csv").find("words.toml"), std::string::npos);
    const json inputs = json::parse(read("plan.json"))["inputs"];
    EXPECT_TRUE(std::ranges::any_of(inputs, [](const json& file) {
        return file["file"] == "words.toml" && file["sha256"].get<std::string>().size() == 64;
    }));
}

TEST_F(InBrackets, ReportIs) {
    expect_all_in_brackets(visible_text(read("report.html")));
}

TEST_F(InBrackets, FindingsAre) {
    expect_all_in_brackets(read("findings.csv"));
}

TEST_F(InBrackets, ReasonsOfTreesAre) {
    expect_all_in_brackets(texts_of("ranked_sites.geojson"));
    expect_all_in_brackets(texts_of("other_trees.geojson"));
}

TEST_F(InBrackets, PlanIs) {
    expect_all_in_brackets(texts_of("plan.json"));
}

TEST_F(InBrackets, WaypointsAre) {
    expect_all_in_brackets(visible_text(read("chosen_sites.gpx")));
}

TEST_F(InBrackets, TerminalIs) {
    expect_all_in_brackets(ran->out);
    expect_all_in_brackets(ran->err);
}

TEST_F(InBrackets, WhyIs) {
    for (const char* tree : {"0155", "0303", "0101", "0103", "0110"})
        expect_all_in_brackets(run_program({"why", out().string(), tree}).out);
}

TEST_F(InBrackets, ComparisonIs) {
    const std::string other = (*folder / "other").string();
    run_program({"plan", site(), "--out", other, "--set", "site.words=words.toml", "--set", "weights.sun=3"});
    expect_all_in_brackets(run_program({"compare", out().string(), other}).out);
}

TEST_F(InBrackets, CheckIs) {
    expect_all_in_brackets(run_program({"check", site(), "--set", "site.words=words.toml"}).out);
}

}  // namespace
}  // namespace roostward
