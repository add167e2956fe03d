#include "words/date_order.hpp"

#include <algorithm>

#include "files/input_file.hpp"
#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

bool has_date(const std::string& text) {
    const Reading<WrittenTime> reading = read_time(text, DateOrder::day_first);
    const WrittenTime* time = value_in(reading);
    return time != nullptr && time->date.has_value();
}

/// Looks at dates until one settles the order, or the first needs none.
class OrderSearch {
 public:
    [[nodiscard]] DateOrder found() const { return found_; }
    [[nodiscard]] const std::string& undecided() const { return undecided_; }

    bool goes_on_after(const std::string& text) {
        if (text.empty()) return true;
        const std::optional<DateOrder> shown = order_shown_by(text);
        if (!shown) return !(undecided_.empty() && has_date(text));
        if (*shown == DateOrder::unknown)
            undecided_ = text;
        else
            found_ = *shown;
        return found_ == DateOrder::unknown;
    }

 private:
    DateOrder found_ = DateOrder::unknown;
    std::string undecided_;
};

}  // namespace

DateOrder date_order_in(OpenLayer& layer, const InputSource& source, LayerReport& report,
                        std::initializer_list<const char*> fields, DateOrder of_watches) {
    if (source.date_order == "dmy") return DateOrder::day_first;
    if (source.date_order == "mdy") return DateOrder::month_first;
    const auto given = [&](const char* name) { return layer.fields.at(name).given(); };
    if (std::none_of(fields.begin(), fields.end(), given)) return DateOrder::unknown;
    OrderSearch search;
    LayerReport unheard("", "");
    layer.rows->for_each(layer.fields.wanted(), [&](const SourceRow& row) {
        bool goes_on = true;
        for (const char* name : fields) {
            const std::string text = RowReader(row, unheard).text(layer.fields.at(name));
            goes_on = goes_on && search.goes_on_after(text);
        }
        return goes_on;
    });
    const bool both_fit = search.found() == DateOrder::unknown && !search.undecided().empty();
    if (both_fit && of_watches != DateOrder::unknown) {
        const bool day_first = of_watches == DateOrder::day_first;
        report.note_layer("date order of the watches", search.undecided(),
                          core::said(day_first ? "finding.day_first" : "finding.month_first"));
        return of_watches;
    }
    if (both_fit) {
        cannot_use(source, core::said("error.date_order", {{"date", search.undecided()}}));
    }
    return search.found();
}

}  // namespace roostward::io
