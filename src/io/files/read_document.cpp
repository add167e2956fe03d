#include "roostward/io/read_document.hpp"

#include <fstream>
#include <nlohmann/json.hpp>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

namespace {

/// Keeps the order of members.
using Json = nlohmann::ordered_json;

core::Document document_of(Json& json) {
    switch (json.type()) {
        case Json::value_t::object: {
            core::Object object;
            for (auto& [key, value] : json.items())
                object.emplace_back(key, document_of(value));
            return object;
        }
        case Json::value_t::array: {
            core::List list;
            for (auto& value : json)
                list.push_back(document_of(value));
            return list;
        }
        case Json::value_t::string:
            return std::move(json.get_ref<std::string&>());
        case Json::value_t::boolean:
            return json.get<bool>();
        case Json::value_t::number_integer:
        case Json::value_t::number_unsigned:
            return json.get<std::int64_t>();
        case Json::value_t::number_float:
            return json.get<double>();
        case Json::value_t::null:
        case Json::value_t::binary:
        case Json::value_t::discarded:
            return {};
    }
    return {};
}

}  // namespace

core::Document read_document(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in)
        throw core::Error(core::Fault::inputs, {file.string(), {}, {}, {}},
                          core::said("error.cannot_be_read"));
    Json json = Json::parse(in, nullptr, false);
    if (json.is_discarded())
        throw core::Error(core::Fault::inputs, {file.string(), {}, {}, {}},
                          core::said("error.no_whole_json"));
    return document_of(json);
}

}  // namespace roostward::io
