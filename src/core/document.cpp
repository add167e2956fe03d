#include "roostward/core/document.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <iterator>

#include "roostward/core/utf8.hpp"

namespace roostward::core {

namespace {

void append_escaped(std::string& out, char c) {
    switch (c) {
        case '"':
            out += "\\\"";
            return;
        case '\\':
            out += "\\\\";
            return;
        case '\n':
            out += "\\n";
            return;
        case '\r':
            out += "\\r";
            return;
        case '\t':
            out += "\\t";
            return;
        default:
            fmt::format_to(std::back_inserter(out), "\\u{:04x}", static_cast<unsigned>(c));
    }
}

bool stands_as_it_is(char c) {
    return c >= 0x20 && c < 0x7F && c != '"' && c != '\\';
}

void append_text(std::string& out, std::string_view text) {
    out += '"';
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t begin = i;
        while (i < text.size() && stands_as_it_is(text[i]))
            ++i;
        out.append(text, begin, i - begin);
        if (i == text.size()) break;
        if (const std::size_t length = utf8_length(text, i); length > 1) {
            out.append(text, i, length);
            i += length;
        } else if (length == 1) {
            append_escaped(out, text[i++]);
        } else {
            out += "\xEF\xBF\xBD";
            ++i;
        }
    }
    out += '"';
}

class Writer {
 public:
    Writer(std::string& out, bool pretty) : out_(out), pretty_(pretty) {}

    void operator()(std::monostate) { out_ += "null"; }
    void operator()(bool value) { out_ += value ? "true" : "false"; }
    void operator()(std::int64_t value) {
        std::array<char, 24> digits{};
        out_.append(digits.data(), std::to_chars(digits.begin(), digits.end(), value).ptr);
    }
    void operator()(double value) {
        if (std::isfinite(value)) {
            append_number(out_, value);
        } else {
            out_ += "null";
        }
    }
    void operator()(const std::string& value) { append_text(out_, value); }
    void operator()(const List& list) {
        bracketed('[', ']', list, [this](const Document& item) { std::visit(*this, item.value()); });
    }
    void operator()(const Object& object) {
        bracketed('{', '}', object, [this](const Member& member) {
            append_text(out_, member.first);
            out_ += pretty_ ? ": " : ":";
            std::visit(*this, member.second.value());
        });
    }

 private:
    template <class Items, class Write>
    void bracketed(char open, char close, const Items& items, Write write) {
        out_ += open;
        ++depth_;
        bool first = true;
        for (const auto& item : items) {
            if (!first) out_ += ',';
            first = false;
            new_line();
            write(item);
        }
        --depth_;
        if (!items.empty()) new_line();
        out_ += close;
    }
    void new_line() {
        if (!pretty_) return;
        out_ += '\n';
        out_.append(2 * depth_, ' ');
    }

    std::string& out_;
    bool pretty_;
    std::size_t depth_ = 0;
};

}  // namespace

void append_number(std::string& out, double value, int digits) {
    // Seventeen digits, a sign, a point and an exponent fit; so does "-infinity".
    std::array<char, 32> text{};
    const double unsigned_zero = value == 0.0 ? 0.0 : value;
    const auto [end, fault] = std::to_chars(text.data(), text.data() + text.size(), unsigned_zero,
                                            std::chars_format::general, digits);
    out.append(text.data(), end);
}

const Document& Document::at(std::string_view key) const {
    static const Document nothing;
    for (const Member& member : object())
        if (member.first == key) return member.second;
    return nothing;
}

const List& Document::list() const {
    static const List none;
    const List* const list = std::get_if<List>(&value_);
    return list != nullptr ? *list : none;
}

const Object& Document::object() const {
    static const Object none;
    const Object* const object = std::get_if<Object>(&value_);
    return object != nullptr ? *object : none;
}

std::string_view Document::text() const {
    const std::string* const text = std::get_if<std::string>(&value_);
    return text != nullptr ? std::string_view(*text) : std::string_view{};
}

std::optional<double> Document::number() const {
    if (const auto* const whole = std::get_if<std::int64_t>(&value_)) return static_cast<double>(*whole);
    const double* const number = std::get_if<double>(&value_);
    return number != nullptr ? std::optional(*number) : std::nullopt;
}

bool Document::truth() const {
    const bool* const truth = std::get_if<bool>(&value_);
    return truth != nullptr && *truth;
}

void append_json(std::string& out, const Document& document) {
    Writer writer(out, false);
    std::visit(writer, document.value());
}

std::string to_json(const Document& document) {
    std::string out;
    append_json(out, document);
    return out;
}

std::string to_pretty_json(const Document& document) {
    std::string out;
    Writer writer(out, true);
    std::visit(writer, document.value());
    out += '\n';
    return out;
}

}  // namespace roostward::core
