// tests/core/base/base64url_test.cpp -- bytes as letters, against the standard's own vectors.
#include "core/base/base64url.hpp"

#include <catch2/catch.hpp>
#include <string>
#include <utility>

using namespace canewright;

// Source  RFC 4648, section 10 (test vectors), padding taken off; the last two by hand from the
//         table of section 5: 111110 is '-', 111111 is '_'.
TEST_CASE("base64url", "[base][published]") {
    const std::pair<std::string, std::string> vectors[] = {{"", ""},
                                                           {"f", "Zg"},
                                                           {"fo", "Zm8"},
                                                           {"foo", "Zm9v"},
                                                           {"foob", "Zm9vYg"},
                                                           {"fooba", "Zm9vYmE"},
                                                           {"foobar", "Zm9vYmFy"},
                                                           {"\xFB\xEF\xBE", "----"},
                                                           {"\xFF\xFF\xFF", "____"}};
    for (const auto& [bytes, text] : vectors) {
        CHECK(base64url(bytes) == text);
        CHECK(bytes_of_base64url(text) == bytes);
    }
    for (const char* const wrong : {"Z", "Zg=", "Zh", "Zm9", "Zm9vY", "+///", "Zg Zg", "Zg\n"}) {
        CAPTURE(wrong);
        CHECK_FALSE(bytes_of_base64url(wrong));
    }
}
