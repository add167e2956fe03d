#include "roostward/io/writers.hpp"
#include "writing/write_text.hpp"

namespace roostward::io {

void write_json(const std::filesystem::path& file, const core::Document& document) {
    write_text(file, core::to_pretty_json(document));
}

}  // namespace roostward::io
