#include "roostward/io/translation.hpp"

#include "files/input_file.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/text_encoding.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {

namespace {

core::Catalogue catalogue_in(const InputSource& source) {
    try {
        return core::read_catalogue(decoded(bytes_of(source)).text);
    } catch (const core::UnreadableLine& line) {
        const std::string& key = line.key_told_before();
        throw core::Error(core::Fault::site_file, {source.file, source.role, line.number(), {}},
                          key.empty() ? core::said("words.unreadable_line")
                                      : core::said("words.told_twice", {{"key", key}}));
    }
}

}  // namespace

std::optional<Translation> read_translation(const std::string& site_file,
                                            const std::vector<Override>& overrides) {
    const std::optional<std::string> named = words_named_in(site_file, overrides);
    if (!named) return std::nullopt;
    return read_translation(*named, std::filesystem::path(site_file).parent_path());
}

Translation read_translation(const std::string& file, const std::filesystem::path& folder) {
    InputSource source;
    source.role = "words";
    source.file = file;
    source.path = (folder / file).lexically_normal().string();
    core::Catalogue words = catalogue_in(source);
    return {{source.role, file, sha256_of(source.path), {}, {}, {}, {}}, std::move(words)};
}

}  // namespace roostward::io
