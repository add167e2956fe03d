#pragma once

/// Files of this folder and of Leaflet, as they were when the program was built.
namespace roostward::report {

extern const char* const page_frame;             ///< page.html
extern const char* const public_frame;           ///< public/public.html
extern const char* const page_style;             ///< style sheets, Leaflet's first
extern const char* const page_script;            ///< Leaflet and our scripts
extern const char* const screening_frame;        ///< screening/screening.html
extern const char* const evenings_frame;         ///< evenings/evenings.html
extern const char* const evenings_style;         ///< evenings/evenings.css
extern const char* const evenings_style_sha256;  ///< hexadecimal digits
/// SHA-256 of page_style and page_script, as hexadecimal digits.
extern const char* const page_style_sha256;
extern const char* const page_script_sha256;

}  // namespace roostward::report
