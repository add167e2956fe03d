#include <date/date.h>
#include <fmt/format.h>
#include <iconv.h>

#include <array>
#include <chrono>
#include <cmath>
#include <numbers>
#include <optional>

#include "cli/invented_inventories.hpp"
#include "io/scratch_folder.hpp"
#include "roostward/core/random.hpp"
#include "roostward/core/time.hpp"
#include "roostward/geo/crs.hpp"

namespace roostward::testing {

namespace {

constexpr int trees_a_park = 240;

/// One tree as it truly is.
struct Truth {
    int number = 0;
    core::PlanePoint degrees;
    double dbh_cm = 0.0, height_m = 0.0, crown_m = 0.0;
    std::string species;
    std::size_t condition = 0;  ///< good, fair, poor, dead
    bool hollow = false, guarded = false, felled = false;
    int year = 0;
    std::chrono::sys_days inspected;
};

std::string species(core::RandomStream& random) {
    constexpr std::array<const char*, 12> names = {
        "Quercus robur",          "Tilia cordata",      "Acer platanoides",
        "Platanus x hispanica",   "Fraxinus excelsior", "Betula pendula",
        "Aesculus hippocastanum", "Carpinus betulus",   "Prunus avium",
        "Alnus glutinosa",        "Salix alba",         "Ulmus minor"};
    return names[random.below(names.size())];
}

/// As thick and as high as park trees are: most 15 to 60 cm; heights grow ever less with thickness.
Truth make_tree(int number, core::PlanePoint degrees, core::RandomStream& random) {
    Truth tree;
    tree.number = number;
    tree.degrees = degrees;
    tree.dbh_cm = std::clamp(30.0 * std::exp(0.55 * random.normal()), 5.0, 160.0);
    tree.height_m = std::clamp(
        (2.0 + 24.0 * (1.0 - std::exp(-tree.dbh_cm / 38.0))) * (1.0 + 0.15 * random.normal()), 2.5, 36.0);
    tree.crown_m = std::clamp(0.08 * tree.dbh_cm * (1.0 + 0.2 * random.normal()), 0.5, 14.0);
    tree.species = species(random);
    const double luck = random.uniform();
    tree.condition = luck < 0.55 ? 0 : luck < 0.85 ? 1 : luck < 0.97 ? 2 : 3;
    tree.hollow = random.uniform() < 0.08;
    tree.guarded = random.uniform() < 0.12;
    tree.felled = random.uniform() < 0.05;
    tree.year = 1900 + static_cast<int>(random.below(120));
    tree.inspected = date::sys_days{} + std::chrono::days(19'000 + static_cast<int>(random.below(900)));
    return tree;
}

/// A number in their unit, rounded as they do, with their decimal mark.
std::string length(double metres, const WrittenColumn& column, char decimal) {
    const double unit = column.unit == "mm"   ? 0.001
                        : column.unit == "cm" ? 0.01
                        : column.unit == "in" ? 0.0254
                        : column.unit == "ft" ? 0.3048
                                              : 1.0;
    const double rounded = std::max(column.step, std::round(metres / unit / column.step) * column.step);
    std::string text = fmt::format("{:.{}f}", rounded, column.step >= 1.0 ? 0 : column.step >= 0.1 ? 1 : 2);
    if (const std::size_t point = text.find('.'); point != std::string::npos) text[point] = decimal;
    return text;
}

std::string day(std::chrono::sys_days when, const std::string& order) {
    const std::string mark = order.substr(3);
    const std::string format = order.starts_with("dmy")   ? "%d" + mark + "%m" + mark + "%Y"
                               : order.starts_with("mdy") ? "%m" + mark + "%d" + mark + "%Y"
                                                          : "%Y" + mark + "%m" + mark + "%d";
    return date::format(format, when);
}

std::string cell(const Truth& tree, const WrittenColumn& column, core::PlanePoint place, bool degrees,
                 char decimal) {
    const auto coordinate = [&](double value) {
        std::string text = fmt::format("{:.{}f}", value, degrees ? 6 : 2);
        text[text.find('.')] = decimal;
        return text;
    };
    switch (column.holds) {
        case Holds::tree:
            return fmt::format("{}", 1000 + tree.number);
        case Holds::dbh:
            return tree.number % 40 == 7 ? "0" : length(0.01 * tree.dbh_cm, column, decimal);
        case Holds::girth:
            return length(0.01 * tree.dbh_cm * std::numbers::pi, column, decimal);
        case Holds::height:
            return length(tree.height_m, column, decimal);
        case Holds::crown_radius:
            return length(tree.crown_m, column, decimal);
        case Holds::crown_width:
            return length(2.0 * tree.crown_m, column, decimal);
        case Holds::species:
            return tree.species;
        case Holds::condition:
            return column.words[tree.condition];
        case Holds::hollow:
            return column.words[tree.hollow ? 0 : 1];
        case Holds::protection:
            return column.words[tree.guarded ? 0 : 1];
        case Holds::owner:
            return tree.number % 3 == 0 ? "Stadt" : "privat";
        case Holds::inspected:
            return day(tree.inspected, column.words[0]);
        case Holds::x:
            return coordinate(place.easting);
        case Holds::y:
            return coordinate(place.northing);
        case Holds::street:
            return fmt::format("{} {}",
                               std::array{"Mill Lane", "Rosenweg", "Rue Haute",
                                          "Kade"}[static_cast<std::size_t>(tree.number % 4)],
                               tree.number % 7);
        case Holds::house_number:
            return fmt::format("{}", 1 + tree.number % 90);
        case Holds::planted:
            return fmt::format("{}", tree.year);
        case Holds::height_class:
            return fmt::format("{}", static_cast<int>(tree.height_m / 3.048));
        case Holds::status:
            return column.words[tree.felled ? 1 : 0];
    }
    return {};
}

bool is_geojson(const Inventory& inventory) {
    return inventory.file.ends_with(".geojson");
}

std::string quoted(const std::string& text, char delimiter) {
    return text.find(delimiter) == std::string::npos ? text : '"' + text + '"';
}

std::string csv(const Inventory& inventory, const std::vector<Truth>& trees) {
    std::string text;
    const auto add = [&](std::size_t i, const std::string& value) {
        text += quoted(value, inventory.delimiter) +
                (i + 1 < inventory.columns.size() ? std::string(1, inventory.delimiter) : "\r\n");
    };
    for (std::size_t i = 0; i < inventory.columns.size(); ++i)
        add(i, inventory.columns[i].header);
    std::optional<geo::Transform> way;
    if (!inventory.crs.empty()) way.emplace(geo::wgs84(), geo::Crs{inventory.crs});
    for (const Truth& tree : trees)
        for (std::size_t i = 0; i < inventory.columns.size(); ++i)
            add(i, cell(tree, inventory.columns[i], way ? (*way)(tree.degrees) : tree.degrees, !way,
                        inventory.decimal));
    return text;
}

bool is_number(Holds holds) {
    return holds == Holds::tree || holds == Holds::dbh || holds == Holds::girth || holds == Holds::height ||
           holds == Holds::crown_radius || holds == Holds::crown_width || holds == Holds::planted ||
           holds == Holds::height_class;
}

std::string geojson(const Inventory& inventory, const std::vector<Truth>& trees) {
    std::string text = "{\"type\":\"FeatureCollection\",\"features\":[";
    for (const Truth& tree : trees) {
        text += tree.number == 0 ? "\n" : ",\n";
        text += fmt::format(
            "{{\"type\":\"Feature\",\"geometry\":{{\"type\":\"Point\",\"coordinates\":[{:.6f},{:.6f}]}},"
            "\"properties\":{{",
            tree.degrees.easting, tree.degrees.northing);
        for (std::size_t i = 0; i < inventory.columns.size(); ++i) {
            const WrittenColumn& column = inventory.columns[i];
            const std::string value = cell(tree, column, {}, false, '.');
            text += fmt::format("{}\"{}\":{}", i == 0 ? "" : ",", column.header,
                                is_number(column.holds) ? value : '"' + value + '"');
        }
        text += "}}";
    }
    return text + "\n]}\n";
}

std::string encoded(std::string text, const std::string& encoding) {
    if (encoding.empty()) return text;
    const iconv_t converter = iconv_open(encoding.c_str(), "UTF-8");
    std::string out(4 * text.size(), '\0');
    char *from = text.data(), *to = out.data();
    std::size_t left = text.size(), room = out.size();
    EXPECT_NE(iconv(converter, &from, &left, &to, &room), static_cast<std::size_t>(-1)) << encoding;
    iconv_close(converter);
    out.resize(out.size() - room);
    return out;
}

/// Three evenings at the equinox, when the sun sets at six by the sun everywhere; times carry their offset.
void write_survey(const Inventory& inventory, const geo::Transform& from_plane, core::PlanePoint middle,
                  const std::filesystem::path& folder) {
    using namespace std::chrono_literals;
    std::string watches = "watch,lon,lat,start,end,farthest_seen_m\n",
                passes = "time,watch,lon,lat,bearing_deg\n";
    const auto time = [](core::Instant when) {
        return date::format("%Y-%m-%dT%H:%M:%SZ", std::chrono::floor<std::chrono::seconds>(when));
    };
    const auto solar = std::chrono::seconds(std::llround(-240.0 * inventory.longitude));
    const core::PlanePoint stand = from_plane(middle);
    for (int evening = 0; evening < 3; ++evening) {
        const core::Instant sunset =
            core::Instant(std::chrono::sys_days(std::chrono::year(2026) / 9 / (20 + evening))) + 18h + solar;
        watches += fmt::format("W{},{:.6f},{:.6f},{},{},120\n", evening, stand.easting, stand.northing,
                               time(sunset - 5min), time(sunset + 75min));
        for (int i = 0; i < 30; ++i) {
            const core::PlanePoint seen =
                from_plane({middle.easting - 60.0 + 4.0 * i, middle.northing + 10.0 + (i * 7) % 5});
            passes += fmt::format("{},W{},{:.6f},{:.6f},{}\n", time(sunset + 10min + i * 100s), evening,
                                  seen.easting, seen.northing, i % 2 == 0 ? 88 : 268);
        }
    }
    put_text(folder / "passes.csv", passes);
    put_text(folder / "watches.csv", watches);
}

}  // namespace

void write_park(const Inventory& inventory, const std::filesystem::path& folder) {
    const core::GeographicPoint place{core::Degrees(inventory.longitude), core::Degrees(inventory.latitude)};
    const geo::Crs plane = *geo::utm_zone_of(std::array{place});
    const geo::Transform from_plane(plane, geo::wgs84());
    const core::PlanePoint middle =
        geo::Transform(geo::wgs84(), plane)({inventory.longitude, inventory.latitude});
    core::RandomStream random(17, inventory.file);
    std::vector<Truth> trees;
    for (int i = 0; i < trees_a_park; ++i) {
        const core::PlanePoint stem{middle.easting + random.uniform(-150.0, 150.0),
                                    middle.northing + random.uniform(-90.0, 90.0)};
        trees.push_back(make_tree(i, from_plane(stem), random));
    }
    put_text(folder / inventory.file,
             encoded(is_geojson(inventory) ? geojson(inventory, trees) : csv(inventory, trees),
                     inventory.encoding));
    write_survey(inventory, from_plane, middle, folder);
}

std::map<std::string, TrueField> true_fields(const Inventory& inventory) {
    constexpr std::array<const char*, 4> conditions = {"good", "fair", "poor", "dead"};
    std::map<std::string, TrueField> fields;
    for (const WrittenColumn& column : inventory.columns) {
        TrueField field{column.header, column.unit, column.holds == Holds::girth, {}};
        const auto yes_no = [&] { field.values = {{column.words[0], "yes"}, {column.words[1], "no"}}; };
        std::string name;
        switch (column.holds) {
            case Holds::tree:
                name = "tree";
                break;
            case Holds::dbh:
            case Holds::girth:
                name = "dbh_cm";
                break;
            case Holds::height:
                name = "height_m";
                break;
            case Holds::crown_radius:
                name = "crown_radius_m";
                break;
            case Holds::species:
                name = "species";
                break;
            case Holds::condition:
                name = "condition";
                for (std::size_t i = 0; i < column.words.size(); ++i)
                    field.values[column.words[i]] = conditions[i];
                break;
            case Holds::hollow:
                name = "has_hollow";
                yes_no();
                break;
            case Holds::protection:
                name = "protected";
                yes_no();
                break;
            case Holds::owner:
                name = "owner";
                break;
            case Holds::inspected:
                name = "inspected";
                break;
            case Holds::x:
                name = inventory.crs.empty() ? "lon" : "x";
                break;
            case Holds::y:
                name = inventory.crs.empty() ? "lat" : "y";
                break;
            default:
                break;
        }
        if (!name.empty()) fields[name] = field;
    }
    return fields;
}

}  // namespace roostward::testing
