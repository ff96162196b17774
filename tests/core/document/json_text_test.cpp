// tests/core/document/json_text_test.cpp -- any bytes at all: a tree, or a violation, never a
// throw.
#include "core/document/json_text.hpp"

#include <catch2/catch.hpp>
#include <random>
#include <string>

#include "core/document/limits.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;

namespace json_text_test {  // its own where tests are compiled together

namespace {

samples::Said said(const std::string& text) { return samples::said(parse_json(text).violations); }

std::string nested(std::size_t depth) { return std::string(depth, '[') + std::string(depth, ']'); }

}  // namespace

TEST_CASE("what is no JSON is said to be none, with the place", "[property]") {
    const samples::Said none = {"not_json "};
    for (const char* text : {"", " ", "{", "nonsense", "{\"a\":1,}", "{'a':1}", "[1 2]", "{} {}",
                             "{\"a\":NaN}", "{\"a\":01}", "\"unended", "{\"a\":\"\\ud800\"}"}) {
        CAPTURE(text);
        CHECK(said(text) == none);
    }
    CHECK(parse_json("{\"a\": x}").violations.at(0).value == 7);
    CHECK(said("{\"a\":\"\xff\"}") == none);             // no UTF-8
    CHECK(said("{\"a\":\"\xc3\"}") == none);             // cut off
    CHECK(said("{\"a\":\"\xed\xa0\x80\"}") == none);     // a surrogate
    CHECK(said(std::string("{\"a\":1}\0", 8)) == none);  // 2026-11-25: read as the end
    CHECK(said(std::string("{}\0{", 4)) == none);
    CHECK(said("{\"a\":\"\xe2\x99\xad\"}").empty());
    CHECK(said("\xef\xbb\xbf{}").empty());  // a byte order mark, as some editors write
}

TEST_CASE("a number beyond the range of a double is refused where it stands", "[property]") {
    CHECK(said("{\"a\":[1,1e999]}") == samples::Said{"not_finite a[1]"});
    CHECK(said("{\"a\":[1,-1e999]}") == samples::Said{"not_finite a[1]"});
    CHECK(said("{\"a\":[1,1e308]}").empty());
}

TEST_CASE("a key twice would lose one of the two", "[property]") {
    CHECK(said("{\"a\":1,\"b\":{\"c\":1,\"c\":2}}") == samples::Said{"overlap b.c"});
    CHECK(said("{\"a\":[{\"c\":1},{\"c\":2}]}").empty());
    CHECK(said("{\"a\":[{},{\"c\":1,\"d\":0,\"c\":1}]}") == samples::Said{"overlap a[1].c"});
}

TEST_CASE("depth, members and size are bounded, on both sides", "[property]") {
    CHECK(said(nested(limit::kDepth)).empty());
    CHECK(said(nested(limit::kDepth + 1)).at(0).substr(0, 9) == "too_large");
    CHECK(said(std::string(200000, '[')).at(0).substr(0, 9) == "too_large");

    const auto members = [](std::size_t count) {
        std::string text = "{\"x\":{";
        for (std::size_t i = 0; i < count; ++i) {
            text += (i ? ",\"" : "\"") + std::to_string(i) + "\":0";
        }
        return text + "}}";
    };
    CHECK(said(members(kMostMembers)).empty());
    CHECK(said(members(kMostMembers + 1)) == samples::Said{"too_large x"});

    const std::string most(limit::kDocument_bytes - 2, ' ');
    CHECK(said("{}" + most).empty());
    CHECK(said("{}" + most + " ") == samples::Said{"too_long "});
}

TEST_CASE("a path says where, and stays short", "[property]") {
    const std::string key(500, 'k');
    const auto found = said("{\"" + key + "\":{\"a\":1,\"a\":2}}");
    REQUIRE(found.size() == 1);
    CHECK(found[0].size() < 100);
    CHECK(shortened("\xe2\x99\xad") == "\xe2\x99\xad");
    // 59 bytes and a flat sign of three: cut before the sign, not within.
    CHECK(shortened(std::string(59, 'a') + "\xe2\x99\xad") == std::string(59, 'a') + "\u2026");
}

TEST_CASE("random damage to a document never gets past as an exception", "[property]") {
    std::mt19937 random(20261125);
    for (int trip = 0; trip < 3000; ++trip) {
        std::string text = samples::kFull;
        const int edits = 1 + static_cast<int>(random() % 4);
        for (int edit = 0; edit < edits; ++edit) {
            const std::size_t at = random() % text.size();
            switch (random() % 3) {
                case 0:
                    text[at] = static_cast<char>(random() % 256);
                    break;
                case 1:
                    text.erase(at, random() % 20);
                    break;
                default:
                    text.insert(at, 1, "{}[]\",:0-.e"[random() % 11]);
                    break;
            }
        }
        const ReadDocument read = read_document(text);
        for (const Violation& each : read.violations) CHECK(each.path.size() < 400);
    }
}

}  // namespace json_text_test
