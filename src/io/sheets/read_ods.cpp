#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <set>

#include "sheets/iso_moment.hpp"
#include "sheets/workbook_readers.hpp"
#include "sheets/zip_package.hpp"

namespace roostward::io {

namespace {

/// ODF 1.3, part 3, sections 9.1 and 19.385. Where a value may come from is told by depth: a table stands in
/// the spreadsheet itself, a row in no other table, a text in a paragraph of its cell.
class ContentHandler : public XmlHandler {
 public:
    explicit ContentHandler(Workbook& book) : book_(book) {}

    void begin(std::string_view name, const XmlAttributes& attributes) override {
        ++depth_;
        if (name == "style") style_ = attributes.at("name");
        if (name == "table-properties" && attributes.at("display") == "false") hidden_styles_.insert(style_);
        if (name == "spreadsheet") spreadsheet_ = depth_;
        if (name == "table") ++tables_;
        if (name == "table" && depth_ == spreadsheet_ + 1) begin_table(attributes);
        if (!in_table_ || tables_ != 1) return;
        if (name == "table-column") take_columns(attributes);
        if (name == "table-row") begin_row(attributes);
        if (in_row_ && (name == "table-cell" || name == "covered-table-cell")) begin_cell(attributes);
        if (cell_ != 0 && depth_ > cell_) begin_in_cell(name, attributes);
    }

    void end(std::string_view name) override {
        if (cell_ != 0 && depth_ == cell_) end_cell();
        if (paragraph_ != 0 && depth_ == paragraph_) paragraph_ = 0;
        if (aside_ != 0 && depth_ == aside_) aside_ = 0;
        if (name == "table-row" && in_row_ && tables_ == 1) end_row();
        if (name == "table") --tables_;
        if (tables_ == 0) in_table_ = false;
        --depth_;
    }

    void text(std::string_view more) override {
        if (paragraph_ != 0 && aside_ == 0) append_text(text_, more);
    }

 private:
    [[nodiscard]] Sheet& sheet() const { return book_.sheets.back(); }

    static std::uint64_t repeats(const XmlAttributes& attributes, std::string_view name) {
        const std::string_view told = attributes.at(name);
        return told.empty() ? 1 : whole_number(told, "damaged.repeats");
    }

    static bool is_hidden(const XmlAttributes& attributes) {
        const std::string_view visibility = attributes.at("visibility");
        return visibility == "collapse" || visibility == "filter";
    }

    void begin_table(const XmlAttributes& attributes) {
        book_.add_sheet(std::string(attributes.at("name")),
                        hidden_styles_.contains(std::string(attributes.at("style-name"))));
        in_table_ = true;
        in_row_ = false;
        columns_ = 0;
        row_ = 1;
    }

    void take_columns(const XmlAttributes& attributes) {
        const std::uint64_t count = repeats(attributes, "number-columns-repeated");
        if (is_hidden(attributes)) sheet().hide_columns(columns_, count);
        columns_ += count;
    }

    void begin_row(const XmlAttributes& attributes) {
        row_repeats_ = repeats(attributes, "number-rows-repeated");
        column_ = 0;
        in_row_ = true;
        sheet().begin_row(row_, is_hidden(attributes));
    }

    void end_row() {
        in_row_ = false;
        if (row_repeats_ > 1) sheet().repeat_row(row_repeats_ - 1);
        row_ += row_repeats_;
    }

    void begin_cell(const XmlAttributes& attributes) {
        cell_ = depth_;
        cell_repeats_ = repeats(attributes, "number-columns-repeated");
        sheet().merge_down(column_, row_, row_ + repeats(attributes, "number-rows-spanned") - 1);
        kind_ = attributes.at("office:1.0", "value-type");
        is_error_ = attributes.at("calcext:1.0", "value-type") == "error";
        value_ = kind_ == "date"      ? attributes.at("date-value")
                 : kind_ == "time"    ? attributes.at("time-value")
                 : kind_ == "boolean" ? attributes.at("boolean-value")
                 : kind_ == "string"  ? attributes.at("string-value")
                                      : attributes.at("office:1.0", "value");
        text_.clear();
    }

    void begin_in_cell(std::string_view name, const XmlAttributes& attributes) {
        if (name == "p" && depth_ == cell_ + 1) {
            if (!text_.empty()) append_text(text_, "\n");
            paragraph_ = depth_;
        }
        if (paragraph_ == 0) return;
        if (aside_ == 0 && (name == "annotation" || name == "ruby-text" || name == "frame")) aside_ = depth_;
        if (name == "s") append_spaces(attributes.at("c"));
        if (name == "tab" || name == "line-break") append_text(text_, " ");
    }

    void append_spaces(std::string_view count) {
        const std::uint64_t spaces = count.empty() ? 1 : whole_number(count, "damaged.spaces");
        if (aside_ == 0) append_text(text_, std::string(std::min<std::uint64_t>(spaces, 100), ' '));
    }

    void end_cell() {
        cell_ = 0;
        if (is_error_)
            put(CellKind::error, text_.empty() ? "error" : text_);
        else if (kind_ == "float" || kind_ == "currency" || kind_ == "percentage")
            put_number();
        else if (kind_ == "date" || kind_ == "time")
            put_moment();
        else if (kind_ == "boolean")
            put(CellKind::truth, value_ == "true" ? "true" : "false");
        else
            put_text(book_, column_, value_.empty() ? text_ : value_, cell_repeats_);
        column_ += cell_repeats_;
    }

    void put(CellKind kind, std::string_view text) {
        sheet().put(column_, kind, book_.texts.keep(text), cell_repeats_);
    }

    void put_number() {
        double number = 0.0;
        const char* const end = value_.data() + value_.size();
        const auto [stop, problem] = std::from_chars(value_.data(), end, number);
        if (problem != std::errc() || stop != end || !std::isfinite(number))
            put_text(book_, column_, value_.empty() ? text_ : value_, cell_repeats_);
        else if (kind_ == "percentage")
            put(CellKind::number, percent_text(number));
        else
            sheet().put(column_, CellKind::number, number, cell_repeats_);
    }

    void put_moment() {
        const std::optional<std::string> moment = kind_ == "date" ? iso_moment(value_) : iso_duration(value_);
        if (moment)
            put(CellKind::moment, *moment);
        else
            put_text(book_, column_, value_.empty() ? text_ : value_, cell_repeats_);
    }

    Workbook& book_;
    std::set<std::string> hidden_styles_;
    std::string style_;
    bool in_table_ = false, in_row_ = false;
    int tables_ = 0;  ///< that are open
    // Depths of open elements; 0: none is.
    std::size_t depth_ = 0, spreadsheet_ = 0, cell_ = 0, paragraph_ = 0, aside_ = 0;
    std::uint64_t columns_ = 0, row_ = 1, row_repeats_ = 1, column_ = 0, cell_repeats_ = 1;
    std::string kind_, value_, text_;
    bool is_error_ = false;
};

class ManifestHandler : public XmlHandler {
 public:
    void begin(std::string_view name, const XmlAttributes&) override {
        if (name == "encryption-data") locked();
    }
    void end(std::string_view) override {}
};

}  // namespace

Workbook read_ods(const ReadPart& read) {
    ManifestHandler manifest;
    read_xml(read, "META-INF/manifest.xml", manifest);
    Workbook book;
    ContentHandler content(book);
    read_xml(read, "content.xml", content);
    for (Sheet& sheet : book.sheets)
        sheet.finish();
    return book;
}

}  // namespace roostward::io
