#include "roostward/io/site_draft.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

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
    return evidence.empty() ? "" : comment("CONFIRM: " + evidence);
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
        return guess.confirm.empty() ? "" : confirm(fmt::format("{}: {}", guess.field, guess.confirm));
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
        text += comment(fmt::format("Columns that nobody can tell, and that are not read: {}.",
                                    fmt::join(layer.left, ", ")));
    return text;
}

std::string crs_line(const RecognisedLayer& layer) {
    if (layer.confirm_crs.empty()) return {};
    if (!layer.source.crs.empty())
        return confirm(layer.confirm_crs) + fmt::format("crs = {}\n", quoted(layer.source.crs));
    return confirm(layer.confirm_crs + ". Ask whoever made the file, and write it here") +
           "# crs = \"EPSG:…\"\n";
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
    return "\n# What a box must keep away from, measured from the edge of the crown. Ask the network owner "
           "how far.\n[[avoid]]\n" +
           source_lines(layer) +
           confirm("lines in this file were taken for overhead power lines, 10 m as common practice") +
           "within_m = 10\nreason = \"overhead power line\"\nthen = \"ruled out\"\n";
}

std::string site_section(const std::string& name, const Recognised& recognised) {
    std::string text =
        "[site]\n" + confirm("the name of the folder") + fmt::format("name = {}\n", quoted(name));
    if (recognised.timezone.empty())
        text += comment("The clock in your notes. Name your own and take away the first mark of the line.") +
                "# timezone = \"Europe/London\"\n";
    else
        text += confirm("the clock in your notes. " + recognised.confirm_timezone) +
                fmt::format("timezone = {}\n", quoted(recognised.timezone));
    text += confirm("which animals the boxes are for; it decides height, entrance and size of trees");
    return text + "animal = \"small-crevice-bat\"\n";
}

std::string inputs_section(const Recognised& recognised, bool with_squares) {
    const BlankSheets blank = blank_sheets_for(recognised);
    std::string text = "\n[inputs]\n";
    if (blank.passes)
        text += comment(
                    "What flew past, a row each: a blank sheet to fill in. Or fill in passes.xlsx, and name "
                    "it here.") +
                "passes = \"passes.csv\"\n";
    if (blank.watches)
        text += comment("Who watched where, from when to when, how far they saw: a blank sheet.") +
                "watches = \"watches.csv\"\n";
    if (blank.trees)
        text += comment("The trees: a blank sheet. If somebody keeps an inventory, name it instead.") +
                "trees = \"trees.csv\"\n";
    for (const RecognisedLayer& layer : recognised.layers)
        if (layer.source.role != "avoid" && fits_one_line(layer)) text += one_line(layer);
    const std::vector<std::string_view> roles = input_roles();
    if (with_squares && std::ranges::find(roles, "squares") != roles.end())
        text += comment("The lettered squares of squares.html, for passes that tell a square.") +
                "squares = \"squares.geojson\"\n";
    text += comment(
        "Also read, where you have them: allowed_area, canopy, lamps, roads, water, roosts, boxes, and "
        "[[avoid]] for power lines.");
    for (const RecognisedLayer& layer : recognised.layers)
        if (layer.source.role != "avoid" && !fits_one_line(layer)) text += table(layer);
    for (const RecognisedLayer& layer : recognised.layers)
        if (layer.source.role == "avoid") text += avoid_table(layer);
    if (!recognised.unknown.empty()) text += "\n";
    for (const UnknownLayer& unknown : recognised.unknown)
        text += comment(fmt::format("Not used: {}{}: {}.", unknown.file,
                                    unknown.layer.empty() ? "" : ", layer " + unknown.layer, unknown.why));
    return text;
}

constexpr const char* box_and_choice = R"(
# What will be hung. Take away the first mark of a line where it is so.
[box]
wall = "thin"                            # or insulated
# made_of = "reclaimed softwood boards"
# colour = "pale"                        # or medium, dark
# slot_mm = 15

[choose]
sites = 6              # trees to choose
boxes_per_site = 2     # facing different ways
spacing_m = 30         # no two chosen trees are closer
)";

}  // namespace

BlankSheets blank_sheets_for(const Recognised& recognised) {
    const auto has = [&](std::string_view role) {
        return std::ranges::any_of(recognised.layers,
                                   [&](const RecognisedLayer& l) { return l.source.role == role; });
    };
    return {!has("passes") && !has("tracks") && !has("tallies"), !has("watches"), !has("trees")};
}

std::string site_file_text(const std::string& name, const Recognised& recognised, bool with_squares) {
    return comment(
               "What Roostward works from. Paths are relative to this file. Below CONFIRM stands what was "
               "judged from "
               "the files or is only likely: look at each, correct it, take the line away.") +
           comment("Then: roostward check site.toml") + "\n" + site_section(name, recognised) +
           inputs_section(recognised, with_squares) + box_and_choice;
}

}  // namespace roostward::io
