// tests/core/base/violation_test.cpp -- names and shapes of violations.
#include "core/base/violation.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

using namespace canewright;

TEST_CASE("every code has a name of its own in snake_case", "[violation][property]") {
    std::set<std::string> names;
    for (const Code code : all_codes()) {
        const std::string text = name(code);
        CAPTURE(text);
        CHECK_FALSE(text.empty());
        CHECK(std::all_of(text.begin(), text.end(),
                          [](char c) { return (c >= 'a' && c <= 'z') || c == '_'; }));
        CHECK(names.insert(text).second);
    }
    // The list is complete: the last enumerator is its last entry, and the values count up.
    CHECK(static_cast<std::size_t>(Code::link_too_long) + 1 == all_codes().size());
}

// The document's own example of an answer: {"code":"too_small", "path":"tube.wall_mm", "value":-1,
// "limit":0.3}. Names are part of the format: a changed one breaks the page's texts.
TEST_CASE("the shapes of a violation", "[violation]") {
    const Violation number = violation(Code::too_small, "tube.wall_mm", -1.0, 0.3);
    CHECK(std::string(name(number.code)) == "too_small");
    CHECK(number.path == "tube.wall_mm");
    CHECK(number.value == -1.0);
    CHECK(number.limit == 0.3);
    CHECK(number.given.empty());

    const Violation bare = violation(Code::missing, "tube");
    CHECK(std::isnan(bare.value));
    CHECK(std::isnan(bare.limit));

    const Violation text = violation_of_text(Code::not_a_note, "song.lowest", "H4");
    CHECK(std::isnan(text.value));
    CHECK(text.given == "H4");
}
