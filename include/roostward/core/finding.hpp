#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "roostward/core/error.hpp"
#include "roostward/core/units.hpp"

namespace roostward::core {

enum class Severity {
    set_aside,  ///< the row takes no part
    doubtful,   ///< the row or layer is used, and may be wrong
    note        ///< something the reader should know
};

[[nodiscard]] std::string_view to_text(Severity severity);

/// What was wrong or doubtful in the inputs, where, and what to do about it.
struct Finding {
    Severity severity = Severity::note;
    Place place;
    std::string kind;      ///< short stable name, as "swapped coordinates"; shown("kind", kind) for people
    std::string value;     ///< the text found, as it stood
    std::string sentence;  ///< what it means and what to do
    std::size_t rows = 1;  ///< that say the same; the place is the first of them
};

using Findings = std::vector<Finding>;

/// For every layer rows read = used + set aside, each set-aside row with at least one finding.
struct RowCount {
    std::string layer;
    std::string file;
    std::size_t read = 0;
    std::size_t used = 0;
    std::size_t set_aside = 0;
};

/// The rows of one input layer that can be used, each knowing its row in the file.
template <class Record>
struct Records {
    std::string file;   ///< as the site file names it; empty where the layer was not given
    std::string layer;  ///< passes, watches, tracks, trees …
    std::vector<Record> rows;
    std::size_t read = 0;  ///< rows in the file, used or not
    Metres step{};         ///< coordinates were rounded to this; 0: no step shows

    [[nodiscard]] bool given() const { return !file.empty(); }
    [[nodiscard]] Place place(std::size_t row, std::string field = {}) const {
        return {file, layer, row, std::move(field)};
    }
};

}  // namespace roostward::core
