#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <memory>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {

namespace {

struct DigestCloser {
    void operator()(EVP_MD_CTX* digest) const noexcept { EVP_MD_CTX_free(digest); }
};

[[noreturn]] void cannot_read(const std::filesystem::path& file, const std::string& why) {
    throw core::Error(core::Fault::inputs, core::Place{file.string(), {}, {}, {}},
                      core::said("error.cannot_be_read_why", {{"why", why}}));
}

}  // namespace

std::string sha256_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in) cannot_read(file, std::strerror(errno));
    const std::unique_ptr<EVP_MD_CTX, DigestCloser> digest(EVP_MD_CTX_new());
    EVP_DigestInit_ex(digest.get(), EVP_sha256(), nullptr);
    std::array<char, std::size_t{1} << 14U> piece{};
    while (in) {
        in.read(piece.data(), static_cast<std::streamsize>(piece.size()));
        EVP_DigestUpdate(digest.get(), piece.data(), static_cast<std::size_t>(in.gcount()));
    }
    if (in.bad()) cannot_read(file, std::strerror(errno));
    std::array<unsigned char, 32> bytes{};
    EVP_DigestFinal_ex(digest.get(), bytes.data(), nullptr);
    return fmt::format("{:02x}", fmt::join(bytes, ""));
}

}  // namespace roostward::io
