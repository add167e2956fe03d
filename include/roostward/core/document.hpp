#pragma once

#include <concepts>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace roostward::core {

class Document;
using List = std::vector<Document>;
using Member = std::pair<std::string, Document>;
/// Keys keep the order they were given in.
using Object = std::vector<Member>;

/// A value to be written: null, truth, whole number, number, text, list or object.
class Document {
 public:
    using Value = std::variant<std::monostate, bool, std::int64_t, double, std::string, List, Object>;

    Document() = default;
    Document(std::nullptr_t) {}
    Document(bool value) : value_(value) {}
    template <std::integral Whole>
    requires(!std::same_as<Whole, bool>) Document(Whole value) : value_(static_cast<std::int64_t>(value)) {}
    Document(double value) : value_(value) {}
    Document(const char* value) : value_(std::string(value)) {}
    Document(std::string_view value) : value_(std::string(value)) {}
    Document(std::string value) : value_(std::move(value)) {}
    Document(List value) : value_(std::move(value)) {}
    Document(Object value) : value_(std::move(value)) {}
    template <class T>
    Document(const std::optional<T>& value) {
        if (value) *this = Document(*value);
    }

    [[nodiscard]] const Value& value() const { return value_; }
    [[nodiscard]] bool is_null() const { return std::holds_alternative<std::monostate>(value_); }

    // For reading what somebody wrote: what is not there, or is of another kind, is null, empty or false.
    /// The member with this key; null where there is none.
    [[nodiscard]] const Document& at(std::string_view key) const;
    [[nodiscard]] const List& list() const;
    [[nodiscard]] const Object& object() const;
    [[nodiscard]] std::string_view text() const;
    [[nodiscard]] std::optional<double> number() const;
    [[nodiscard]] bool truth() const;
    friend bool operator==(const Document&, const Document&) = default;

 private:
    Value value_;
};

/// JSON (RFC 8259) on one line: numbers with up to 9 significant digits, -0 as 0, not-a-number and
/// infinity as null, bytes that are not UTF-8 replaced by U+FFFD.
[[nodiscard]] std::string to_json(const Document& document);
/// The same, indented by two spaces, ending in a newline.
[[nodiscard]] std::string to_pretty_json(const Document& document);
/// Appends to `out` what to_json returns; for writers of many small values.
void append_json(std::string& out, const Document& document);
/// A number as every output writes it: up to `digits` significant digits, never "-0".
void append_number(std::string& out, double value, int digits = 9);

}  // namespace roostward::core
