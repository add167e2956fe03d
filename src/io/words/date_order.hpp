#pragma once

#include <initializer_list>

#include "layers/layer_opening.hpp"
#include "roostward/io/times.hpp"

namespace roostward::io {

/// Whether day or month comes first in the dates of a layer: from `date_order`, or from the dates themselves.
/// Where both fit, as the dates of the watches show it, with a note. Throws Error{inputs} where these do not
/// show it either, and asks for `date_order`.
[[nodiscard]] DateOrder date_order_in(OpenLayer& layer, const InputSource& source, LayerReport& report,
                                      std::initializer_list<const char*> fields, DateOrder of_watches);

}  // namespace roostward::io
