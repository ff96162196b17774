// core/base/base64url.hpp -- bytes as letters that no address and no mail changes. Layer: base.
#pragma once

#include <optional>
#include <string>

namespace canewright {

// RFC 4648, section 5, without padding.
std::string base64url(const std::string& bytes);

// Nothing for other letters, a length that no bytes have, and bits left over that are not 0: each
// text of bytes has one spelling only.
std::optional<std::string> bytes_of_base64url(const std::string& text);

// What a letter counts, 0 to 63; -1 for another.
int base64url_digit(char letter);

}  // namespace canewright
