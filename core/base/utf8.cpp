// core/base/utf8.cpp -- UTF-8 to code points, strictly.
#include "core/base/utf8.hpp"

#include <cstddef>
#include <cstdint>

namespace canewright {

namespace {

// Bytes that follow a lead byte; nothing where no sequence may start with it.
std::optional<std::size_t> bytes_after(unsigned char lead) {
    if (lead < 0x80) return 0;
    if (lead < 0xC2) return std::nullopt;  // a continuation, or overlong whatever follows
    if (lead < 0xE0) return 1;
    if (lead < 0xF0) return 2;
    if (lead < 0xF5) return 3;
    return std::nullopt;
}

bool allowed(std::uint32_t point, std::size_t more) {
    const bool overlong = (more == 2 && point < 0x800) || (more == 3 && point < 0x10000);
    const bool surrogate = point >= 0xD800 && point <= 0xDFFF;
    return !overlong && !surrogate && point <= 0x10FFFF;
}

}  // namespace

std::optional<std::u32string> decode_utf8(std::string_view text) {
    std::u32string points;
    for (std::size_t i = 0; i < text.size();) {
        const auto lead = static_cast<unsigned char>(text[i]);
        const std::optional<std::size_t> more = bytes_after(lead);
        if (!more || i + *more >= text.size()) return std::nullopt;
        std::uint32_t point = *more == 0 ? lead : lead & (0x3Fu >> *more);
        for (std::size_t k = 1; k <= *more; ++k) {
            const auto next = static_cast<unsigned char>(text[i + k]);
            if ((next & 0xC0u) != 0x80u) return std::nullopt;
            point = (point << 6) | (next & 0x3Fu);
        }
        if (!allowed(point, *more)) return std::nullopt;
        points.push_back(static_cast<char32_t>(point));
        i += *more + 1;
    }
    return points;
}

}  // namespace canewright
