#include "roostward/core/finding.hpp"

namespace roostward::core {

std::string_view to_text(Severity severity) {
    switch (severity) {
        case Severity::set_aside:
            return "set aside";
        case Severity::apart:
            return "apart";
        case Severity::doubtful:
            return "doubtful";
        case Severity::note:
            return "note";
    }
    return "note";
}

}  // namespace roostward::core
