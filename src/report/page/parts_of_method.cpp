#include <fmt/format.h>

#include <algorithm>

#include "html.hpp"
#include "html_text.hpp"
#include "page_parts.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/document.hpp"
#include "roostward/report/bandwidth_words.hpp"
#include "roostward/report/certainty_words.hpp"
#include "roostward/report/line_words.hpp"
#include "roostward/report/tally.hpp"
#include "roostward/report/what_if_words.hpp"
#include "roostward/report/words.hpp"

namespace roostward::report {

namespace {

/// Findings of one kind that are written out.
constexpr std::size_t findings_a_kind = 20;

std::string heading(std::string_view key) {
    return element("h3", html_text(core::said(key)));
}

/// A part that is opened when somebody wants to read it.
std::string folded(const std::string& title, const std::string& inner) {
    return element("details", element("summary", html_text(title)) + inner) + "\n";
}

std::string finding_item(const core::Finding& finding) {
    const std::string where = core::to_text(finding.place);
    return element("li", (where.empty() ? "" : name(where) + ": ") +
                             (finding.value.empty() ? "" : element("q", name(finding.value)) + " ") +
                             html_text(sentence_of(finding)));
}

std::string findings_of_kind(const core::Findings& findings, const Counted& kind) {
    std::string items;
    std::size_t shown = 0;
    for (const auto& finding : findings)
        if (finding.kind == kind.name && shown++ < findings_a_kind) items += finding_item(finding) + "\n";
    if (kind.count > findings_a_kind)
        items +=
            element("li", html_text(core::said("findings.more",
                                               {{"count", std::to_string(kind.count - findings_a_kind)}})));
    return folded(fmt::format("{} ({})", core::shown("kind", kind.name), kind.count), element("ul", items));
}

std::string rows_read(const plan::Plan& plan) {
    std::vector<Row> rows;
    for (const auto& count : plan.counts)
        rows.push_back({html_text(count.layer), name(count.file), figure(static_cast<double>(count.read)),
                        figure(static_cast<double>(count.used)), figure(static_cast<double>(count.set_aside)),
                        figure(static_cast<double>(count.apart))});
    return table(core::said("rows.title"),
                 {{core::said("rows.layer")},
                  {core::said("rows.file")},
                  {core::said("rows.read"), true},
                  {core::said("rows.used"), true},
                  {core::said("rows.set_aside"), true},
                  {core::said("rows.apart"), true}},
                 rows);
}

std::string parameters(const plan::Plan& plan) {
    std::vector<Row> rows;
    for (const auto& parameter : plan.settings.parameters) {
        const auto& provenance = parameter.provenance;
        rows.push_back(
            {element("code", html_text(parameter.key)),
             name(core::to_json(parameter.value) + (parameter.unit.empty() ? "" : " " + parameter.unit)),
             html_text(core::shown("set_by", parameter.set_by)),
             html_text(core::shown("status", siting::to_text(provenance.status))),
             html_text(provenance.source), html_text(parameter.meaning)});
    }
    return table(core::said("parameters.title"),
                 {{core::said("parameters.key")},
                  {core::said("parameters.value")},
                  {core::said("parameters.set_by")},
                  {core::said("parameters.status")},
                  {core::said("parameters.source")},
                  {core::said("parameters.meaning")}},
                 rows, Narrow::stacks);
}

std::string files(const plan::Plan& plan) {
    std::vector<Row> rows;
    for (const auto& file : plan.files)
        rows.push_back(
            {html_text(file.role), name(file.file), name(file.crs), element("code", html_text(file.sha256))});
    return table(core::said("files.title"),
                 {{core::said("files.role")},
                  {core::said("files.file")},
                  {core::said("files.crs")},
                  {core::said("files.sha256")}},
                 rows, Narrow::stacks);
}

std::string checks(const plan::Plan& plan) {
    std::vector<Row> rows;
    for (const auto& check : plan.checks)
        rows.push_back({html_text(core::shown("matter", check.matter)),
                        html_text(core::said(check.checked ? "checks.yes" : "checks.no")), name(check.how)});
    return table(core::said("checks.title"),
                 {{core::said("checks.matter")}, {core::said("checks.checked")}, {core::said("checks.how")}},
                 rows);
}

}  // namespace

std::string evidence(const Page& page) {
    const plan::Plan& plan = page.plan;
    return heading("evidence.evenings") + passes_chart(plan) + heading("evidence.maps") + evening_maps(plan) +
           heading("evidence.lines") + element("p", html_text(about_lines(plan))) + axis_roses(plan) +
           heading("evidence.moves") + list_of(how_sure(plan)) +
           folded(core::said("evidence.what_if"), list_of(what_if_sentences(plan))) +
           heading("evidence.bandwidth") + element("p", html_text(bandwidth_sentence(plan.bandwidth))) +
           bandwidth_chart(plan);
}

std::string findings(const Page& page) {
    const plan::Plan& plan = page.plan;
    std::string text = rows_read(plan);
    if (plan.findings.empty()) return text + element("p", html_text(core::said("findings.none")));
    for (const Counted& kind : findings_by_kind(plan.findings))
        text += findings_of_kind(plan.findings, kind);
    return text;
}

std::string cannot_show(const Page& page) {
    std::vector<std::string> points = weak_points(page.plan);
    for (const char* key : {"cannot.abundance", "cannot.stations", "cannot.use"})
        points.push_back(core::said(key));
    return list_of(points);
}

std::string method(const Page& page) {
    const plan::Plan& plan = page.plan;
    return element("p", html_text(core::said("method.text"))) + heading("method.repeat") +
           element("p", html_text(core::said("method.same", {{"version", page.facts.version}}))) +
           element("pre", element("code", html_text(page.facts.repeat))) +
           folded(core::said("checks.title"), checks(plan)) +
           folded(core::said("parameters.title"), parameters(plan)) +
           folded(core::said("files.title"), files(plan));
}

std::string all_cautions() {
    std::vector<std::string> texts;
    for (const auto& caution : cautions())
        texts.emplace_back(caution.text);
    return list_of(texts);
}

}  // namespace roostward::report
