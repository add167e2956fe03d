#include "roostward/report/qr_code.hpp"

#include <fmt/format.h>

#include <qrcodegen/qrcodegen.hpp>

#include "html_text.hpp"
#include "roostward/report/figures.hpp"

namespace roostward::report {

std::string geo_uri(core::GeographicPoint place) {
    return fmt::format("geo:{},{}", place_in_degrees(place.latitude), place_in_degrees(place.longitude));
}

std::string qr_code(const std::string& text, std::string_view title) {
    constexpr int quiet = 4;  // squares, as the standard wants
    const auto code = qrcodegen::QrCode::encodeText(text.c_str(), qrcodegen::QrCode::Ecc::MEDIUM);
    std::string path;
    for (int y = 0; y < code.getSize(); ++y)
        for (int x = 0; x < code.getSize(); ++x)
            if (code.getModule(x, y)) path += fmt::format("M{} {}h1v1h-1z", x + quiet, y + quiet);
    const int side = code.getSize() + 2 * quiet;
    return fmt::format(
        "<svg class=\"code\" role=\"img\" aria-label=\"{0}\" viewBox=\"0 0 {1} {1}\" "
        "shape-rendering=\"crispEdges\"><rect width=\"{1}\" height=\"{1}\" fill=\"#fff\"/>"
        "<path d=\"{2}\" fill=\"#000\"/></svg>",
        html_text(title), side, path);
}

}  // namespace roostward::report
