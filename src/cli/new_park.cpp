#include "roostward/cli/new_park.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <filesystem>
#include <utility>

#include "roostward/cli/interrupts.hpp"
#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/output_folder.hpp"
#include "roostward/io/site_draft.hpp"
#include "roostward/io/writers.hpp"
#include "roostward/report/before_you_start.hpp"
#include "roostward/report/lettered_squares.hpp"
#include "roostward/report/record_sheets.hpp"
#include "roostward/report/starter_text.hpp"

namespace roostward::cli {

namespace fs = std::filesystem;

namespace {

/// "Alder Reach" of a folder alder-reach.
std::string name_of(const std::string& folder) {
    fs::path path = fs::weakly_canonical(fs::absolute(folder));
    if (!path.has_filename()) path = path.parent_path();
    std::string name = path.filename().string();
    bool begins = true;
    for (char& c : name) {
        if (c == '-' || c == '_') c = ' ';
        if (begins && c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
        begins = c == ' ';
    }
    return name;
}

std::string column_told(const io::FieldGuess& guess) {
    std::string how;
    const auto add = [&how](const std::string& part) { how += (how.empty() ? "" : ", ") + part; };
    if (guess.source.girth) add(core::said("column.girth"));
    if (!guess.source.unit.empty()) add(core::said("column.unit", {{"unit", guess.source.unit}}));
    if (!guess.source.values.empty()) add(core::said("column.words"));
    return fmt::format("{} ← {}{}", guess.field, guess.source.column, how.empty() ? "" : " (" + how + ")");
}

std::string layer_in_file(const std::string& file, const std::string& layer) {
    return layer.empty() ? file : core::said("new.layer_in_file", {{"file", file}, {"layer", layer}});
}

report::LookedFile told_of(const io::RecognisedLayer& layer) {
    const std::string role = layer.source.role == "avoid" ? "[[avoid]]" : layer.source.role;
    report::LookedFile told{layer_in_file(layer.source.file, layer.source.layer), role, layer.rows, {}, {}};
    const auto confirm = [&](const std::string& what, const std::string& evidence) {
        if (!evidence.empty()) told.confirm.push_back(what + ": " + evidence);
    };
    confirm(role, layer.confirm_role);
    confirm(layer.source.crs.empty() ? core::said("new.crs_not_known") : "crs = " + layer.source.crs,
            layer.confirm_crs);
    confirm("only", layer.confirm_only);
    confirm("date_order = " + layer.source.date_order, layer.confirm_date_order);
    for (const io::FieldGuess& guess : layer.fields) {
        told.columns.push_back(column_told(guess));
        confirm(guess.field, guess.confirm);
    }
    told.columns.insert(told.columns.end(), layer.notes.begin(), layer.notes.end());
    if (!layer.left.empty())
        told.columns.push_back(
            core::said("new.not_read", {{"columns", fmt::format("{}", fmt::join(layer.left, ", "))}}));
    return told;
}

std::vector<report::LookedFile> told_of(const io::Recognised& recognised) {
    std::vector<report::LookedFile> told;
    for (const io::RecognisedLayer& layer : recognised.layers)
        told.push_back(told_of(layer));
    for (const io::UnknownLayer& unknown : recognised.unknown)
        told.push_back({layer_in_file(unknown.file, unknown.layer),
                        core::said("new.not_used", {{"why", unknown.why}}),
                        0,
                        {},
                        {}});
    return told;
}

/// The park in lettered squares, or a sentence why not.
struct Map {
    report::ParkMap park;
    std::vector<report::Square> squares;
    std::string why_not;
};

Map map_of(const io::Recognised& recognised, const std::string& name, core::Threads threads) {
    Map map;
    std::optional<io::ParkPlaces> places;
    try {
        places = io::park_places(recognised, threads);
    } catch (const core::Error& error) {
        map.why_not = core::said("new.no_map_yet", {{"why", error.what()}});
    }
    if (!places) return map;
    map.park = {name, places->plane, {}, std::move(places->allowed_area), std::move(places->watches)};
    for (io::ParkPlaces::Tree& tree : places->trees)
        map.park.trees.push_back({std::move(tree.tag), tree.stem});
    map.squares = report::lettered_squares(map.park);
    if (map.squares.empty()) map.why_not = core::said("new.no_map", {{"most", report::most_squares}});
    return map;
}

/// Files that are written one after the other, and their names.
class Written {
 public:
    explicit Written(io::OutputFolder& folder) : folder_(folder) {}
    [[nodiscard]] fs::path next(const std::string& name) {
        names_.push_back(name);
        return folder_.path_of(name);
    }
    [[nodiscard]] const std::vector<std::string>& names() const { return names_; }

 private:
    io::OutputFolder& folder_;
    std::vector<std::string> names_;
};

/// Each as CSV and as XLSX, for people who have no files of that kind.
void write_sheets(const io::BlankSheets& blank, Written& written) {
    for (const report::RecordSheet& sheet : report::record_sheets()) {
        const bool wanted = sheet.name == "passes"    ? blank.passes
                            : sheet.name == "watches" ? blank.watches
                                                      : blank.trees;
        if (!wanted) continue;
        io::write_csv(written.next(sheet.name + ".csv"), report::blank_table(sheet));
        io::write_xlsx(written.next(sheet.name + ".xlsx"), report::blank_workbook(sheet));
    }
}

}  // namespace

std::string start_new_park(const Options& options) {
    io::require_new_or_empty(options.out);
    const io::Recognised recognised = io::recognise(options.files, options.out);
    const std::string name = name_of(options.out);
    const Map map = map_of(recognised, name, options.threads);
    io::OutputFolder folder(options.out, io::PeoplesFiles::refuse);
    const Interrupts::Cleanup cleanup([&folder] { folder.discard(); });
    Written written(folder);
    const std::string words = options.words.empty() ? "" : io::path_from(options.out, options.words);
    io::write_text(written.next("site.toml"),
                   io::site_file_text({name, words, !map.squares.empty()}, recognised));
    io::write_text(written.next("before_you_start.html"), report::before_you_start());
    if (!map.squares.empty()) {
        io::write_geojson(written.next("squares.geojson"), report::squares_layer(map.squares, map.park.plane),
                          options.threads);
        io::write_text(written.next("squares.html"), report::squares_page(map.park, map.squares));
    }
    write_sheets(io::blank_sheets_for(recognised), written);
    std::vector<std::string> told;
    if (!map.why_not.empty()) told.push_back(map.why_not);
    for (const std::string& note : folder.publish())
        told.push_back(note);
    return report::starter_text(told_of(recognised), written.names(), told, options.out);
}

}  // namespace roostward::cli
