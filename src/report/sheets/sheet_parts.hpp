#pragma once

#include <cstddef>
#include <string>

#include "roostward/plan/plan.hpp"
#include "roostward/report/way_there.hpp"

/// The three kinds of sheet, each as HTML.
namespace roostward::report {

/// What all of them are made from.
struct Sheets {
    const plan::Plan& plan;
    const WaysThere& ways;
};

/// A page a site, site 1 first.
[[nodiscard]] std::string climbers_sheets(const Sheets& sheets);

/// One letter an owner, in the order of their first site.
[[nodiscard]] std::string owners_letters(const Sheets& sheets);

[[nodiscard]] std::string committee_table(const Sheets& sheets);

/// The park, what sheet it is, and the plan's number. `title` may be empty.
[[nodiscard]] std::string sheet_head(const plan::Plan& plan, const std::string& title);

/// What nobody has checked, as every sheet must say.
[[nodiscard]] std::string unchecked_note(const plan::Plan& plan);

/// A text of somebody's file, cut with "…" where it has more letters than these.
[[nodiscard]] std::string in_a_line(const std::string& text, std::size_t most = 50);

/// "south-south-east"
[[nodiscard]] std::string compass_words(core::Degrees bearing);

/// Who sees to the boxes of a tree in the years after; empty where nobody told.
[[nodiscard]] const std::string& looked_after_by(const plan::Plan& plan, std::size_t tree);

/// "1 and 2"
[[nodiscard]] std::string box_numbers(const plan::Plan& plan, std::size_t tree);

}  // namespace roostward::report
