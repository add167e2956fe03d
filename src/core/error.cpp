#include "roostward/core/error.hpp"

#include <utility>

#include "roostward/core/catalogue.hpp"

namespace roostward::core {

std::string to_text(const Place& place) {
    std::string text = place.file;
    const auto add = [&text](const std::string& part) { text += (text.empty() ? "" : ", ") + part; };
    if (!place.layer.empty()) add(said("place.layer", {{"layer", place.layer}}));
    if (place.row) add(said("place.row", {{"row", *place.row}}));
    if (!place.field.empty()) add(said("place.field", {{"field", place.field}}));
    return text;
}

Error::Error(Fault fault, Place place, const std::string& sentence)
    : fault_(fault), place_(std::move(place)) {
    const std::string where = to_text(place_);
    text_ = where.empty() ? sentence : where + ": " + sentence;
}

}  // namespace roostward::core
