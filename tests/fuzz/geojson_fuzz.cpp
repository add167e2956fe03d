#include "files/row_sources.hpp"
#include "fuzz/fuzzing.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    const fuzz::MemoryFile file(fuzz::text_of(data, size), "trees.geojson");
    fuzz::allow_refusal([&] {
        const auto rows = io::open_geojson_rows(file.source("trees"));
        if (!rows) return;
        const std::size_t columns = rows->columns().size();
        std::size_t last = 0;
        rows->for_each(std::vector<bool>(columns, true), [&](const io::SourceRow& row) {
            fuzz::require(row.number > last);
            last = row.number;
            fuzz::require(row.trouble != nullptr || row.values.size() == columns);
            return true;
        });
    });
    return 0;
}
