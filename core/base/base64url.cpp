// core/base/base64url.cpp -- six bits a letter.
#include "core/base/base64url.hpp"

#include <cstdint>

namespace canewright {
namespace {

constexpr char kAlphabet[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

}  // namespace

int base64url_digit(char c) {
    if (c >= 'A' && c <= 'Z') return c - 'A';
    if (c >= 'a' && c <= 'z') return c - 'a' + 26;
    if (c >= '0' && c <= '9') return c - '0' + 52;
    return c == '-' ? 62 : c == '_' ? 63 : -1;
}

std::string base64url(const std::string& bytes) {
    std::string text;
    std::uint32_t held = 0;
    int held_bits = 0;
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        held = (held << 8 | static_cast<unsigned char>(bytes[i])) & 0xFFFF;
        for (held_bits += 8; held_bits >= 6; held_bits -= 6) {
            text += kAlphabet[held >> (held_bits - 6) & 63];
        }
    }
    if (held_bits > 0) text += kAlphabet[held << (6 - held_bits) & 63];
    return text;
}

std::optional<std::string> bytes_of_base64url(const std::string& text) {
    std::string bytes;
    std::uint32_t held = 0;
    int held_bits = 0;
    for (const char c : text) {
        const int value = base64url_digit(c);
        if (value < 0) return {};
        held = (held << 6 | static_cast<std::uint32_t>(value)) & 0xFFFF;
        held_bits += 6;
        if (held_bits >= 8) {
            held_bits -= 8;
            bytes += static_cast<char>(static_cast<unsigned char>(held >> held_bits & 0xFF));
        }
    }
    const bool left_over = (held & ((1U << held_bits) - 1)) != 0;
    if (held_bits >= 6 || left_over) return {};
    return bytes;
}

}  // namespace canewright
