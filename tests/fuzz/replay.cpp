// Runs a fuzz target over files and folders of files, where there is no fuzzer.
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

std::vector<std::filesystem::path> files_in(const std::filesystem::path& place) {
    if (!std::filesystem::is_directory(place)) return {place};
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(place))
        files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

}  // namespace

int main(int argc, char** argv) {
    std::size_t run = 0;
    for (int i = 1; i < argc; ++i) {
        for (const std::filesystem::path& file : files_in(argv[i])) {
            std::ifstream in(file, std::ios::binary);
            const std::vector<char> bytes(std::istreambuf_iterator<char>(in), {});
            const std::vector<std::uint8_t> data(bytes.begin(), bytes.end());
            std::fprintf(stderr, "%s\n", file.c_str());
            LLVMFuzzerTestOneInput(data.data(), data.size());
            ++run;
        }
    }
    std::printf("%zu inputs replayed\n", run);
    return run == 0 ? 1 : 0;
}
