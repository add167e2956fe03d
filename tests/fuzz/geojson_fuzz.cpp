#include "files/row_sources.hpp"
#include "fuzz/fuzzing.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    static const fuzz::MemoryFile file("trees", "trees.geojson");
    const io::InputSource& source = file.with(fuzz::text_of(data, size));
    fuzz::allow_refusal([&] {
        const auto rows = io::open_geojson_rows(source);
        if (!rows) return;
        const std::size_t columns = rows->columns().size();
        std::size_t last = 0;
        rows->for_each(std::vector<bool>(columns, true), [&](const io::SourceRow& row) {
            fuzz::require(row.number > last);
            last = row.number;
            fuzz::require(row.trouble != nullptr || row.values.size() == columns);
            return true;
        });
        fuzz::require(last == rows->expected_rows());
    });
    return 0;
}
