#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <tuple>

#include "roostward/core/finding.hpp"

namespace roostward::io {

/// What was found while one layer was read, and how many of its rows can be used.
class LayerReport {
 public:
    LayerReport(std::string file, std::string layer);

    /// Counts a row as read; what is said next is about it.
    void begin_row(std::size_t row);
    /// Whether nothing has set the present row aside yet.
    [[nodiscard]] bool usable() const { return usable_; }

    /// The present row takes no part.
    void set_aside(const std::string& field, const std::string& kind, std::string value,
                   std::string sentence);
    /// A row that was usable until now takes no part.
    void set_aside_row(std::size_t row, const std::string& kind, std::string value, std::string sentence);
    /// The same of rows with which nothing is wrong: they are no matter of this layer, or stand in it twice.
    /// They don't count as bad.
    void set_apart(const std::string& field, const std::string& kind, std::string value,
                   std::string sentence);
    void set_apart_row(std::size_t row, const std::string& kind, std::string value, std::string sentence);
    /// The present row is used, and may be wrong. The same doubt about the same value is told once, with a
    /// count.
    void doubt(const std::string& field, const std::string& kind, const std::string& value,
               std::string sentence);
    /// The same of another row, each told for itself.
    void doubt_row(std::size_t row, const std::string& field, const std::string& kind, std::string value,
                   std::string sentence);
    /// About the layer as a whole.
    void doubt_layer(const std::string& kind, std::string value, std::string sentence);
    void note_layer(const std::string& kind, std::string value, std::string sentence);

    [[nodiscard]] std::size_t rows_read() const { return read_; }
    [[nodiscard]] const std::string& file() const { return file_; }
    [[nodiscard]] const std::string& layer() const { return layer_; }
    [[nodiscard]] core::RowCount counts() const;

    /// All findings, those of the layer first, then by row.
    [[nodiscard]] core::Findings findings() const;
    /// Throws Error{inputs} where more than `share` of the rows are bad, with the commonest reason.
    void require_usable_share(double share) const;

 private:
    struct Doubt {
        std::size_t first_row = 0;
        std::size_t rows = 0;
        std::string sentence;
    };
    [[nodiscard]] std::size_t bad_rows() const;
    void add(core::Severity severity, core::Place place, const std::string& kind, std::string value,
             std::string sentence);

    std::string file_;
    std::string layer_;
    std::size_t row_ = 0;
    bool usable_ = true;
    std::size_t read_ = 0;
    std::size_t set_aside_ = 0;
    std::map<std::string, std::size_t> set_apart_;  ///< of these, rows with which nothing is wrong, by kind
    core::Findings findings_;
    std::map<std::tuple<std::string, std::string, std::string>, Doubt> doubts_;  ///< by kind, field, value
};

}  // namespace roostward::io
