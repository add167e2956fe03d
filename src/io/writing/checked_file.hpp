#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

namespace roostward::io {

/// A file that is written piece by piece, and counts only when the disk holds all of it.
class CheckedFile {
 public:
    explicit CheckedFile(std::filesystem::path file);
    ~CheckedFile();
    CheckedFile(const CheckedFile&) = delete;
    CheckedFile& operator=(const CheckedFile&) = delete;

    /// Text that waits to be written; append to it.
    [[nodiscard]] std::string& buffer() { return buffer_; }
    /// Writes the buffer where it has grown long.
    void drain();
    /// Writes at once. Throws Error{outputs}.
    void write(std::string_view bytes);
    /// Writes the rest, sends it on its way to the disk and compares the file's size. Throws Error{outputs}.
    void finish();

 private:
    std::filesystem::path file_;
    int descriptor_ = -1;
    std::string buffer_;
    std::uintmax_t written_ = 0;
};

}  // namespace roostward::io
