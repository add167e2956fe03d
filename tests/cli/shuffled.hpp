#pragma once

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "io/scratch_folder.hpp"
#include "roostward/core/random.hpp"

namespace roostward::testing {

template <class Item>
void shuffle(std::vector<Item>& items, core::RandomStream& random) {
    for (std::size_t i = items.size(); i > 1; --i)
        std::swap(items[i - 1], items[random.below(i)]);
}

/// The rows of a CSV file or the features of a GeoJSON file, and what stands before and behind them.
struct Rows {
    std::string before, between, behind;
    std::vector<std::string> rows;

    [[nodiscard]] static Rows of(const std::filesystem::path& file) {
        return file.extension() == ".csv" ? of_csv(text_of(file)) : of_geojson(text_of(file));
    }
    [[nodiscard]] std::string text(std::size_t first, std::size_t last) const {
        std::string text = before;
        for (std::size_t i = first; i < last; ++i)
            text += (i > first ? between : "") + rows[i];
        return text + behind;
    }

 private:
    static Rows of_csv(const std::string& text) {
        Rows read;
        std::istringstream lines(text);
        std::getline(lines, read.before);
        read.before += "\n";
        for (std::string line; std::getline(lines, line);)
            read.rows.push_back(line + "\n");
        return read;
    }
    static Rows of_geojson(const std::string& text) {
        const nlohmann::ordered_json whole = nlohmann::ordered_json::parse(text);
        Rows read;
        for (const auto& feature : whole["features"])
            read.rows.push_back(feature.dump());
        nlohmann::ordered_json empty = whole;
        empty["features"] = nlohmann::ordered_json::array();
        const std::string frame = empty.dump();
        const std::size_t at = frame.rfind("[]") + 1;
        read.before = frame.substr(0, at);
        read.between = ",";
        read.behind = frame.substr(at);
        return read;
    }
};

inline void shuffle_rows(const std::filesystem::path& file, core::RandomStream& random) {
    Rows all = Rows::of(file);
    shuffle(all.rows, random);
    put_text(file, all.text(0, all.rows.size()));
}

/// Leaves the first rows in the file, and puts the others into another of this name.
inline void split(const std::filesystem::path& file, const std::filesystem::path& other) {
    const Rows all = Rows::of(file);
    const std::size_t half = all.rows.size() / 2;
    put_text(file, all.text(0, half));
    put_text(other, all.text(half, all.rows.size()));
}

}  // namespace roostward::testing
