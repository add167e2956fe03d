#include "writing/write_watch.hpp"

#include <utility>

#include "writing/write_text.hpp"

namespace roostward::io {

WriteWatch::WriteWatch(std::filesystem::path file) : file_(std::move(file)) {}

void WriteWatch::check(bool good) const {
    if (!complaints_.first().empty()) cannot_write(file_, complaints_.first());
    if (!good) cannot_write(file_, "it reads back differently");
}

}  // namespace roostward::io
