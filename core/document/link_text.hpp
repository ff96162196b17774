// core/document/link_text.hpp -- bytes to the letters of a link, and what was pasted back to bytes.
//
// Only link*.cpp include this, and read.cpp for base64url.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "core/base/violation.hpp"

namespace canewright {

// RFC 4648, section 5, without padding.
std::string base64url(const std::string& bytes);

// Nothing for other letters, a length that no bytes have, and bits left over that are not 0: each
// text of bytes has one spelling only.
std::optional<std::string> bytes_of_base64url(const std::string& text);

// CRC-32 of IEEE 802.3.
std::uint32_t checksum(const std::string& bytes);

// "<version>.<length, body and checksum as base64url>Z".
std::string sealed(const std::string& body);

struct Unsealed {
    std::string body;                    // meaningless unless `violation` is empty
    std::optional<Violation> violation;  // at "link"
};

// The body of the link in a pasted text.
Unsealed unsealed(const std::string& pasted);

}  // namespace canewright
