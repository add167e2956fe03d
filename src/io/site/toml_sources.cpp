#include "site/toml_sources.hpp"

#include <algorithm>
#include <array>

#include "roostward/core/catalogue.hpp"

namespace roostward::io {

siting::Provenance provenance_of(const TomlEntry& entry) {
    constexpr std::array<std::string_view, 3> words{"published", "common practice", "from memory"};
    constexpr std::array<siting::Status, 3> meanings{
        siting::Status::published, siting::Status::common_practice, siting::Status::from_memory};
    const TomlEntry status = required(entry, "status");
    const auto* const word = std::ranges::find(words, status.word(words));
    siting::Provenance provenance{meanings[static_cast<std::size_t>(word - words.begin())], ""};
    if (const TomlEntry source = entry.at("source"); source.given()) provenance.source = source.scalar();
    if (provenance.status == siting::Status::published && provenance.source.empty())
        entry.fail(core::said("profile.published_needs_source"));
    return provenance;
}

}  // namespace roostward::io
