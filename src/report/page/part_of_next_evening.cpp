#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "html_text.hpp"
#include "page/html.hpp"
#include "page/page_parts.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::report {

namespace {

using evenings::Because;

std::string paragraph(const std::string& text) {
    return element("p", html_text(text));
}

std::string percent(double share) {
    return core::said("evenings.percent", {{"share", fmt::format("{:.0f}", 100.0 * share)}});
}

std::size_t posts_for(const evenings::Posts& posts, Because because) {
    std::size_t count = 0;
    for (const evenings::Round& round : posts.rounds.front())
        count += static_cast<std::size_t>(std::ranges::count_if(
            round.posts, [because](const evenings::Post& post) { return post.why.because == because; }));
    return count;
}

/// What its posts are for; kinds without a post are not told.
std::string purposes(const evenings::Posts& posts) {
    constexpr std::array<std::pair<Because, const char*>, 4> kinds{{{Because::new_ground, "next.new_ground"},
                                                                    {Because::again, "next.again"},
                                                                    {Because::between, "next.between"},
                                                                    {Because::confirm, "next.confirm"}}};
    std::string items;
    for (const auto& [because, key] : kinds)
        if (const std::size_t count = posts_for(posts, because); count > 0)
            items += element("li", html_text(core::said_for(count, key)));
    return items.empty() ? items : element("ul", items);
}

std::string sites_watched_again(const evenings::Posts& posts) {
    if (posts.sites.empty()) return {};
    const auto again =
        static_cast<std::size_t>(std::ranges::count_if(posts.sites, [](const evenings::SiteToConfirm& site) {
            return site.confirmed == evenings::Confirmed::confirmed;
        }));
    return paragraph(core::said("next.sites", {{"again", again}, {"all", posts.sites.size()}}));
}

}  // namespace

std::string what_the_next_is_worth(const Page& page) {
    if (!page.plan.next_evening) return paragraph(core::said("next.unknown"));
    const auto& [teams, posts] = *page.plan.next_evening;
    return paragraph(core::said_for(teams, "next.watched",
                                    {{"before", percent(posts.share_before)},
                                     {"after", percent(posts.share_after.front())},
                                     {"least", page.plan.settings.activity.min_watch.value()}})) +
           sites_watched_again(posts) + purposes(posts) + paragraph(core::said("next.how"));
}

}  // namespace roostward::report
