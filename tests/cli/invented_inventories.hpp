#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

// Tree inventories of thirty parks that do not exist, each in somebody else's habits, and what is in them.
namespace roostward::testing {

enum class Holds {
    tree,
    dbh,
    girth,
    height,
    crown_radius,
    crown_width,
    species,
    condition,
    hollow,
    protection,
    owner,
    inspected,
    x,
    y,
    street,
    house_number,
    planted,
    height_class,
    status
};

/// A column as the keeper of the inventory wrote it.
struct WrittenColumn {
    std::string header;
    Holds holds;
    std::string unit = {};  ///< of lengths
    double step = 1.0;      ///< lengths are rounded to it
    /// Words or codes for good, fair, poor and dead; for yes and no; for standing and felled; or how a date
    /// is written: dmy, mdy, ymd with the mark between.
    std::vector<std::string> words = {};
};

struct Inventory {
    std::string file;  ///< .csv, .txt or .geojson
    double longitude = 0.0, latitude = 0.0;
    std::string crs;  ///< of x and y; empty: degrees
    char delimiter = ',';
    char decimal = '.';
    std::string encoding = {};  ///< an iconv name; empty: UTF-8
    std::vector<WrittenColumn> columns = {};
};

[[nodiscard]] const std::vector<Inventory>& invented_inventories();

/// Writes the inventory with 240 trees, passes.csv and watches.csv of three evenings. The same each time.
void write_park(const Inventory& inventory, const std::filesystem::path& folder);

/// What one field of the site file should be.
struct TrueField {
    std::string column;
    std::string unit;
    bool girth = false;
    std::map<std::string, std::string> values;  ///< their words that ours cannot be without
};
[[nodiscard]] std::map<std::string, TrueField> true_fields(const Inventory& inventory);

}  // namespace roostward::testing
