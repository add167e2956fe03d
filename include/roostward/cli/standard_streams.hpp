#pragma once

#include <string_view>

namespace roostward::cli {

/// Opens the standard streams that are closed, so that no file of ours gets their number; what is written
/// there then fails, and is told. To be called before any file is opened.
void hold_standard_streams();

/// Writes to standard output, at once. Throws Error{outputs} where not all of it arrives; `stands` is added
/// to the sentence: what was done all the same.
void print_answer(std::string_view text, std::string_view stands = {});

/// Writes to standard error.
void print_note(std::string_view text);

}  // namespace roostward::cli
