#pragma once

#include "roostward/core/parallel.hpp"
#include "roostward/io/site_file.hpp"
#include "roostward/siting/inputs.hpp"

namespace roostward::io {

enum class ReadFor {
    plan,
    evenings  ///< watches that saw nothing will do
};

/// Reads every input of the site file into the planning plane. A row that cannot be used becomes a finding
/// and is counted as set aside. Throws Error{inputs} where a layer is missing, cannot be read, or has more
/// than `max_bad_share` of its rows set aside; what was found until then is in `findings`.
[[nodiscard]] siting::Inputs read_inputs(const SiteFile& site, core::Threads threads,
                                         core::Findings& findings, ReadFor what = ReadFor::plan);

}  // namespace roostward::io
