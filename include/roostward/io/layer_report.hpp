#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "roostward/core/finding.hpp"

namespace roostward::io {

/// What was found while one layer was read, and how many of its rows can be used.
class LayerReport {
 public:
    LayerReport(std::string file, std::string layer);
    /// A layer of several files, each with a name of its own.
    LayerReport(std::vector<std::string> files, std::string layer);

    /// The rows from here on are of this file; without a call they are of the first.
    void begin_file(std::uint32_t file);
    /// Counts a row of the present file as read; what is said next is about it.
    void begin_row(std::size_t number);
    [[nodiscard]] core::RowRef row() const { return row_; }
    /// What is said from here on without a row is about all files, and not about the present one.
    void end_files() { in_a_file_ = false; }
    /// Whether nothing has set the present row aside yet.
    [[nodiscard]] bool usable() const { return usable_; }

    /// The present row takes no part.
    void set_aside(const std::string& field, const std::string& kind, std::string value,
                   std::string sentence);
    /// A row that was usable until now takes no part.
    void set_aside_row(core::RowRef row, const std::string& kind, std::string value, std::string sentence,
                       const std::string& field = {});
    /// The same of rows with which nothing is wrong: they are no matter of this layer, or stand in it twice.
    /// They don't count as bad.
    void set_apart(const std::string& field, const std::string& kind, std::string value,
                   std::string sentence);
    /// The same of the present row where many are alike: told once a file, with a count.
    void set_apart_alike(const std::string& kind, std::string sentence);
    void set_apart_row(core::RowRef row, const std::string& kind, std::string value, std::string sentence);
    /// The present row is used, and may be wrong. The same doubt about the same value is told once, with a
    /// count.
    void doubt(const std::string& field, const std::string& kind, const std::string& value,
               std::string sentence);
    /// The same of another row, each told for itself.
    void doubt_row(core::RowRef row, const std::string& field, const std::string& kind, std::string value,
                   std::string sentence);
    /// About the layer as a whole.
    void doubt_layer(const std::string& kind, std::string value, std::string sentence);
    void note_layer(const std::string& kind, std::string value, std::string sentence);

    [[nodiscard]] std::size_t rows_read() const;
    /// As the site file names it, several with commas.
    [[nodiscard]] const std::string& file() const { return file_; }
    /// Each by itself, if there are several.
    [[nodiscard]] const std::vector<std::string>& files() const { return files_; }
    [[nodiscard]] const std::string& file_of(core::RowRef row) const { return files_[row.file]; }
    [[nodiscard]] const std::string& layer() const { return layer_; }
    /// "12", or "friday.csv 12" where the layer has several files.
    [[nodiscard]] std::string name_of(core::RowRef row) const;
    /// One a file.
    [[nodiscard]] const std::vector<core::RowCount>& counts() const { return counts_; }

    /// All findings, those of the layer first, then by what they say, so that their order does not hang on
    /// that of the rows.
    [[nodiscard]] core::Findings findings() const;
    /// Throws Error{inputs} where more than `share` of the rows are bad, with the commonest reason.
    void require_usable_share(double share) const;

 private:
    /// What several rows have in common.
    struct Alike {
        core::Severity severity = core::Severity::doubtful;
        std::uint32_t file = 0;  ///< of doubts the first stands for all
        std::string kind, field, value;
        friend auto operator<=>(const Alike&, const Alike&) = default;
    };
    /// Said of several rows; the first of the sentences, and the first row that it was said of, stand for
    /// all.
    struct Told {
        std::string sentence;
        core::RowRef row;                ///< that the sentence is of
        std::vector<core::RowRef> rows;  ///< that say the same
    };
    void tell(const Alike& alike, std::string sentence);
    /// The row takes no part, and is counted among these.
    void take_out(core::RowRef row, std::size_t core::RowCount::*counted);
    [[nodiscard]] core::Place place(core::RowRef row, const std::string& field) const;
    [[nodiscard]] core::Place whole() const;
    void add(core::Severity severity, core::Place place, const std::string& kind, std::string value,
             std::string sentence);

    std::vector<std::string> files_;
    std::string file_;
    std::string layer_;
    core::RowRef row_;
    bool usable_ = true;
    bool in_a_file_ = true;
    std::vector<core::RowCount> counts_;  ///< one a file
    core::Findings findings_;
    std::map<Alike, Told> told_together_;
};

}  // namespace roostward::io
