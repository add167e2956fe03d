#include <fmt/format.h>
#include <openssl/evp.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <memory>
#include <string_view>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "roostward/io/writers.hpp"

namespace roostward::io {

namespace {

class Digest {
 public:
    Digest() { EVP_DigestInit_ex(digest_.get(), EVP_sha256(), nullptr); }
    void add(std::string_view bytes) { EVP_DigestUpdate(digest_.get(), bytes.data(), bytes.size()); }
    [[nodiscard]] std::string in_digits() {
        std::array<unsigned char, 32> bytes{};
        EVP_DigestFinal_ex(digest_.get(), bytes.data(), nullptr);
        return fmt::format("{:02x}", fmt::join(bytes, ""));
    }

 private:
    struct Closer {
        void operator()(EVP_MD_CTX* digest) const noexcept { EVP_MD_CTX_free(digest); }
    };
    std::unique_ptr<EVP_MD_CTX, Closer> digest_{EVP_MD_CTX_new()};
};

[[noreturn]] void cannot_read(const std::filesystem::path& file, const std::string& why) {
    throw core::Error(core::Fault::inputs, core::Place{file.string(), {}, {}, {}},
                      core::said("error.cannot_be_read_why", {{"why", why}}));
}

}  // namespace

std::string sha256_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in) cannot_read(file, std::strerror(errno));
    Digest digest;
    std::array<char, std::size_t{1} << 14U> piece{};
    while (in) {
        in.read(piece.data(), static_cast<std::streamsize>(piece.size()));
        digest.add({piece.data(), static_cast<std::size_t>(in.gcount())});
    }
    if (in.bad()) cannot_read(file, std::strerror(errno));
    return digest.in_digits();
}

std::string sha256_of_text(std::string_view text) {
    Digest digest;
    digest.add(text);
    return digest.in_digits();
}

}  // namespace roostward::io
