// core/link/seal.hpp -- a link's length and checksum, made and looked at.
//
// Only this room includes it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "core/base/violation.hpp"

namespace canewright {

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
