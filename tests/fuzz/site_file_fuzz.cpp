#include "fuzz/fuzzing.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace roostward;
    static const fuzz::MemoryFile file("", "site.toml");
    const io::InputSource& source = file.with(fuzz::text_of(data, size));
    fuzz::allow_refusal([&] { (void)io::read_site_file(source.path, {}); });
    return 0;
}
