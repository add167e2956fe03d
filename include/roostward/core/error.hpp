#pragma once

#include <cstddef>
#include <exception>
#include <optional>
#include <string>

namespace roostward::core {

/// Where something is wrong. Empty members are unknown or do not apply.
struct Place {
    std::string file;
    std::string layer;
    std::optional<std::size_t> row;  ///< line of a text file, else number of the feature, from 1
    std::string field;
};

/// "trees.csv, layer trees, row 12, field dbh_cm"; empty where nothing is known.
[[nodiscard]] std::string to_text(const Place& place);

enum class Fault {
    usage,      ///< the command line is wrong
    site_file,  ///< the site file is wrong
    inputs,     ///< the inputs cannot be used
    outputs,    ///< the outputs cannot be written
    internal    ///< a bug
};

/// Something that stops the run. A bad row is a Finding instead.
class Error : public std::exception {
 public:
    /// `sentence` says what is wrong and what to do about it.
    Error(Fault fault, Place place, const std::string& sentence);
    [[nodiscard]] const char* what() const noexcept override { return text_.c_str(); }
    [[nodiscard]] Fault fault() const noexcept { return fault_; }
    [[nodiscard]] const Place& place() const noexcept { return place_; }

 private:
    Fault fault_;
    Place place_;
    std::string text_;
};

}  // namespace roostward::core
