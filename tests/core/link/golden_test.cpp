// tests/core/link/golden_test.cpp -- links of every released version, kept for ever.
#include <catch2/catch.hpp>

#include "tests/core/link/samples.hpp"
#include "tests/support/table.hpp"

using namespace canewright;
using namespace canewright::samples;

// A link that was shared once must say the same for ever. Where a test here fails, the code is
// wrong, never the file: a changed order, width or table needs a new version of the link.
// Reference  tests/data/links: what the release of that version made of the document beside it.
TEST_CASE("links of all versions still say what they said", "[link]") {
    const auto rows = testing::table("links/links.csv");
    CHECK(rows.size() >= 10);
    for (const testing::Row& row : rows) {
        const std::string file = row.text("file");
        CAPTURE(file);
        const ReadDocument read = document_of_link(text_of("links/" + file + ".link"));
        REQUIRE(said(read.violations) == Said{});
        const Json expected = Json::parse(text_of("links/" + file + ".json"));
        // As text: every key and every digit.
        CHECK(write_document(read.document) == json_text(expected));
    }
}

TEST_CASE("links of this version are made as they were", "[link]") {
    for (const testing::Row& row : testing::table("links/links.csv")) {
        if (row.number("version") != kLinkVersion) continue;
        const std::string file = row.text("file");
        CAPTURE(file);
        const Document document = right_document(text_of("links/" + file + ".json"));
        CHECK(link_text(document) + "\n" == text_of("links/" + file + ".link"));
    }
}
