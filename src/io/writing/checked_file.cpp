#include "writing/checked_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <utility>

#include "roostward/core/catalogue.hpp"
#include "writing/write_text.hpp"

namespace roostward::io {

namespace {

constexpr std::size_t long_buffer = std::size_t{1} << 20U;

}  // namespace

CheckedFile::CheckedFile(std::filesystem::path file)
    : file_(std::move(file)),
      descriptor_(::open(file_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666)) {
    if (descriptor_ < 0) cannot_write(file_, std::strerror(errno));
}

CheckedFile::~CheckedFile() {
    if (descriptor_ >= 0) ::close(descriptor_);
}

void CheckedFile::drain() {
    if (buffer_.size() < long_buffer) return;
    write(buffer_);
    buffer_.clear();
}

void CheckedFile::write(std::string_view bytes) {
    written_ += bytes.size();
    while (!bytes.empty()) {
        const ::ssize_t taken = ::write(descriptor_, bytes.data(), bytes.size());
        if (taken < 0 && errno == EINTR) continue;
        if (taken <= 0) cannot_write(file_, std::strerror(errno));
        bytes.remove_prefix(static_cast<std::size_t>(taken));
    }
}

void CheckedFile::finish() {
    write(std::exchange(buffer_, {}));
    // The flush that comes when the folder is published then finds little left to wait for.
    ::sync_file_range(descriptor_, 0, 0, SYNC_FILE_RANGE_WRITE);
    struct stat status {};
    if (::fstat(descriptor_, &status) != 0) cannot_write(file_, std::strerror(errno));
    if (static_cast<std::uintmax_t>(status.st_size) != written_)
        cannot_write(file_, core::said("unwritten.length"));
    if (::close(std::exchange(descriptor_, -1)) != 0) cannot_write(file_, std::strerror(errno));
}

}  // namespace roostward::io
