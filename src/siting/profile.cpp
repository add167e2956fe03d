#include "roostward/siting/profile.hpp"

namespace roostward::siting {

std::string_view to_text(Status status) {
    switch (status) {
        case Status::published:
            return "published";
        case Status::common_practice:
            return "common practice";
        case Status::from_memory:
            return "from memory";
    }
    return "from memory";
}

}  // namespace roostward::siting
