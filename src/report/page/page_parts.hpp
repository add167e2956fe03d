#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/time.hpp"
#include "roostward/plan/plan.hpp"
#include "roostward/report/page.hpp"
#include "roostward/report/way_there.hpp"
#include "shown_trees.hpp"

/// The parts of report.html, each as HTML in one string.
namespace roostward::report {

/// What all parts are made from.
struct Page {
    const plan::Plan& plan;
    const RunFacts& facts;
    ShownTrees shown;
    WaysThere ways;
    const std::optional<core::Picture>& basemap;
};

/// Everything that the scripts read, as JSON that may stand in a script element.
[[nodiscard]] std::string page_data(const Page& page);

[[nodiscard]] std::string answer(const Page& page);        ///< the chosen sites as a short list
[[nodiscard]] std::string ranked_trees(const Page& page);  ///< the first rows; the scripts show all
[[nodiscard]] std::string settling(const Page& page);
[[nodiscard]] std::string evidence(const Page& page);
[[nodiscard]] std::string ruled_out(const Page& page);
[[nodiscard]] std::string not_watched(const Page& page);
[[nodiscard]] std::string findings(const Page& page);
[[nodiscard]] std::string cannot_show(const Page& page);
[[nodiscard]] std::string hanging(const Page& page);
[[nodiscard]] std::string what_the_next_is_worth(const Page& page);
[[nodiscard]] std::string method(const Page& page);
[[nodiscard]] std::string all_cautions();

/// What a tree waits for, one question a paragraph.
[[nodiscard]] std::string questions(const trees::Verdict& verdict);
/// How many trees each rule takes, with a bar that is as long as its share of the commonest.
[[nodiscard]] std::string counts_by_rule(const plan::Plan& plan, trees::State state);

/// Charts as SVG with words for those who cannot see them.
[[nodiscard]] std::string passes_chart(const plan::Plan& plan);
[[nodiscard]] std::string axis_roses(const plan::Plan& plan);
[[nodiscard]] std::string evening_maps(const plan::Plan& plan);
[[nodiscard]] std::string bandwidth_chart(const plan::Plan& plan);

}  // namespace roostward::report
