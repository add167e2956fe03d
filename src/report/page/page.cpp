#include "roostward/report/page.hpp"

#include <string_view>

#include "assets.hpp"
#include "frame.hpp"
#include "html.hpp"
#include "html_text.hpp"
#include "page_parts.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/report/sheets.hpp"
#include "roostward/report/site_words.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

/// JSON as it may stand in a script element: nothing in it can end the element or a line.
std::string within_script(std::string_view json) {
    std::string out;
    out.reserve(json.size());
    for (std::size_t i = 0; i < json.size(); ++i) {
        if (json[i] == '<')
            out += "\\u003c";
        else if (json.substr(i, 3) == "\u2028" || json.substr(i, 3) == "\u2029")
            out += json[i += 2] == '\xa8' ? "\\u2028" : "\\u2029";
        else
            out += json[i];
    }
    return out;
}

std::string what_nobody_checked(const plan::Plan& plan) {
    const std::string unchecked = nobody_checked(plan.checks);
    return unchecked.empty() ? core::said("first.all_checked") : unchecked;
}

Parts parts_of(const Page& page) {
    const plan::Plan& plan = page.plan;
    return {{"script_source", [] { return content_source(page_script_sha256); }},
            {"style_source", [] { return content_source(page_style_sha256); }},
            {"style", [] { return std::string(page_style); }},
            {"script", [] { return std::string(page_script); }},
            {"data", [&] { return within_script(page_data(page)); }},
            {"site", [&] { return name(plan.settings.site_name); }},
            {"title", [&] { return html_text(plan.settings.site_name); }},
            {"animal", [&] { return html_text(plan.settings.profile.name); }},
            {"number",
             [&] {
                 return html_text(core::said("plan.number", {{"number", plan.number}}));
             }},
            {"season",
             [&] {
                 return plan.out_of_season.empty()
                            ? std::string()
                            : "<p class=\"unchecked\">" + html_text(plan.out_of_season) + "</p>\n";
             }},
            {"nobody_checked", [&] { return html_text(what_nobody_checked(plan)); }},
            {"caveat", [&] { return html_text(caveat(plan)); }},
            {"answer", [&] { return answer(page); }},
            {"ranked_trees", [&] { return ranked_trees(page); }},
            {"settling", [&] { return settling(page); }},
            {"evidence", [&] { return evidence(page); }},
            {"ruled_out", [&] { return ruled_out(page); }},
            {"not_watched", [&] { return not_watched(page); }},
            {"findings", [&] { return findings(page); }},
            {"cannot_show", [&] { return cannot_show(page); }},
            {"hanging", [&] { return hanging(page); }},
            {"next_evening", [&] { return what_the_next_is_worth(page); }},
            {"method", [&] { return method(page); }},
            {"cautions", [] { return all_cautions(); }},
            {"sheets", [&] { return sheets(plan, page.ways); }}};
}

}  // namespace

std::string page(const plan::Plan& plan, const RunFacts& facts, const std::optional<core::Picture>& basemap) {
    const Page composed{plan, facts, ShownTrees(plan), WaysThere(plan), basemap};
    return filled(page_frame, parts_of(composed));
}

}  // namespace roostward::report
