#pragma once

namespace roostward::io {

/// data/tree-words.toml as it was when the program was built.
extern const char* const tree_words_text;

}  // namespace roostward::io
