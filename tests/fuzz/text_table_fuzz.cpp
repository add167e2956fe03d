#include "fuzz/fuzzing.hpp"
#include "roostward/io/text_table.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    const io::TextTable table{std::string(fuzz::text_of(data, size))};
    if (table.header().empty()) return 0;
    std::size_t last = 0;
    table.for_each([&](const io::TextRow& row) {
        fuzz::require(row.line > last);
        last = row.line;
        fuzz::require(row.fault != io::RowFault::none || row.cells.size() == table.header().size());
        return true;
    });
    return 0;
}
