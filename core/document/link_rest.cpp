// core/document/link_rest.cpp -- steps over entries that this version does not know.
#include "core/document/link_rest.hpp"

#include <cstddef>

#include "core/base/base64url.hpp"

namespace canewright {

bool are_entries(const std::string& bytes) {
    constexpr int kLength_bits = 14;  // two bytes: more than a link can hold
    std::size_t at = 0;
    while (at < bytes.size()) {
        if (bytes[at++] == '\0') return false;
        std::size_t length = 0;
        unsigned more = 1;
        for (int shift = 0; more != 0; shift += 7) {
            if (shift >= kLength_bits || at >= bytes.size()) return false;
            const unsigned byte = static_cast<unsigned char>(bytes[at++]);
            length |= static_cast<std::size_t>(byte & 0x7F) << shift;
            more = byte & 0x80;
        }
        if (length > bytes.size() - at) return false;
        at += length;
    }
    return true;
}

bool is_link_rest(const std::string& text) {
    const auto bytes = bytes_of_base64url(text);
    return bytes && !bytes->empty() && are_entries(*bytes);
}

}  // namespace canewright
