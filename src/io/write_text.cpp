#include "write_text.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <functional>
#include <nlohmann/json.hpp>
#include <utility>

#include "roostward/core/document.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

namespace {

constexpr std::size_t long_buffer = std::size_t{1} << 20U;

bool is_ascii(const std::string& text) {
    return std::ranges::all_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

}  // namespace

void cannot_write(const std::filesystem::path& file, const std::string& why) {
    throw core::Error(core::Fault::outputs, core::Place{file.filename().string(), {}, {}, {}},
                      fmt::format("it cannot be written: {}. The disk may be full; what was there before is "
                                  "untouched.",
                                  why));
}

TextFile::TextFile(std::filesystem::path file)
    : file_(std::move(file)),
      descriptor_(::open(file_.c_str(), O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC, 0666)) {
    if (descriptor_ < 0) cannot_write(file_, std::strerror(errno));
}

TextFile::~TextFile() {
    if (descriptor_ >= 0) ::close(descriptor_);
}

void TextFile::drain() {
    if (buffer_.size() >= long_buffer) write_buffer();
}

void TextFile::finish() {
    write_buffer();
    if (::fsync(descriptor_) != 0) cannot_write(file_, std::strerror(errno));
    read_back();
    if (::close(std::exchange(descriptor_, -1)) != 0) cannot_write(file_, std::strerror(errno));
}

void TextFile::write_buffer() {
    std::string_view rest = buffer_;
    while (!rest.empty()) {
        const ::ssize_t written = ::write(descriptor_, rest.data(), rest.size());
        if (written < 0 && errno == EINTR) continue;
        if (written <= 0) cannot_write(file_, std::strerror(errno));
        rest.remove_prefix(static_cast<std::size_t>(written));
    }
    pieces_.push_back({buffer_.size(), std::hash<std::string_view>{}(buffer_)});
    buffer_.clear();
}

void TextFile::read_back() {
    ::off_t offset = 0;
    const auto read_some = [&](char* to, std::size_t size) {
        const ::ssize_t got = ::pread(descriptor_, to, size, offset);
        if (got < 0) cannot_write(file_, std::strerror(errno));
        offset += got;
        return static_cast<std::size_t>(got);
    };
    for (const Piece& piece : pieces_) {
        buffer_.resize(piece.size);
        std::size_t filled = 0;
        while (filled < piece.size) {
            const std::size_t got = read_some(buffer_.data() + filled, piece.size - filled);
            if (got == 0) cannot_write(file_, "it came out shorter than it was written");
            filled += got;
        }
        if (std::hash<std::string_view>{}(buffer_) != piece.hash)
            cannot_write(file_, "it reads back differently");
    }
    char surplus = 0;
    if (read_some(&surplus, 1) != 0) cannot_write(file_, "it came out longer than it was written");
}

void write_text(const std::filesystem::path& file, std::string text) {
    TextFile out(file);
    out.buffer() = std::move(text);
    out.finish();
}

std::string valid_utf8(const std::string& text) {
    if (is_ascii(text)) return text;
    return nlohmann::json::parse(core::to_json(text)).get<std::string>();
}

}  // namespace roostward::io
