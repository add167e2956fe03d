#pragma once

#include <cstddef>
#include <exception>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <type_traits>

namespace roostward::io {

/// The attributes of an element, as long as its beginning is being told.
class XmlAttributes {
 public:
    explicit XmlAttributes(const char* const* pairs) : pairs_(pairs) {}

    /// By its name without a prefix, the first of several; empty where it is not there.
    [[nodiscard]] std::string_view at(std::string_view name) const;
    /// The same where its namespace ends so.
    [[nodiscard]] std::string_view at(std::string_view space_ending, std::string_view name) const;
    [[nodiscard]] bool says_true(std::string_view name) const;

 private:
    const char* const* pairs_;
};

/// Is told of an XML document piece by piece. Names come without their prefix.
class XmlHandler {
 public:
    XmlHandler() = default;
    XmlHandler(const XmlHandler&) = delete;
    XmlHandler& operator=(const XmlHandler&) = delete;
    virtual ~XmlHandler() = default;
    virtual void begin(std::string_view name, const XmlAttributes& attributes) = 0;
    virtual void end(std::string_view name) = 0;
    virtual void text(std::string_view) {}
};

/// Throws Error{inputs}: the spreadsheet is damaged.
[[noreturn]] void damaged(const std::string& how);

/// A whole number of digits alone. Throws Error{inputs} for anything else, naming what it is: a key of the
/// catalogue.
[[nodiscard]] std::uint64_t whole_number(std::string_view digits, std::string_view what);

/// Feeds XML of any bytes to a handler. A document type, which spreadsheets do not have, is refused, so that
/// no entity can grow.
class XmlReader {
 public:
    explicit XmlReader(XmlHandler& handler);
    ~XmlReader();
    XmlReader(const XmlReader&) = delete;
    XmlReader& operator=(const XmlReader&) = delete;

    /// Throws Error{inputs}, or what the handler threw.
    void feed(std::string_view bytes);
    void finish();

 private:
    struct Parser;
    void parse(std::string_view bytes, bool last);
    std::unique_ptr<Parser> parser_;
};

}  // namespace roostward::io
