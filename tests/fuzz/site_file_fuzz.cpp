#include "fuzz/fuzzing.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    const fuzz::MemoryFile file(fuzz::text_of(data, size), "site.toml");
    fuzz::allow_refusal([&] { (void)io::read_site_file(file.path(), {}); });
    return 0;
}
