#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/error.hpp"
#include "roostward/core/units.hpp"

namespace roostward::core {

enum class Severity {
    set_aside,  ///< the row cannot be used, and takes no part
    apart,      ///< nothing is wrong with the row, and it takes no part: a stump, a fox
    doubtful,   ///< the row or layer is used, and may be wrong
    note        ///< something the reader should know
};

[[nodiscard]] std::string_view to_text(Severity severity);

/// Which row of which file of its layer a record was read from. Findings name it; nothing is worked out from
/// it.
struct RowRef {
    std::uint32_t file = 0;  ///< index into the files of the layer
    std::size_t number = 0;  ///< line of a text file, else number of the feature, from 1

    constexpr RowRef() = default;
    // NOLINTNEXTLINE(google-explicit-constructor): most layers are one file, whose rows are known by number.
    constexpr RowRef(std::size_t row, std::uint32_t of_file = 0) : file(of_file), number(row) {}
    friend constexpr auto operator<=>(const RowRef&, const RowRef&) = default;
};

/// What was wrong or doubtful in the inputs, where, and what to do about it.
struct Finding {
    Severity severity = Severity::note;
    Place place;
    std::string kind;      ///< short stable name, as "swapped coordinates"; shown("kind", kind) for people
    std::string value;     ///< the text found, as it stood
    std::string sentence;  ///< what it means and what to do
    std::size_t rows = 1;  ///< that say the same; the place is the first of them
    std::vector<RowRef> all_rows{};  ///< each of them, ascending, where a layer has several
};

using Findings = std::vector<Finding>;

/// For every file of a layer rows read = used + set aside + apart, each set-aside row with at least one
/// finding and each kind of apart with one.
struct RowCount {
    std::string layer;
    std::string file;
    std::size_t read = 0;
    std::size_t used = 0;
    std::size_t set_aside = 0;
    std::size_t apart = 0;
};

/// The rows of one input layer that can be used, each knowing where it was read.
template <class Record>
struct Records {
    std::string file;   ///< as the site file names it, several with commas; empty where none was given
    std::string layer;  ///< passes, watches, tracks, trees …
    std::vector<Record> rows;
    std::size_t read = 0;  ///< rows in the files, used or not; none that wait for an evening to be held
    Metres step{};         ///< coordinates were rounded to this; 0: no step shows
    std::vector<std::string> files{};  ///< each by itself, where there are several

    [[nodiscard]] bool given() const { return !file.empty(); }
    [[nodiscard]] const std::string& file_of(RowRef row) const {
        return files.empty() ? file : files[row.file];
    }
    /// "12", or "friday.csv 12" where the layer has several files.
    [[nodiscard]] std::string row_name(RowRef row) const {
        const std::string number = std::to_string(row.number);
        return files.size() < 2 ? number : file_of(row) + " " + number;
    }
    [[nodiscard]] Place place(RowRef row, std::string field = {}) const {
        return {file_of(row), layer, row.number, std::move(field)};
    }
};

}  // namespace roostward::core
