#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

#include "roostward/core/catalogue.hpp"
#include "sheets/iso_moment.hpp"
#include "sheets/xlsx_parts.hpp"

namespace roostward::io {

namespace {

/// What all sheets of a workbook draw on.
struct Shared {
    DateEpoch epoch = DateEpoch::year_1900;
    std::vector<ShownAs> styles;
    std::vector<std::string_view> texts;
};

/// The column of "AB12" from 0; takes it off the front.
std::uint64_t take_column(std::string_view& reference) {
    std::uint64_t column = 0;
    std::size_t letters = 0;
    for (const char c : reference) {
        const char upper = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
        if (upper < 'A' || upper > 'Z') break;
        column = column * 26 + static_cast<std::uint64_t>(upper - 'A' + 1);
        if (++letters > 3) break;
    }
    if (letters == 0 || letters > 3)
        damaged(core::said("damaged.cell_called", {{"name", reference.substr(0, 40)}}));
    reference.remove_prefix(letters);
    return column - 1;
}

class SheetHandler : public XmlHandler {
 public:
    SheetHandler(Workbook& book, const Shared& shared) : book_(book), shared_(shared) {}

    void begin(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "col" && attributes.says_true("hidden")) hide_columns(attributes);
        if (name == "mergeCell") merge(attributes.at("ref"));
        if (name == "sheetData") in_data_ = true;
        if (!in_data_) return;
        if (name == "row") begin_row(attributes);
        if (name == "c" && in_row_) begin_cell(attributes);
        if (name == "f") formula_ = true;
        if (name == "rPh") ++phonetic_;
        in_value_ = in_cell_ && (name == "v" || (name == "t" && phonetic_ == 0));
    }

    void end(std::string_view name) override {
        in_value_ = false;
        if (name == "sheetData") in_data_ = false;
        if (name == "rPh") --phonetic_;
        if (name == "c" && in_cell_) end_cell();
        if (name == "row") in_row_ = false;
    }

    void text(std::string_view more) override {
        if (in_value_) append_text(value_, more);
    }

 private:
    [[nodiscard]] Sheet& sheet() const { return book_.sheets.back(); }

    void hide_columns(const XmlAttributes& attributes) const {
        const std::uint64_t first = whole_number(attributes.at("min"), "damaged.a_column");
        const std::uint64_t last = whole_number(attributes.at("max"), "damaged.a_column");
        if (first >= 1 && last >= first) sheet().hide_columns(first - 1, last - first + 1);
    }

    /// "A2:C13"
    void merge(std::string_view range) const {
        const std::uint64_t column = take_column(range);
        const std::size_t colon = range.find(':');
        if (colon == std::string_view::npos) return;
        std::string_view to = range.substr(colon + 1);
        take_column(to);
        sheet().merge_down(column, whole_number(range.substr(0, colon), "damaged.a_row"),
                           whole_number(to, "damaged.a_row"));
    }

    void begin_row(const XmlAttributes& attributes) {
        const std::string_view told = attributes.at("r");
        row_ = told.empty() ? row_ + 1 : whole_number(told, "damaged.a_row");
        next_column_ = 0;
        in_row_ = true;
        sheet().begin_row(row_, attributes.says_true("hidden"));
    }

    void begin_cell(const XmlAttributes& attributes) {
        std::string_view told = attributes.at("r");
        column_ = told.empty() ? next_column_ : take_column(told);
        next_column_ = column_ + 1;
        type_ = attributes.at("t");
        const std::string_view style = attributes.at("s");
        style_ = style.empty() ? 0 : whole_number(style, "damaged.a_style");
        value_.clear();
        formula_ = false;
        in_cell_ = true;
    }

    void end_cell() {
        in_cell_ = false;
        if (value_.empty()) {
            if (formula_) sheet().put(column_, CellKind::error, without_value_);
        } else if (type_ == "s") {
            put_shared();
        } else if (type_ == "str" || type_ == "inlineStr") {
            put_text(book_, column_, value_);
        } else if (type_ == "b") {
            sheet().put(column_, CellKind::truth, value_ == "0" || value_ == "false" ? "false" : "true");
        } else if (type_ == "e") {
            sheet().put(column_, CellKind::error, book_.texts.keep(value_));
        } else if (type_ == "d") {
            sheet().put(column_, CellKind::moment, book_.texts.keep(iso_moment(value_).value_or(value_)));
        } else {
            put_number();
        }
    }

    void put_shared() const {
        const std::uint64_t at = whole_number(value_, "damaged.a_text");
        if (at >= shared_.texts.size())
            damaged(core::said("damaged.shared_text",
                               {{"row", row_}, {"text", at}, {"count", shared_.texts.size()}}));
        put_text(book_, column_, shared_.texts[at]);
    }

    void put_number() const {
        double number = 0.0;
        const char* const end = value_.data() + value_.size();
        const auto [stop, problem] = std::from_chars(value_.data(), end, number);
        if (problem != std::errc() || stop != end || !std::isfinite(number))
            return put_text(book_, column_, value_);
        const ShownAs shown = style_ < shared_.styles.size() ? shared_.styles[style_] : ShownAs::number;
        if (shown == ShownAs::number) return sheet().put(column_, CellKind::number, number);
        if (shown == ShownAs::percent)
            return sheet().put(column_, CellKind::number, book_.texts.keep(percent_text(number)));
        if (const auto moment = moment_text(number, shown, shared_.epoch))
            return sheet().put(column_, CellKind::moment, book_.texts.keep(*moment));
        sheet().put(column_, CellKind::error,
                    book_.texts.keep(core::said("value.a_date", {{"number", number}})));
    }

    Workbook& book_;
    const std::string_view without_value_ = book_.texts.keep(core::said("value.formula"));
    const Shared& shared_;
    bool in_data_ = false;
    bool in_row_ = false;
    bool in_cell_ = false;
    bool in_value_ = false;
    bool formula_ = false;
    int phonetic_ = 0;
    std::uint64_t row_ = 0;
    std::uint64_t column_ = 0;
    std::uint64_t next_column_ = 0;
    std::uint64_t style_ = 0;
    std::string type_;
    std::string value_;
};

std::string target_of_type(const std::map<std::string, Relation, std::less<>>& relations,
                           std::string_view type) {
    const auto found = std::find_if(relations.begin(), relations.end(),
                                    [&](const auto& entry) { return entry.second.type == type; });
    return found == relations.end() ? std::string() : found->second.target;
}

}  // namespace

Workbook read_xlsx(const ReadPart& read, const std::string& workbook) {
    Workbook book;
    const auto relations = relations_of(read, workbook);
    const WorkbookEntries entries = workbook_entries(read, workbook);
    const Shared shared{entries.epoch, cell_styles(read, target_of_type(relations, "styles")),
                        shared_texts(read, target_of_type(relations, "sharedStrings"), book.texts)};
    for (const SheetEntry& entry : entries.sheets) {
        const auto relation = relations.find(entry.relation);
        if (relation == relations.end()) damaged(core::said("damaged.no_sheet", {{"sheet", entry.name}}));
        if (relation->second.type != "worksheet") continue;
        book.add_sheet(entry.name, entry.hidden);
        SheetHandler handler(book, shared);
        if (!read_xml(read, relation->second.target, handler))
            damaged(core::said("damaged.no_sheet", {{"sheet", entry.name}}));
        book.sheets.back().finish();
    }
    return book;
}

}  // namespace roostward::io
