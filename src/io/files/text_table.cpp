#include "roostward/io/text_table.hpp"

#include <algorithm>
#include <cstring>
#include <deque>

namespace roostward::io {

namespace {

constexpr std::string_view white = " \t\v\f";

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(white);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(white) - first + 1);
}

/// Cuts a text into rows and cells, one row a call.
class Cutter {
 public:
    Cutter(std::string_view text, char delimiter, std::size_t at, std::size_t line)
        : text_(text), delimiter_(delimiter), at_(at), line_(line) {
        next_feed_ = std::min(text_.find('\n', at), text_.size());
    }

    [[nodiscard]] bool done() const { return at_ >= text_.size(); }
    [[nodiscard]] std::size_t at() const { return at_; }
    [[nodiscard]] std::size_t line() const { return line_; }

    /// The next row; `expected` is its number of cells, 0 where any will do.
    TextRow next(std::size_t expected) {
        cells_.clear();
        unescaped_.clear();
        const std::size_t start = at_;
        const std::size_t end = line_end(start);
        const std::string_view line = text_.substr(start, end - start);
        TextRow row{line_, {}, RowFault::none, line};
        if (std::memchr(line.data(), '"', line.size()) == nullptr) {
            cut_plain(line);
            pass_line(end);
        } else if (!cut_quoted(expected)) {
            row.fault = RowFault::open_quote;
            cells_.clear();
            at_ = start;
            line_ = row.line;
            pass_line(end);
        }
        row.cells = cells_;
        if (row.fault == RowFault::none && expected != 0 && cells_.size() != expected)
            row.fault = RowFault::cell_count;
        return row;
    }

 private:
    [[nodiscard]] std::size_t line_end(std::size_t from) {
        if (next_feed_ < from) next_feed_ = std::min(text_.find('\n', from), text_.size());
        const std::size_t carriage = text_.substr(from, next_feed_ - from).find('\r');
        return carriage == std::string_view::npos ? next_feed_ : from + carriage;
    }

    /// Steps over the line end at `end`.
    void pass_line(std::size_t end) {
        at_ = end;
        if (at_ < text_.size() && text_[at_] == '\r') ++at_;
        if (at_ < text_.size() && text_[at_] == '\n' && (at_ == end || text_[at_ - 1] == '\r')) ++at_;
        ++line_;
    }

    void cut_plain(std::string_view line) {
        std::size_t from = 0;
        for (std::size_t i = line.find(delimiter_); i != std::string_view::npos;
             i = line.find(delimiter_, from)) {
            cells_.push_back(trimmed(line.substr(from, i - from)));
            from = i + 1;
        }
        cells_.push_back(trimmed(line.substr(from)));
    }

    [[nodiscard]] bool at_row_end() const {
        return at_ >= text_.size() || text_[at_] == '\n' || text_[at_] == '\r';
    }

    void skip_blanks() {
        while (at_ < text_.size() && text_[at_] == ' ')
            ++at_;
    }

    /// A row with quotes in it. False where a quote is not closed as it should be.
    bool cut_quoted(std::size_t expected) {
        const std::size_t first_line = line_;
        while (true) {
            const std::size_t cell_start = at_;
            skip_blanks();
            if (at_ < text_.size() && text_[at_] == '"') {
                if (!cut_quoted_cell()) return false;
            } else {
                at_ = cell_start;
                while (!at_row_end() && text_[at_] != delimiter_)
                    ++at_;
                cells_.push_back(trimmed(text_.substr(cell_start, at_ - cell_start)));
            }
            if (at_row_end()) break;
            ++at_;
        }
        const bool several_lines = line_ != first_line;
        pass_line(at_);
        return !several_lines || expected == 0 || cells_.size() == expected;
    }

    /// From an opening quote to behind its closing one, which a delimiter or the end of the row must follow.
    bool cut_quoted_cell() {
        const std::size_t start = ++at_;
        bool doubled = false;
        std::size_t lines = 0;
        while (at_ < text_.size()) {
            const char c = text_[at_];
            if (c == '"') {
                if (at_ + 1 >= text_.size() || text_[at_ + 1] != '"') break;
                doubled = true;
                ++at_;
            } else if (c == '\n' || (c == '\r' && (at_ + 1 >= text_.size() || text_[at_ + 1] != '\n'))) {
                ++lines;
            }
            ++at_;
        }
        if (at_ >= text_.size()) return false;
        const std::string_view inside = text_.substr(start, at_ - start);
        ++at_;
        skip_blanks();
        if (!at_row_end() && text_[at_] != delimiter_) return false;
        line_ += lines;
        cells_.push_back(trimmed(doubled ? without_doubled_quotes(inside) : inside));
        return true;
    }

    std::string_view without_doubled_quotes(std::string_view inside) {
        std::string& plain = unescaped_.emplace_back();
        plain.reserve(inside.size());
        for (std::size_t i = 0; i < inside.size(); ++i) {
            plain.push_back(inside[i]);
            if (inside[i] == '"') ++i;
        }
        return plain;
    }

    std::string_view text_;
    char delimiter_;
    std::size_t at_;
    std::size_t line_;
    std::size_t next_feed_ = 0;
    std::vector<std::string_view> cells_;
    std::deque<std::string> unescaped_;
};

bool is_blank(const TextRow& row) {
    return row.fault != RowFault::open_quote &&
           std::all_of(row.cells.begin(), row.cells.end(),
                       [](std::string_view cell) { return cell.empty(); });
}

/// The delimiter that stands most often outside quotes in the first line; of equals the first in this order.
char delimiter_of(std::string_view text) {
    constexpr std::string_view candidates = ",;\t|";
    std::size_t counts[candidates.size()] = {};
    bool quoted = false;
    bool content = false;
    for (const char c : text) {
        if (c == '"') quoted = !quoted;
        if ((c == '\n' || c == '\r') && !quoted && content) break;
        content = content || (c != '\n' && c != '\r' && c != ' ');
        const std::size_t which = candidates.find(c);
        if (!quoted && which != std::string_view::npos) ++counts[which];
    }
    const auto most = std::max_element(std::begin(counts), std::end(counts));
    return candidates[static_cast<std::size_t>(most - std::begin(counts))];
}

}  // namespace

TextTable::TextTable(std::string bytes) {
    DecodedText text = decoded(std::move(bytes));
    text_ = std::move(text.text);
    encoding_ = text.encoding;
    delimiter_ = delimiter_of(text_);
    Cutter cutter(text_, delimiter_, 0, 1);
    while (header_.empty() && !cutter.done()) {
        const TextRow row = cutter.next(0);
        if (row.fault == RowFault::open_quote) return;
        if (!is_blank(row)) header_.assign(row.cells.begin(), row.cells.end());
    }
    body_ = cutter.at();
    body_line_ = cutter.line();
}

std::size_t TextTable::line_count() const {
    const auto body = text_.begin() + static_cast<std::ptrdiff_t>(body_);
    return static_cast<std::size_t>(std::count(body, text_.end(), '\n')) + 1;
}

void TextTable::for_each(const std::function<bool(const TextRow&)>& visit) const {
    Cutter cutter(text_, delimiter_, body_, body_line_);
    while (!cutter.done()) {
        const TextRow row = cutter.next(header_.size());
        if (!is_blank(row) && !visit(row)) return;
    }
}

}  // namespace roostward::io
