#include "roostward/cli/language.hpp"

#include <filesystem>
#include <string>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::cli {

namespace {

core::Finding about(const siting::InputFile& file, core::Severity severity, const char* kind,
                    std::string value, std::string sentence) {
    return {severity, {file.file, file.role, {}, {}}, kind, std::move(value), std::move(sentence)};
}

}  // namespace

core::Findings speak(const io::Translation& translation) {
    const std::vector<std::string> left_out = core::speak(translation.words);
    const std::size_t all = core::catalogue().size();
    const std::size_t still_english = all - (translation.words.size() - left_out.size());
    core::Findings findings;
    if (!left_out.empty()) {
        findings.push_back(about(translation.file, core::Severity::doubtful, "words not taken",
                                 core::all_of(left_out), core::said("words.not_taken")));
        findings.back().rows = left_out.size();
    }
    if (still_english > 0)
        findings.push_back(
            about(translation.file, core::Severity::note, "words still in English",
                  core::said("words.still_english.value", {{"count", still_english}, {"all", all}}),
                  core::said("words.still_english")));
    return findings;
}

void speak_as(const report::FinishedPlan& plan) {
    const std::string_view words =
        report::member_with(plan.plan.at("parameters"), "key", "site.words").at("value").text();
    if (words.empty()) return;
    const std::filesystem::path site_file(plan.plan.at("site_file").text());
    try {
        core::speak(io::read_translation(std::string(words), site_file.parent_path()).words);
    } catch (const core::Error&) {
        // It has been moved or spoilt since: English, then.
    }
}

}  // namespace roostward::cli
