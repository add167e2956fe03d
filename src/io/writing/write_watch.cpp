#include "writing/write_watch.hpp"

#include <utility>

#include "roostward/core/catalogue.hpp"
#include "writing/write_text.hpp"

namespace roostward::io {

WriteWatch::WriteWatch(std::filesystem::path file) : file_(std::move(file)) {}

void WriteWatch::check(bool good) const {
    if (!complaints_.first().empty()) cannot_write(file_, complaints_.first());
    if (!good) cannot_write(file_, core::said("unwritten.reads_back"));
}

}  // namespace roostward::io
