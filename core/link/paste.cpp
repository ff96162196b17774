// core/link/paste.cpp -- a link among what mail and chat programs put around and into it.
#include "core/link/paste.hpp"

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

// Letters of the alphabet that people also write around a link.
bool is_mark(char c) { return c == '-' || c == '_'; }

int hex(char c) {
    if (is_digit(c)) return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

// What may not stand before a bare link: it would be the end of a word, a number or an address.
bool is_inside(char c) { return is_letter(c) || c == '.' || c == '/' || c == ':' || c == '='; }

// Whether a word can begin here: emphasis (`_1.abc_`) and dashes before it are not its own.
bool begins_word(const std::string& text, std::size_t at) {
    while (at > 0 && is_mark(text[at - 1])) --at;
    return at == 0 || !is_inside(text[at - 1]);
}

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

// Three bytes of UTF-8 from one character up to another whose first two bytes are the same.
bool is_between(const std::string& text, std::size_t at, const char* first, const char* last) {
    return text.compare(at, 2, first, 2) == 0 && at + 2 < text.size() &&
           static_cast<unsigned char>(text[at + 2]) >= static_cast<unsigned char>(first[2]) &&
           static_cast<unsigned char>(text[at + 2]) <= static_cast<unsigned char>(last[2]);
}

// How many bytes one space has, whatever its width; what cannot be seen counts as one: marks of
// direction, joiners, soft hyphens, a mail's soft line break. 0 where there is none.
std::size_t one_space_at(const std::string& text, std::size_t at) {
    static constexpr const char* kSpaces[] = {" ",      "\t",     "\r",    "\n",     "\v",
                                              "\f",     "=\r\n",  "=\n",   "\u00A0", "\u00AD",
                                              "\u1680", "\u3000", "\uFEFF"};
    for (const char* space : kSpaces) {
        const std::string one = space;
        if (text.compare(at, one.size(), one) == 0) return one.size();
    }
    // The General Punctuation of Unicode that is white space or has no width.
    const bool wide = is_between(text, at, "\u2000", "\u200F") ||
                      is_between(text, at, "\u2028", "\u202F") ||
                      is_between(text, at, "\u205F", "\u206F");
    return wide ? 3 : 0;
}

// The same, with the marks of a quoted mail (`> `, once for each time it was passed on) that
// begin a line.
std::size_t space_at(const std::string& text, std::size_t at) {
    const std::size_t bytes = one_space_at(text, at);
    if (bytes == 0 || text[at + bytes - 1] != '\n') return bytes;
    std::size_t end = at + bytes;
    for (std::size_t next = end; next < text.size();) {
        const std::size_t blank = one_space_at(text, next);
        if (blank == 0 && text[next] != '>') break;
        next += std::max<std::size_t>(blank, 1);
        if (blank == 0) end = next;
    }
    return end - at;
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
    std::size_t count = 0;
    bool has_letters = false;
    while (at < text.size() && count < kBareLetters) {
        // an odd space that a program put in ends no word; one that a person typed does
        const std::size_t odd =
            static_cast<unsigned char>(text[at]) >= 0x80 ? one_space_at(text, at) : 0;
        if (odd == 0 && !is_letter(text[at])) break;
        if (odd == 0) {
            ++count;
            has_letters = has_letters || !is_digit(text[at]);
        }
        at += std::max<std::size_t>(odd, 1);
    }
    return count == kBareLetters && has_letters;
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

bool Pasted::ends_at(std::size_t at) const {
    while (joined(at) && is_mark(letters[at])) ++at;
    return !joined(at);
}

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
        if (is_digit(text[at]) && begins_word(text, at) && looks_bare(text, at)) {
            return link_at(text, at);
        }
    }
    return {};
}

}  // namespace canewright
