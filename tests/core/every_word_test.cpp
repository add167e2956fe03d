// The catalogue against the code: no word that nobody says, none said that is not there.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "roostward/core/catalogue.hpp"

namespace roostward::core {
namespace {

std::string all_code() {
    std::string code;
    for (const auto& file : std::filesystem::recursive_directory_iterator(ROOSTWARD_SOURCE_DIR "/src")) {
        if (!file.is_regular_file()) continue;
        std::ifstream in(file.path());
        code.append(std::istreambuf_iterator<char>(in), {});
    }
    return code;
}

/// What a pattern's first group holds, everywhere in a text.
std::set<std::string> found_by(const char* pattern, const std::string& text) {
    const std::regex wanted(pattern);
    std::set<std::string> found;
    for (auto hit = std::sregex_iterator(text.begin(), text.end(), wanted); hit != std::sregex_iterator();
         ++hit)
        found.insert((*hit)[1].str());
    return found;
}

/// Keys stand between quotes or braces. Those put together from parts are given by what they begin with.
bool is_put_together(const std::string& key) {
    static const std::vector<std::string> beginnings{
        "way.",    "number.",         "month.",          "weekday.",     "card.care.", "compass.",
        "point.",  "ui.layer_state_", "ui.state_",       "ui.part_",     "state.",     "rule.",
        "who.",    "matter.",         "condition.",      "hazard.",      "kind.",      "set_by.",
        "status.", "shared.",         "measure.",        "unit.",        "caution.",   "start.",
        "sheet.",  "profile.",        "if.suitability.", "if.activity.", "if.weights."};
    return std::ranges::any_of(beginnings,
                               [&key](const std::string& beginning) { return key.starts_with(beginning); });
}

TEST(EveryWord, IsSaidSomewhere) {
    const std::string code = all_code();
    std::set<std::string> used = found_by(R"re("([\w.]+)")re", code);
    used.merge(found_by(R"re(\{\{([\w.]+)\}\})re", code));
    for (const auto& [key, text] : catalogue()) {
        const std::string stem = key.substr(0, key.rfind('.'));
        const bool of_a_number = (key.ends_with(".one") || key.ends_with(".many")) && used.contains(stem);
        const bool of_the_page = key.starts_with("ui.") && used.contains(key.substr(3));
        EXPECT_TRUE(used.contains(key) || of_a_number || of_the_page || is_put_together(key))
            << key << " is used nowhere";
    }
}

TEST(EveryWord, ThatIsSaidIsThere) {
    const std::string code = all_code();
    const auto expect = [](const std::string& key) { EXPECT_TRUE(catalogue().contains(key)) << key; };
    for (const std::string& key : found_by(R"re(\bsay\("(\w+)")re", code))
        expect("ui." + key);
    for (const std::string& key : found_by(R"re(\bsaid\(\s*"([\w.]+)"\s*[,)])re", code))
        expect(key);
    for (const std::string& key : found_by(R"re(\bsaid_for\([^";]*"([\w.]+)")re", code)) {
        expect(key + ".one");
        expect(key + ".many");
    }
}

/// Topics that name nothing but keys: these are also handed on, and said elsewhere.
TEST(EveryWord, ThatIsHandedOnIsThere) {
    const std::set<std::string> keys = found_by(
        R"re("((?:choices|damaged|error|finding|setting|site_file|toml|too_large|unwritten)\.[\w.]+)")re",
        all_code());
    EXPECT_GT(keys.size(), 300U);
    for (const std::string& key : keys)
        EXPECT_TRUE(catalogue().contains(key) || catalogue().contains(key + ".one")) << key;
}

}  // namespace
}  // namespace roostward::core
