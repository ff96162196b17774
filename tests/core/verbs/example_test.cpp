// tests/core/verbs/example_test.cpp -- the flute that the page opens with is a good one.
#include "core/verbs/example.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/document/write.hpp"
#include "core/task/task.hpp"
#include "core/verbs/answer.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;

TEST_CASE("the example is a document that layout and sound can use as it is") {
    const ReadDocument again = read_document(write_document(example()));
    CHECK(samples::said(again.violations) == samples::Said{});
    CHECK(write_document(again.document) == write_document(example()));
    REQUIRE(missing_for(Verb::layout, example()).empty());
    // A name that an empty document would not have: the example itself was read without violations.
    CHECK(example().name == "Willow bank, autumn thinning");
}

TEST_CASE("the example's layout solves with nothing binding and nothing to warn of", "[property]") {
    const Json answer = layout_answer(example());
    CHECK(answer["converged"] == true);
    CHECK(answer["binding"].empty());
    CHECK(answer["worst_cents"].get<double>() < 0.1);
    CHECK(answer["cane"]["warnings"].empty());
    CHECK(answer["cane"]["spare_mm"].get<double>() > 10);
    CHECK(answer["finger_holes"].size() == 5);
}
