#include "sheets/zip_package.hpp"

#include <zip.h>

#include <algorithm>
#include <vector>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"
#include "sheets/xml_reader.hpp"

namespace roostward::io {

namespace {

struct PartCloser {
    void operator()(zip_file_t* part) const noexcept { zip_fclose(part); }
};

std::uint64_t may_unpack_to(std::size_t packed) {
    constexpr std::uint64_t least = std::uint64_t{64} << 20U;
    constexpr std::uint64_t most = std::uint64_t{2} << 30U;
    return std::clamp(std::uint64_t{packed} * 100, least, most);
}

}  // namespace

struct ZipPackage::Archive {
    explicit Archive(std::string_view bytes) {
        zip_error_t problem;
        zip_error_init(&problem);
        zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &problem);
        if (source != nullptr) handle = zip_open_from_source(source, ZIP_RDONLY, &problem);
        const std::string why = zip_error_strerror(&problem);
        zip_error_fini(&problem);
        if (handle != nullptr) return;
        zip_source_free(source);
        damaged(core::said("damaged.not_unpacked", {{"why", why}}));
    }
    ~Archive() { zip_discard(handle); }
    Archive(const Archive&) = delete;
    Archive& operator=(const Archive&) = delete;

    zip_t* handle = nullptr;
};

void locked() {
    throw core::Error(core::Fault::inputs, {}, core::said("error.password"));
}

ZipPackage::ZipPackage(std::string_view bytes)
    : archive_(std::make_unique<Archive>(bytes)), left_(may_unpack_to(bytes.size())) {}

ZipPackage::~ZipPackage() = default;

bool ZipPackage::read(const std::string& name, const std::function<void(std::string_view)>& take) {
    const zip_int64_t at = zip_name_locate(archive_->handle, name.c_str(), ZIP_FL_NOCASE);
    if (at < 0) return false;
    const std::unique_ptr<zip_file_t, PartCloser> part(
        zip_fopen_index(archive_->handle, static_cast<zip_uint64_t>(at), 0));
    if (!part) {
        if (zip_error_code_zip(zip_get_error(archive_->handle)) == ZIP_ER_NOPASSWD) locked();
        damaged(core::said("damaged.part_not_unpacked",
                           {{"part", name}, {"why", zip_strerror(archive_->handle)}}));
    }
    std::vector<char> piece(std::size_t{64} << 10U);
    zip_int64_t got = 0;
    while ((got = zip_fread(part.get(), piece.data(), piece.size())) > 0) {
        const auto size = static_cast<std::size_t>(got);
        if (size > left_) {
            throw core::Error(core::Fault::inputs, {}, core::said("error.unpacks_too_large"));
        }
        left_ -= size;
        take({piece.data(), size});
    }
    if (got < 0)
        damaged(core::said("damaged.part_not_unpacked",
                           {{"part", name}, {"why", zip_file_strerror(part.get())}}));
    return true;
}

}  // namespace roostward::io
