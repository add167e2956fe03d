#pragma once

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "cli/program.hpp"

namespace roostward::testing {

/// A CSV file of ours, by columns; written again as it is read.
struct CsvTable {
    std::vector<std::string> header;
    std::vector<std::vector<std::string>> rows;

    explicit CsvTable(const std::filesystem::path& file) {
        rows.emplace_back();
        bool quoted = false, fresh = true;
        for (const char c : text_of(file)) {
            if (fresh) rows.back().emplace_back();
            fresh = false;
            if (c == '"')
                quoted = !quoted;
            else if (!quoted && c == ',')
                fresh = true;
            else if (!quoted && c == '\n') {
                rows.emplace_back();
                fresh = true;
            } else if (c != '\r')
                rows.back().back() += c;
        }
        rows.pop_back();
        header = rows.front();
        rows.erase(rows.begin());
    }
    std::string& at(std::size_t row, const std::string& column) {
        return rows.at(row).at(static_cast<std::size_t>(std::ranges::find(header, column) - header.begin()));
    }
    [[nodiscard]] std::string text() const {
        std::string text;
        const auto add = [&text](const std::vector<std::string>& cells) {
            for (std::size_t i = 0; i < cells.size(); ++i)
                text += (i > 0 ? "," : "") +
                        (cells[i].find(',') == std::string::npos ? cells[i] : "\"" + cells[i] + "\"");
            text += "\n";
        };
        add(header);
        for (const auto& row : rows)
            add(row);
        return text;
    }
};

}  // namespace roostward::testing
