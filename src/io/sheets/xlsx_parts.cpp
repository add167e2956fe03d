#include "sheets/xlsx_parts.hpp"

#include <algorithm>

#include "roostward/core/catalogue.hpp"

namespace roostward::io {

namespace {

std::string folder_of(const std::string& part) {
    return part.substr(0, part.rfind('/') + 1);
}

/// "xl/worksheets/sheet1.xml" of "../worksheets/./sheet1.xml" as seen from "xl/other/".
std::string resolved(const std::string& folder, std::string_view target) {
    const std::string whole = target.starts_with('/') ? std::string(target) : folder + std::string(target);
    std::vector<std::string> steps;
    for (std::size_t from = 0; from <= whole.size();) {
        const std::size_t to = std::min(whole.find('/', from), whole.size());
        const std::string step = whole.substr(from, to - from);
        if (step == ".." && !steps.empty()) steps.pop_back();
        if (step != ".." && step != "." && !step.empty()) steps.push_back(step);
        from = to + 1;
    }
    std::string name;
    for (const std::string& step : steps)
        name += (name.empty() ? "" : "/") + step;
    return name;
}

class RelationHandler : public XmlHandler {
 public:
    explicit RelationHandler(std::string folder) : folder_(std::move(folder)) {}
    void begin(std::string_view name, const XmlAttributes& attributes) override {
        if (name != "Relationship" || attributes.at("TargetMode") == "External") return;
        const std::string_view type = attributes.at("Type");
        found[std::string(attributes.at("Id"))] = {std::string(type.substr(type.rfind('/') + 1)),
                                                   resolved(folder_, attributes.at("Target"))};
    }
    void end(std::string_view) override {}
    std::map<std::string, Relation, std::less<>> found;

 private:
    std::string folder_;
};

class EntryHandler : public XmlHandler {
 public:
    void begin(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "workbookPr" && attributes.says_true("date1904")) found.epoch = DateEpoch::year_1904;
        if (name != "sheet") return;
        const std::string_view state = attributes.at("state");
        found.sheets.push_back({std::string(attributes.at("name")),
                                std::string(attributes.at("relationships", "id")),
                                state == "hidden" || state == "veryHidden"});
    }
    void end(std::string_view) override {}
    WorkbookEntries found;
};

class StyleHandler : public XmlHandler {
 public:
    void begin(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "numFmts" || name == "cellXfs") inside_ = name;
        if (name == "numFmt" && inside_ == "numFmts") {
            formats_[std::string(attributes.at("numFmtId"))] = shown_as(attributes.at("formatCode"));
        }
        if (name == "xf" && inside_ == "cellXfs") styles.push_back(shown(attributes.at("numFmtId")));
    }
    void end(std::string_view name) override {
        if (name == inside_) inside_.clear();
    }
    std::vector<ShownAs> styles;

 private:
    [[nodiscard]] ShownAs shown(std::string_view id) const {
        if (const auto own = formats_.find(id); own != formats_.end()) return own->second;
        return id.empty() ? ShownAs::number
                          : shown_as_built_in(static_cast<int>(whole_number(id, "damaged.a_format")));
    }
    std::string inside_;
    std::map<std::string, ShownAs, std::less<>> formats_;
};

class SharedTextHandler : public XmlHandler {
 public:
    explicit SharedTextHandler(TextPool& pool) : pool_(pool) {}
    void begin(std::string_view name, const XmlAttributes&) override {
        if (name == "rPh") ++phonetic_;
        in_text_ = name == "t" && phonetic_ == 0;
    }
    void end(std::string_view name) override {
        in_text_ = false;
        if (name == "rPh") --phonetic_;
        if (name != "si") return;
        texts.push_back(pool_.keep(text_));
        text_.clear();
    }
    void text(std::string_view more) override {
        if (in_text_) append_text(text_, more);
    }
    std::vector<std::string_view> texts;

 private:
    TextPool& pool_;
    std::string text_;
    bool in_text_ = false;
    int phonetic_ = 0;
};

}  // namespace

std::map<std::string, Relation, std::less<>> relations_of(const ReadPart& read, const std::string& part) {
    RelationHandler handler(folder_of(part));
    read_xml(read, folder_of(part) + "_rels/" + part.substr(folder_of(part).size()) + ".rels", handler);
    return std::move(handler.found);
}

std::string main_part(const ReadPart& read) {
    for (const auto& [id, relation] : relations_of(read, "")) {
        if (relation.type == "officeDocument") return relation.target;
    }
    return {};
}

WorkbookEntries workbook_entries(const ReadPart& read, const std::string& part) {
    EntryHandler handler;
    if (!read_xml(read, part, handler)) damaged(core::said("damaged.no_part", {{"part", part}}));
    return std::move(handler.found);
}

std::vector<ShownAs> cell_styles(const ReadPart& read, const std::string& part) {
    StyleHandler handler;
    if (!part.empty()) read_xml(read, part, handler);
    return std::move(handler.styles);
}

std::vector<std::string_view> shared_texts(const ReadPart& read, const std::string& part, TextPool& pool) {
    SharedTextHandler handler(pool);
    if (!part.empty()) read_xml(read, part, handler);
    return std::move(handler.texts);
}

}  // namespace roostward::io
