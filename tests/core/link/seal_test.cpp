// tests/core/link/seal_test.cpp -- the parts that are standards: base64url, CRC-32, ISO
// times; and bits.
#include "core/link/seal.hpp"

#include <array>
#include <catch2/catch.hpp>
#include <ctime>
#include <random>

#include "core/base/base64url.hpp"
#include "core/link/bits.hpp"
#include "core/link/time.hpp"
#include "tests/core/link/samples.hpp"

using namespace canewright;
using namespace canewright::samples;

namespace seal_test {  // its own where tests are compiled together

// Source  the check value of CRC-32 (ISO-HDLC, that of IEEE 802.3) in the catalogue of parametrised
//         CRC algorithms: 0xCBF43926 for "123456789"; from memory, also in the test of zlib.
TEST_CASE("the checksum is CRC-32", "[link][published]") {
    CHECK(checksum("123456789") == 0xCBF43926U);
    CHECK(checksum("") == 0U);
}

// Source  the C library's calendar (gmtime, strftime).
TEST_CASE("times are those of the C library", "[link][published]") {
    std::mt19937 random(1970);
    for (int i = 0; i < 3000; ++i) {
        // Up to the year 2038, where a 32-bit library ends.
        const auto seconds = static_cast<std::time_t>(random() >> 1);
        std::array<char, 40> text{};
        REQUIRE(std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%S",
                              std::gmtime(&seconds)) == 19);
        const std::int64_t ms = static_cast<std::int64_t>(seconds) * 1000;
        CAPTURE(text.data());
        CHECK(time_text(ms, TimeForm::local_seconds) == text.data());
        CHECK(time_ms(text.data(), TimeForm::local_seconds) == ms);
        CHECK(time_text(ms + 7, TimeForm::milliseconds) == std::string(text.data()) + ".007Z");
        CHECK(time_ms(std::string(text.data()) + ".987Z", TimeForm::milliseconds) == ms + 987);
    }
    CHECK(time_text(0, TimeForm::seconds) == "1970-01-01T00:00:00Z");
    CHECK(time_text(-1, TimeForm::seconds).empty());
}

TEST_CASE("only exact times are times", "[link]") {
    CHECK(time_ms("2024-02-29T12:30", TimeForm::local_minutes));
    for (const char* const text :
         {"2023-02-29T12:30", "2024-13-01T12:30", "2024-00-01T12:30", "2024-01-00T12:30",
          "2024-01-01T24:00", "2024-01-01T12:60", "2024-01-01 12:30", "1969-01-01T12:30",
          "2024-01-0:T12:30", "abcd-ef-ghTij:kl", "2024-01-01T12:3", ""}) {
        CAPTURE(text);
        CHECK_FALSE(time_ms(text, TimeForm::local_minutes));
    }
}

TEST_CASE("times of the log come back as they are written", "[link]") {
    Json log = Json::array();
    for (const Json& at :
         {Json("2026-11-25T14:30"), Json("2026-11-25T14:31:05.123Z"), Json("2026-11-25T14:31:05Z"),
          Json("2026-11-25T14:31:06"), Json("9999-12-31T23:59:59.999Z"), Json("1970-01-01T00:00"),
          Json("25 November, after tea"), Json("2026-02-30T14:30"), Json(""), Json(0), Json(1e15),
          Json(1764080000), Json(1764080000.25), Json(1764080000123), Json(0.1)}) {
        log.push_back({{"block", "moved"}, {"at", at}});
    }
    const Document document = right_document(with(full(), "/log", log).dump());
    const ReadDocument read = document_of_link(link_text(document));
    REQUIRE(said(read.violations) == Said{});
    CHECK(document_json(read.document)["log"].dump() == document_json(document)["log"].dump());
    CHECK(link_text(read.document) == link_text(document));
}

TEST_CASE("whole numbers of any size, in any width, and both signs", "[link][property]") {
    std::mt19937_64 random(4);
    LinkBits sink;
    std::vector<std::pair<std::uint64_t, int>> written;
    for (int size = 0; size < 60; ++size) {
        for (int width = 1; width <= 41; width += 5) {
            const std::uint64_t number = random() >> 4 >> (59 - size);
            written.emplace_back(number, width);
            CHECK(sink.whole(number, width) == number);
            CHECK(sink.either_sign(-static_cast<std::int64_t>(number / 4), width) ==
                  -static_cast<std::int64_t>(number / 4));
        }
    }
    REQUIRE(sink.good());
    LinkBits source(sink.bytes());
    for (const auto& [number, width] : written) {
        CHECK(source.whole(0, width) == number);
        CHECK(source.either_sign(0, width) == -static_cast<std::int64_t>(number / 4));
    }
    CHECK(source.good());
    CHECK(source.used_bytes() == sink.bytes().size());
    // Beyond the end there is nothing, for ever.
    CHECK(source.bits(0, 64) == 0);
    CHECK_FALSE(source.good());
    CHECK(source.whole(0, 4) == 0);
}

TEST_CASE("a number without end ends", "[link]") {
    LinkBits source(std::string(100, '\xFF'));
    CHECK(source.whole(0, 4) == 0);
    CHECK_FALSE(source.good());
}

}  // namespace seal_test
