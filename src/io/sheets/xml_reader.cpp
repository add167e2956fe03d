#include "sheets/xml_reader.hpp"

#include <expat.h>

#include <charconv>

#include "roostward/core/catalogue.hpp"
#include "roostward/core/error.hpp"

namespace roostward::io {

namespace {

constexpr char parting = '\n';

std::string_view space_of(std::string_view name) {
    const std::size_t at = name.rfind(parting);
    return at == std::string_view::npos ? std::string_view() : name.substr(0, at);
}

std::string_view without_space(std::string_view name) {
    return name.substr(name.rfind(parting) + 1);
}

}  // namespace

void damaged(const std::string& how) {
    throw core::Error(core::Fault::inputs, {}, core::said("error.damaged", {{"how", how}}));
}

std::uint64_t whole_number(std::string_view digits, std::string_view what) {
    std::uint64_t value = 0;
    const auto [stop, problem] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (problem != std::errc() || stop != digits.data() + digits.size() || value > 0xFFFFFFFFU)
        damaged(core::said("damaged.number", {{"what", core::said(what)}, {"text", digits.substr(0, 40)}}));
    return value;
}

std::string_view XmlAttributes::at(std::string_view name) const {
    for (const char* const* pair = pairs_; *pair != nullptr; pair += 2) {
        if (without_space(pair[0]) == name) return pair[1];
    }
    return {};
}

std::string_view XmlAttributes::at(std::string_view space_ending, std::string_view name) const {
    for (const char* const* pair = pairs_; *pair != nullptr; pair += 2) {
        if (without_space(pair[0]) == name && space_of(pair[0]).ends_with(space_ending)) return pair[1];
    }
    return {};
}

bool XmlAttributes::says_true(std::string_view name) const {
    const std::string_view value = at(name);
    return value == "1" || value == "true";
}

struct XmlReader::Parser {
    explicit Parser(XmlHandler& to) : handler(to), expat(XML_ParserCreateNS(nullptr, parting)) {}
    ~Parser() { XML_ParserFree(expat); }
    Parser(const Parser&) = delete;
    Parser& operator=(const Parser&) = delete;

    /// Exceptions must not pass through C.
    template <class Action>
    void guarded(const Action& action) {
        silent = 0;
        if (thrown) return;
        try {
            action();
        } catch (...) {
            thrown = std::current_exception();
            XML_StopParser(expat, XML_FALSE);
        }
    }

    XmlHandler& handler;
    XML_Parser expat;
    std::exception_ptr thrown;
    std::size_t silent = 0;  ///< bytes since something was told
};

XmlReader::XmlReader(XmlHandler& handler) : parser_(std::make_unique<Parser>(handler)) {
    using Self = Parser*;
    XML_SetUserData(parser_->expat, parser_.get());
    XML_SetElementHandler(
        parser_->expat,
        [](void* self, const char* name, const char** attributes) {
            const auto parser = static_cast<Self>(self);
            parser->guarded([&] { parser->handler.begin(without_space(name), XmlAttributes(attributes)); });
        },
        [](void* self, const char* name) {
            const auto parser = static_cast<Self>(self);
            parser->guarded([&] { parser->handler.end(without_space(name)); });
        });
    XML_SetCharacterDataHandler(parser_->expat, [](void* self, const char* text, int length) {
        const auto parser = static_cast<Self>(self);
        parser->guarded([&] { parser->handler.text({text, static_cast<std::size_t>(length)}); });
    });
    XML_SetStartDoctypeDeclHandler(parser_->expat,
                                   [](void* self, const char*, const char*, const char*, int) {
                                       const auto parser = static_cast<Self>(self);
                                       parser->guarded([] { damaged(core::said("damaged.document_type")); });
                                   });
}

XmlReader::~XmlReader() = default;

void XmlReader::feed(std::string_view bytes) {
    // A piece that is never closed would be looked at anew with every call.
    constexpr std::size_t longest_piece = std::size_t{8} << 20U;
    constexpr std::size_t step = std::size_t{64} << 10U;
    for (; !bytes.empty(); bytes.remove_prefix(std::min(step, bytes.size()))) {
        parser_->silent += std::min(step, bytes.size());
        parse(bytes.substr(0, step), false);
        if (parser_->silent > longest_piece) damaged(core::said("damaged.endless"));
    }
}

void XmlReader::finish() {
    parse({}, true);
}

void XmlReader::parse(std::string_view bytes, bool last) {
    const XML_Status status =
        XML_Parse(parser_->expat, bytes.data(), static_cast<int>(bytes.size()), last ? 1 : 0);
    if (parser_->thrown) std::rethrow_exception(parser_->thrown);
    if (status == XML_STATUS_OK) return;
    damaged(core::said("damaged.xml", {{"line", XML_GetCurrentLineNumber(parser_->expat)},
                                       {"how", XML_ErrorString(XML_GetErrorCode(parser_->expat))}}));
}

}  // namespace roostward::io
