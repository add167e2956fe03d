#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace roostward::io {

/// Throws Error{outputs} that names the file and why it cannot be written.
[[noreturn]] void cannot_write(const std::filesystem::path& file, const std::string& why);

/// A text file that is written piece by piece, and counts only when it reads back the same.
class TextFile {
 public:
    explicit TextFile(std::filesystem::path file);
    ~TextFile();
    TextFile(const TextFile&) = delete;
    TextFile& operator=(const TextFile&) = delete;

    /// Text that waits to be written; append to it.
    [[nodiscard]] std::string& buffer() { return buffer_; }
    /// Writes the buffer where it has grown long.
    void drain();
    /// Writes the rest, flushes it to disk and reads everything back. Throws Error{outputs}.
    void finish();

 private:
    struct Piece {
        std::size_t size;
        std::size_t hash;
    };
    void write_buffer();
    void read_back();

    std::filesystem::path file_;
    int descriptor_ = -1;
    std::string buffer_;
    std::vector<Piece> pieces_;
};

/// Writes a whole text at once. Throws Error{outputs}.
void write_text(const std::filesystem::path& file, std::string text);

/// The text with every byte that is not UTF-8 replaced by U+FFFD.
[[nodiscard]] std::string valid_utf8(const std::string& text);

}  // namespace roostward::io
