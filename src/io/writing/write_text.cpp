#include "writing/write_text.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/document.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/writers.hpp"
#include "writing/checked_file.hpp"

namespace roostward::io {

namespace {

bool is_ascii(const std::string& text) {
    return std::ranges::all_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

}  // namespace

void cannot_write(const std::filesystem::path& file, const std::string& why) {
    throw core::Error(core::Fault::outputs, core::Place{file.filename().string(), {}, {}, {}},
                      core::said("error.unwritten", {{"why", why}}));
}

void write_text(const std::filesystem::path& file, const std::string& text) {
    CheckedFile out(file);
    out.write(text);
    out.finish();
}

const std::string& valid_utf8(const std::string& text, std::string& made) {
    if (is_ascii(text)) return text;
    made = nlohmann::json::parse(core::to_json(text)).get<std::string>();
    return made;
}

}  // namespace roostward::io
