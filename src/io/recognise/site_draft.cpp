#include "roostward/io/site_draft.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "roostward/core/catalogue.hpp"
#include "site/site_file_inputs.hpp"
#include "writing/write_text.hpp"

namespace roostward::io {

namespace {

constexpr std::size_t widest_line = 100;

/// As a TOML basic string.
std::string quoted(const std::string& text) {
    std::string valid;
    std::string out = "\"";
    for (const char c : valid_utf8(text, valid)) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\')
            out += std::string("\\") + c;
        else if (byte < 0x20 || byte == 0x7f)
            out += fmt::format("\\u{:04X}", byte);
        else
            out += c;
    }
    return out + '"';
}

/// Lines that begin with "# ", broken at spaces.
std::string comment(const std::string& text) {
    std::string valid, out, line = "#";
    std::string clean = valid_utf8(text, valid);
    std::ranges::replace_if(
        clean, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }, ' ');
    std::string_view rest = clean;
    while (!rest.empty()) {
        const std::size_t space = std::min(rest.find(' '), rest.size());
        if (line.size() > 1 && line.size() + 1 + space > widest_line) {
            out += line + "\n";
            line = "#  ";
        }
        line += fmt::format(" {}", rest.substr(0, space));
        rest.remove_prefix(std::min(space + 1, rest.size()));
    }
    return out + line + "\n";
}

std::string confirm(const std::string& evidence) {
    return evidence.empty() ? "" : comment(core::said("draft.confirm", {{"evidence", evidence}}));
}

std::string values_table(const std::map<std::string, std::string>& values) {
    std::vector<std::string> pairs;
    pairs.reserve(values.size());
    for (const auto& [theirs, ours] : values)
        pairs.push_back(fmt::format("{} = {}", quoted(theirs), quoted(ours)));
    return fmt::format("{{ {} }}", fmt::join(pairs, ", "));
}

/// A field that the reader finds without being told needs no line.
bool needs_a_line(const FieldGuess& guess) {
    const FieldSource& from = guess.source;
    const bool own_unit = from.unit.empty() || guess.field.ends_with("_" + from.unit);
    return guess.field != from.column || !own_unit || from.girth || !from.values.empty();
}

std::string field_line(const FieldGuess& guess) {
    const FieldSource& from = guess.source;
    if (!needs_a_line(guess))
        return guess.confirm.empty() ? ""
                                     : confirm(core::said("draft.field", {{"field", guess.field},
                                                                          {"evidence", guess.confirm}}));
    std::string text = confirm(guess.confirm);
    if (from.unit.empty() && !from.girth && from.values.empty())
        return text + fmt::format("{} = {}\n", guess.field, quoted(from.column));
    text += fmt::format("{} = {{ from = {}", guess.field, quoted(from.column));
    if (!from.unit.empty()) text += fmt::format(", unit = {}", quoted(from.unit));
    if (from.girth) text += ", girth = true";
    if (!from.values.empty()) text += ", values = " + values_table(from.values);
    return text + " }\n";
}

std::string about_columns(const RecognisedLayer& layer) {
    std::string text;
    for (const std::string& note : layer.notes)
        text += comment(note + ".");
    if (!layer.left.empty())
        text += comment(
            core::said("draft.columns_left", {{"columns", fmt::format("{}", fmt::join(layer.left, ", "))}}));
    return text;
}

std::string crs_line(const RecognisedLayer& layer) {
    if (layer.confirm_crs.empty()) return {};
    if (!layer.source.crs.empty())
        return confirm(layer.confirm_crs) + fmt::format("crs = {}\n", quoted(layer.source.crs));
    return confirm(core::said("draft.ask_crs", {{"evidence", layer.confirm_crs}})) + "# crs = \"EPSG:…\"\n";
}

/// The entries that any table of an input may have.
std::string source_lines(const RecognisedLayer& layer) {
    const InputSource& source = layer.source;
    std::string text = confirm(layer.confirm_role);
    text += fmt::format("file = {}\n", quoted(source.file));
    if (!source.layer.empty()) text += fmt::format("layer = {}\n", quoted(source.layer));
    text += crs_line(layer);
    if (!source.only.empty())
        text += confirm(layer.confirm_only) + fmt::format("only = {}\n", quoted(source.only));
    if (!source.date_order.empty())
        text +=
            confirm(layer.confirm_date_order) + fmt::format("date_order = {}\n", quoted(source.date_order));
    return text;
}

bool fits_one_line(const RecognisedLayer& layer) {
    return layer.source.layer.empty() && layer.confirm_crs.empty() && layer.source.only.empty() &&
           layer.source.date_order.empty() && std::ranges::none_of(layer.fields, needs_a_line);
}

std::string one_line(const RecognisedLayer& layer) {
    std::string text = confirm(layer.confirm_role);
    text += fmt::format("{} = {}\n", layer.source.role, quoted(layer.source.file));
    for (const FieldGuess& guess : layer.fields)
        text += field_line(guess);
    return text + about_columns(layer);
}

std::string table(const RecognisedLayer& layer) {
    std::string text = fmt::format("\n[inputs.{}]\n", layer.source.role) + source_lines(layer);
    std::string fields;
    for (const FieldGuess& guess : layer.fields)
        fields += field_line(guess);
    if (!fields.empty()) text += fmt::format("\n[inputs.{}.fields]\n", layer.source.role) + fields;
    return text + about_columns(layer);
}

std::string avoid_table(const RecognisedLayer& layer) {
    return "\n# " + core::said("draft.avoid") + "\n[[avoid]]\n" + source_lines(layer) +
           confirm(core::said("draft.power_lines")) +
           "within_m = 10\nreason = \"overhead power line\"\nthen = \"ruled out\"\n";
}

std::string site_section(const SiteDraft& draft, const Recognised& recognised) {
    std::string text = "[site]\n" + confirm(core::said("draft.name_of_folder")) +
                       fmt::format("name = {}\n", quoted(draft.name));
    if (!draft.words.empty()) text += fmt::format("words = {}\n", quoted(draft.words));
    if (recognised.timezone.empty())
        text += comment(core::said("draft.clock")) + "# timezone = \"Europe/London\"\n";
    else
        text += confirm(core::said("draft.clock_guess", {{"evidence", recognised.confirm_timezone}})) +
                fmt::format("timezone = {}\n", quoted(recognised.timezone));
    text += confirm(core::said("draft.animal"));
    return text + "animal = \"small-crevice-bat\"\n" + confirm(core::said("draft.hottest_month")) +
           "# hottest_month_c = 24\n";
}

std::string inputs_section(const Recognised& recognised, bool with_squares) {
    const BlankSheets blank = blank_sheets_for(recognised);
    std::string text = "\n[inputs]\n";
    if (blank.passes) text += comment(core::said("draft.passes")) + "passes = \"passes.csv\"\n";
    if (blank.watches) text += comment(core::said("draft.watches")) + "watches = \"watches.csv\"\n";
    if (blank.trees) text += comment(core::said("draft.trees")) + "trees = \"trees.csv\"\n";
    for (const RecognisedLayer& layer : recognised.layers)
        if (layer.source.role != "avoid" && fits_one_line(layer)) text += one_line(layer);
    const std::vector<std::string_view> roles = input_roles();
    if (with_squares && std::ranges::find(roles, "squares") != roles.end())
        text += comment(core::said("draft.squares")) + "squares = \"squares.geojson\"\n";
    text += comment(core::said("draft.also_read"));
    for (const RecognisedLayer& layer : recognised.layers)
        if (layer.source.role != "avoid" && !fits_one_line(layer)) text += table(layer);
    for (const RecognisedLayer& layer : recognised.layers)
        if (layer.source.role == "avoid") text += avoid_table(layer);
    if (!recognised.unknown.empty()) text += "\n";
    for (const UnknownLayer& unknown : recognised.unknown)
        text += comment(
            unknown.layer.empty()
                ? core::said("draft.not_used", {{"file", unknown.file}, {"why", unknown.why}})
                : core::said("draft.layer_not_used",
                             {{"file", unknown.file}, {"layer", unknown.layer}, {"why", unknown.why}}));
    return text;
}

/// A line of the site file, with what it means behind it.
std::string told(std::string_view line, std::size_t column, const char* key) {
    return fmt::format("{:{}}# {}\n", line, column, core::said(key));
}

std::string box_and_choice() {
    return "\n# " + core::said("draft.box") + "\n[box]\n" + told("wall = \"thin\"", 41, "draft.wall") +
           "# made_of = \"reclaimed softwood boards\"\n" + told("# colour = \"pale\"", 41, "draft.colour") +
           "# slot_mm = 15\n\n[choose]\n" + told("sites = 6", 23, "draft.sites") +
           told("boxes_per_site = 2", 23, "draft.boxes_per_site") +
           told("spacing_m = 30", 23, "draft.spacing");
}

}  // namespace

BlankSheets blank_sheets_for(const Recognised& recognised) {
    const auto has = [&](std::string_view role) {
        return std::ranges::any_of(recognised.layers,
                                   [&](const RecognisedLayer& l) { return l.source.role == role; });
    };
    return {!has("passes") && !has("tracks") && !has("tallies"), !has("watches"), !has("trees")};
}

std::string site_file_text(const SiteDraft& draft, const Recognised& recognised) {
    return comment(core::said("draft.head")) + comment(core::said("draft.then")) + "\n" +
           site_section(draft, recognised) + inputs_section(recognised, draft.with_squares) +
           box_and_choice();
}

}  // namespace roostward::io
