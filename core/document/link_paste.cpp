// core/document/link_paste.cpp -- a link among what mail and chat programs put around and into it.
#include "core/document/link_paste.hpp"

#include <algorithm>
#include <optional>

namespace canewright {

namespace {

constexpr std::size_t kVersion_digits = 6;
constexpr std::size_t kBareLetters = 8;  // as many as the shortest link has

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || is_digit(c) || c == '-' || c == '_';
}

int hex(char c) {
    if (is_digit(c)) return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

// What may not stand before a bare link: it would be the end of a word, a number or an address.
bool is_inside(char c) { return is_letter(c) || c == '.' || c == '/' || c == ':' || c == '='; }

// %23 to '#'; a per cent sign that means nothing stays.
std::string percent_decoded(const std::string& text) {
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const int high = text[i] == '%' && i + 2 < text.size() ? hex(text[i + 1]) : -1;
        const int low = high >= 0 ? hex(text[i + 2]) : -1;
        if (low < 0) {
            plain += text[i];
            continue;
        }
        plain += static_cast<char>(static_cast<unsigned char>(16 * high + low));
        i += 2;
    }
    return plain;
}

// How many bytes of white space stand here, invisible characters and a mail's soft line break
// included; 0 where there is none.
std::size_t space_at(const std::string& text, std::size_t at) {
    static constexpr const char* kSpaces[] = {" ",      "\t",     "\r",     "\n",     "=\r\n",
                                              "=\n",    "\u00A0", "\u00AD", "\u200B", "\u200C",
                                              "\u200D", "\u2060", "\uFEFF"};
    for (const char* space : kSpaces) {
        const std::string one = space;
        if (text.compare(at, one.size(), one) == 0) return one.size();
    }
    return 0;
}

void skip_spaces(const std::string& text, std::size_t& at) {
    while (at < text.size()) {
        const std::size_t bytes = space_at(text, at);
        if (bytes == 0) return;
        at += bytes;
    }
}

// The version of a link that begins here, and where its letters begin.
std::optional<int> version_at(const std::string& text, std::size_t& at) {
    skip_spaces(text, at);
    int version = 0;
    std::size_t digits = 0;
    for (; at < text.size() && is_digit(text[at]) && digits <= kVersion_digits; ++at, ++digits) {
        version = version * 10 + (text[at] - '0');
    }
    skip_spaces(text, at);
    const bool dot = at < text.size() && text[at] == '.';
    if (digits < 1 || digits > kVersion_digits || !dot || version < 1) return {};
    ++at;
    return version;
}

void take_letters(const std::string& text, std::size_t at, Pasted& found) {
    bool directly = true;
    while (at < text.size()) {
        const std::size_t space = space_at(text, at);
        if (space == 0 && !is_letter(text[at])) break;
        if (space == 0) {
            found.letters += text[at];
            found.after.push_back(directly);
        }
        directly = space == 0;
        at += std::max<std::size_t>(space, 1);
    }
    found.goes_on = std::any_of(text.begin() + static_cast<std::ptrdiff_t>(at), text.end(),
                                [](char c) { return is_letter(c); });
}

// A number among words is none: 2.5 mm, or 187.53125001 in a document. A link has letters too.
bool looks_bare(const std::string& text, std::size_t at) {
    if (!version_at(text, at)) return false;
    const std::size_t start = at;
    bool has_letters = false;
    for (; at < text.size() && at - start < kBareLetters && is_letter(text[at]); ++at) {
        has_letters = has_letters || !is_digit(text[at]);
    }
    return at - start == kBareLetters && has_letters;
}

Pasted link_at(const std::string& text, std::size_t at) {
    Pasted found;
    if (const auto version = version_at(text, at)) {
        found.version = *version;
        take_letters(text, at, found);
    }
    return found;
}

}  // namespace

Pasted find_link(const std::string& pasted) {
    const std::string text = percent_decoded(percent_decoded(pasted));
    // From the last one back: an address has one, the words in front of it may have others.
    for (std::size_t end = text.size(); end > 0;) {
        const std::size_t hash = text.rfind('#', end - 1);
        if (hash == std::string::npos) break;
        Pasted found = link_at(text, hash + 1);
        if (found.version > 0) return found;
        end = hash;
    }
    // None: a bare link, at the start of a word.
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (is_digit(text[at]) && (at == 0 || !is_inside(text[at - 1])) && looks_bare(text, at)) {
            return link_at(text, at);
        }
    }
    return {};
}

}  // namespace canewright
