#include "html.hpp"

#include <fmt/format.h>

#include "html_text.hpp"

namespace roostward::report {

std::string element(std::string_view start, std::string_view inner) {
    return fmt::format("<{}>{}</{}>", start, inner, start.substr(0, start.find(' ')));
}

std::string name(std::string_view text) {
    return element("bdi", html_text(text));
}

std::string figure(double value, int decimals) {
    const std::string digits = fmt::format("{:.{}f}", value + 0.0, decimals);
    return fmt::format("<data value=\"{0}\">{0}</data>", digits);
}

std::string rounded(const Figure& figure) {
    const std::string digits = figure.plain(figure.under_step ? figure.step : figure.value);
    return (figure.under_step ? "&lt;" : "") + fmt::format("<data value=\"{0}\">{0}</data>", digits);
}

std::string with_range(const Figure& figure) {
    if (!figure.range) return rounded(figure) + " <small>(?)</small>";
    return fmt::format("{0} <small>(<data value=\"{1}\">{1}</data>–<data value=\"{2}\">{2}</data>)</small>",
                       rounded(figure), figure.plain(figure.range->low), figure.plain(figure.range->high));
}

std::string day(core::Date date) {
    const std::string text = core::to_text(date);
    return fmt::format("<time datetime=\"{0}\">{0}</time>", text);
}

std::string list_of(const std::vector<std::string>& texts) {
    std::string items;
    for (const auto& text : texts)
        items += element("li", html_text(text)) + "\n";
    return element("ul", items);
}

std::string table(std::string_view title, const std::vector<Column>& columns, const std::vector<Row>& rows,
                  Narrow narrow) {
    const bool stacks = narrow == Narrow::stacks;
    std::string head, body;
    for (const Column& column : columns)
        head += element(column.number ? "th scope=\"col\" class=\"number\"" : "th scope=\"col\"",
                        html_text(column.title));
    for (const Row& row : rows) {
        std::string cells;
        for (std::size_t i = 0; i < row.size(); ++i)
            cells += element(fmt::format("td{}{}", columns[i].number ? " class=\"number\"" : "",
                                         stacks ? " data-title=\"" + html_text(columns[i].title) + "\"" : ""),
                             row[i]);
        body += element("tr", cells) + "\n";
    }
    return fmt::format(
        "<div class=\"wide\" role=\"region\" tabindex=\"0\" "
        "aria-label=\"{}\"><table{}><thead><tr>{}</tr></thead>"
        "<tbody>\n{}</tbody></table></div>\n",
        html_text(title), stacks ? " class=\"stacks\"" : "", head, body);
}

}  // namespace roostward::report
