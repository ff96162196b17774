// wasm/convert.hpp -- JavaScript values to C++ ones, for anything a page may hand over.
#pragma once

#include <emscripten/val.h>

#include <cmath>
#include <limits>
#include <string>

namespace canewright::js {

// Text as UTF-8. Embind's own conversion swallows the character after a lone surrogate; here a lone
// surrogate becomes U+FFFD. What is no string is the empty text, which every reader refuses.
inline std::string text(const emscripten::val& value) {
    if (!value.isString()) return {};
    const std::u16string units = value.as<std::u16string>();
    std::string out;
    out.reserve(units.size());
    for (std::size_t i = 0; i < units.size(); ++i) {
        char32_t point = units[i];
        if (point >= 0xD800 && point < 0xE000) {
            const bool pair = point < 0xDC00 && i + 1 < units.size() && units[i + 1] >= 0xDC00 &&
                              units[i + 1] < 0xE000;
            point = pair ? 0x10000 + ((point - 0xD800) << 10) + (units[++i] - 0xDC00u) : 0xFFFD;
        }
        const auto put = [&out](char32_t byte) { out.push_back(static_cast<char>(byte)); };
        if (point < 0x80) {
            put(point);
        } else if (point < 0x800) {
            put(0xC0 | (point >> 6));
            put(0x80 | (point & 0x3F));
        } else if (point < 0x10000) {
            put(0xE0 | (point >> 12));
            put(0x80 | ((point >> 6) & 0x3F));
            put(0x80 | (point & 0x3F));
        } else {
            put(0xF0 | (point >> 18));
            put(0x80 | ((point >> 12) & 0x3F));
            put(0x80 | ((point >> 6) & 0x3F));
            put(0x80 | (point & 0x3F));
        }
    }
    return out;
}

// NaN for what is no number: Embind would turn null into 0.
inline double number(const emscripten::val& value) {
    return value.isNumber() ? value.as<double>() : std::numeric_limits<double>::quiet_NaN();
}

// 0 for what is no whole number of an int's size.
inline int whole(const emscripten::val& value) {
    const double given = number(value);
    const bool fits = std::abs(given) <= std::numeric_limits<int>::max();
    return fits && std::trunc(given) == given ? static_cast<int>(given) : 0;
}

}  // namespace canewright::js
