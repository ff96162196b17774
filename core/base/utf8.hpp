// core/base/utf8.hpp -- UTF-8 to code points, strictly.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace canewright {

// The code points of a text; nothing for anything that is not UTF-8: broken or overlong sequences,
// surrogates, values above U+10FFFF.
//
// Source   RFC 3629, section 3 and the table of section 4.
// Checked  tests/core/base/utf8_test.cpp
std::optional<std::u32string> decode_utf8(std::string_view text);

}  // namespace canewright
