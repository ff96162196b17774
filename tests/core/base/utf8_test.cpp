// tests/core/base/utf8_test.cpp -- UTF-8 against the standard's own examples and limits.
#include "core/base/utf8.hpp"

#include <catch2/catch.hpp>

using namespace canewright;

// Source  RFC 3629, section 7, examples; section 3, limits; section 10 warns of C0 80.
TEST_CASE("the examples of the standard", "[utf8][published]") {
    CHECK(decode_utf8("\x41\xE2\x89\xA2\xCE\x91\x2E") == U"\x41\x2262\x0391\x2E");
    CHECK(decode_utf8("\xED\x95\x9C\xEA\xB5\xAD\xEC\x96\xB4") == U"\xD55C\xAD6D\xC5B4");
    CHECK(decode_utf8("\xEF\xBB\xBF\xF0\xA3\x8E\xB4") == U"\xFEFF\x233B4");
    CHECK(decode_utf8("") == U"");
}

TEST_CASE("the first and last of each length", "[utf8][published]") {
    CHECK(decode_utf8("\x7F") == U"\x7F");
    CHECK(decode_utf8("\xC2\x80") == U"\x80");
    CHECK(decode_utf8("\xDF\xBF") == U"\x7FF");
    CHECK(decode_utf8("\xE0\xA0\x80") == U"\x800");
    CHECK(decode_utf8("\xEF\xBF\xBF") == U"\xFFFF");
    CHECK(decode_utf8("\xF0\x90\x80\x80") == U"\x10000");
    CHECK(decode_utf8("\xF4\x8F\xBF\xBF") == U"\x10FFFF");
    CHECK(decode_utf8("\xED\x9F\xBF") == U"\xD7FF");
    CHECK(decode_utf8("\xEE\x80\x80") == U"\xE000");
}

TEST_CASE("what is not UTF-8 is nothing", "[utf8][published]") {
    for (const char* text :
         {"\xC0\x80", "\xC1\xBF", "\xE0\x9F\xBF", "\xF0\x8F\xBF\xBF",  // overlong
          "\xED\xA0\x80", "\xED\xBF\xBF",                              // surrogates
          "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFF", "\xFE",      // too large
          "\x80", "a\xBF", "\xC2", "\xE2\x80", "\xF0\x90\x80",         // broken
          "\xC2\x41", "\xE2\x80\x41", "\xE2\x41\x80"}) {
        CAPTURE(text);
        CHECK_FALSE(decode_utf8(text).has_value());
    }
}
