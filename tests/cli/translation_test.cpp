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

/// Whatever stands in quotes.
void add_quoted(const std::filesystem::path& file, std::set<std::string>& words) {
    std::istringstream pieces(testing::text_of(file));
    std::string piece;
    for (bool inside = false; std::getline(pieces, piece, '"'); inside = !inside)
        if (inside && piece.find(' ') != std::string::npos) words.insert(piece);
}

/// The demo's own names and notes, and what the box profiles say, the longest first.
std::vector<std::string> words_of_the_demo() {
    std::set<std::string> words{"Azam et al. 2018"};
    add_quoted(testing::demo() / "site.toml", words);
    add_quoted(ROOSTWARD_SOURCE_DIR "/data/box-profiles.toml", words);
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
    for (const std::string& word : words)
        sorted.push_back(word.substr(0, 9));  // as the terminal's table cuts a species
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
        "species", "file",    "crs",     "operation", "repeat",    "site",     "state",     "rule",
        "status",  "set_by",  "source",  "kind",      "matter",    "who",      "authority", "definition",
        "name",    "key",     "columns", "layer",     "value",     "measured", "required",  "tree",
        "found",   "measure", "unit",    "points",    "part_names"};
    if (value.is_string()) texts += value.get<std::string>() + "\n";
    if (value.is_array())
        for (const json& item : value)
            texts_in(item, texts);
    if (value.is_object())
        for (const auto& [key, member] : value.items())
            if (!data.contains(key)) texts_in(member, texts);
}

/// What stands between the tags, and in the attributes that are read out; no style, script, key or command.
std::string visible_text(std::string_view html) {
    std::string text;
    while (!html.empty()) {
        const std::size_t tag = std::min(html.find('<'), html.size());
        text += html.substr(0, tag);
        html.remove_prefix(tag);
        for (const std::string_view element : {"style", "script", "code"}) {
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
    for (std::size_t at = text.find("&amp;"); at != std::string::npos; at = text.find("&amp;", at + 1))
        text.erase(at + 1, 4);
    return text;
}

/// The last cell of each row of a CSV file.
std::string last_cells(const std::string& csv) {
    std::string cells, cell;
    bool quoted = false;
    for (const char c : csv) {
        if (c == '"') quoted = !quoted;
        if (!quoted && (c == ',' || c == '\n')) {
            if (c == '\n') cells += cell + "\n";
            cell.clear();
        } else {
            cell += c;
        }
    }
    return cells;
}

/// What the page's script is given.
json page_data(const std::string& html) {
    const std::string_view start = "<script type=\"application/json\"";
    const std::size_t from = html.find('>', html.find(start)) + 1;
    return json::parse(html.substr(from, html.find("</script", from) - from));
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
    const std::string html = read("report.html");
    expect_all_in_brackets(visible_text(html));
    std::string texts;
    texts_in(page_data(html), texts);
    expect_all_in_brackets(texts);
}

TEST_F(InBrackets, FindingsAre) {
    expect_all_in_brackets(last_cells(read("findings.csv")));
}

TEST_F(InBrackets, ReasonsOfTreesAre) {
    expect_all_in_brackets(texts_of("ranked_sites.geojson"));
    expect_all_in_brackets(texts_of("other_trees.geojson"));
}

TEST_F(InBrackets, PlanIs) {
    expect_all_in_brackets(texts_of("plan.json"));
}

TEST_F(InBrackets, FirstLookIs) {
    const std::filesystem::path look = *folder / "look";
    const testing::Ran told = run_program(
        {"plan", site(), "--out", look.string(), "--ranking-only", "--set", "site.words=words.toml"});
    expect_all_in_brackets(told.out);
    std::string texts;
    texts_in(json::parse(testing::text_of(look / "plan.json")), texts);
    expect_all_in_brackets(texts);
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

TEST_F(InBrackets, PublicCopyIs) {
    const std::filesystem::path copy = *folder / "public";
    const testing::Ran told =
        run_program({"plan", site(), "--out", copy.string(), "--public", "--set", "site.words=words.toml"});
    expect_all_in_brackets(told.out);
    expect_all_in_brackets(visible_text(testing::text_of(copy / "report.html")));
}

TEST_F(InBrackets, EveningsAre) {
    const std::filesystem::path evenings = *folder / "evenings";
    const testing::Ran told =
        run_program({"evenings", site(), "--out", evenings.string(), "--start", "2026-06-26", "--count", "2",
                     "--teams", "2", "--set", "site.words=words.toml"});
    ASSERT_EQ(told.exit_code, 0) << told.err;
    expect_all_in_brackets(told.out);
    expect_all_in_brackets(visible_text(testing::text_of(evenings / "evenings.html")));
    expect_all_in_brackets(visible_text(testing::text_of(evenings / "stations.gpx")));
    expect_all_in_brackets(last_cells(testing::text_of(evenings / "evenings.csv")));
}

TEST_F(InBrackets, CheckIs) {
    expect_all_in_brackets(run_program({"check", site(), "--set", "site.words=words.toml"}).out);
}

TEST_F(InBrackets, ANewParkIs) {
    const std::filesystem::path park = *folder / "park";
    const testing::Ran told =
        run_program({"new", park.string(), "--words", (*folder / "words.toml").string()});
    ASSERT_EQ(told.exit_code, 0) << told.err;
    expect_all_in_brackets(told.out);
    expect_all_in_brackets(visible_text(testing::text_of(park / "before_you_start.html")));
    const std::string site_file = testing::text_of(park / "site.toml");
    EXPECT_NE(site_file.find("\nwords = \"../words.toml\"\n"), std::string::npos) << site_file;
    expect_all_in_brackets(site_file);
    expect_all_in_brackets(run_program({"check", (park / "site.toml").string()}).err);
}

/// The demo with a few words of another language.
testing::Ran planned_with(const ScratchFolder& folder, std::string_view words,
                          const std::vector<std::string>& more = {}) {
    testing::copy_demo(folder);
    testing::put_text(folder / "deutsch.toml", words);
    std::vector<std::string> arguments{"plan",  (folder / "site.toml").string(),
                                       "--out", (folder / "out").string(),
                                       "--set", "site.words=deutsch.toml"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    return run_program(arguments);
}

TEST(OtherWords, AreSaidWhereTheyAreAndEnglishElsewhere) {
    const ScratchFolder folder;
    const testing::Ran ran = planned_with(folder,
                                          "\xEF\xBB\xBF# Deutsch\r\n"
                                          "language = \"de\"\r\n"
                                          "number.decimal = \",\"\r\n"
                                          "state.ruled_out = \"scheidet aus\"\r\n"
                                          "hang = \"In {metres:g} m Höhe. Öffnung: {sites}.\"\r\n"
                                          "why.evenings = \"an {used} von {watched} Abenden\"\r\n");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.out.find("scheidet aus"), std::string::npos) << ran.out;
    EXPECT_NE(ran.out.find("2 of 2   0,9 h "), std::string::npos) << ran.out;
    EXPECT_NE(ran.out.find("In 4,5 m Höhe. Öffnung: site 1 SSE and ENE"), std::string::npos) << ran.out;
    const json trees = json::parse(testing::text_of(folder / "out/ranked_sites.geojson"))["features"];
    const auto why = trees[0]["properties"]["why"].get<std::string>();
    EXPECT_NE(why.find("an 2 von 2 Abenden, in 0,9 hours"), std::string::npos) << why;
    EXPECT_TRUE(trees[0]["properties"]["score"].is_number());
    EXPECT_NE(testing::text_of(folder / "out/report.html").find("<html lang=\"de\">"), std::string::npos);
    const std::string findings = testing::text_of(folder / "out/findings.csv");
    EXPECT_NE(findings.find("note,words still in English,deutsch.toml,words,"), std::string::npos)
        << findings;
}

TEST(OtherWords, AreLeftOutWhereEnglishDoesNotFillThem) {
    const ScratchFolder folder;
    const testing::Ran ran = planned_with(
        folder, "hang = \"In {height:g} m\"\nno.such_key = \"nichts\"\nstate.ruled_out = \"scheidet aus\"\n");
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.out.find("Hang at 4.5 m. Entrances face:"), std::string::npos) << ran.out;
    const std::string findings = testing::text_of(folder / "out/findings.csv");
    EXPECT_NE(findings.find("doubtful,words not taken,deutsch.toml,words,,,hang and no.such_key,"),
              std::string::npos)
        << findings;
}

TEST(OtherWords, ThatCannotBeReadAreToldWithTheirRow) {
    const ScratchFolder folder;
    const testing::Ran ran = planned_with(folder, "# Deutsch\n\nstate.ruled_out = scheidet aus\n");
    EXPECT_EQ(ran.exit_code, 2);
    EXPECT_NE(ran.err.find("deutsch.toml, layer words, row 3: this is no key = \"text\""), std::string::npos)
        << ran.err;
    const testing::Ran twice =
        planned_with(folder, "state.ruled_out = \"a\"\nstate.ruled_out = \"b\"\n", {"--force"});
    EXPECT_EQ(twice.exit_code, 2);
    EXPECT_NE(twice.err.find("row 2: the key state.ruled_out was there before"), std::string::npos)
        << twice.err;
    const testing::Ran missing = planned_with(folder, "", {"--set", "site.words=missing.toml"});
    EXPECT_EQ(missing.exit_code, 3);
    EXPECT_NE(missing.err.find("missing.toml, layer words: there is no such file"), std::string::npos)
        << missing.err;
}

TEST(OtherWords, OfAPlanAreTakenUpByWhy) {
    const ScratchFolder folder;
    ASSERT_EQ(planned_with(folder, "score.head = \"Zusammengesetzt:\"\n").exit_code, 0);
    const auto why = [&folder] { return run_program({"why", (folder / "out").string(), "0303"}).out; };
    EXPECT_NE(why().find("Zusammengesetzt:"), std::string::npos);
    std::filesystem::remove(folder / "deutsch.toml");
    EXPECT_NE(why().find("Its score, of 100, is"), std::string::npos);
}

}  // namespace
}  // namespace roostward
