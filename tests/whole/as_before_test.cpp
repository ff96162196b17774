// tests/whole/as_before_test.cpp: marks that makers have stay where they were, and what they cost.
//
// tests/data/layouts/by_differences.json is no reference: it keeps what `layout` answers where its
// slopes are difference quotients, so that another way to the same answer is seen to be one.
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "core/api.hpp"
#include "core/document/read.hpp"
#include "core/layout/gauss_newton.hpp"
#include "core/layout/place_holes.hpp"
#include "core/task/task.hpp"

using namespace canewright;

namespace {

using Json = nlohmann::ordered_json;

std::string whole(const std::string& file) {
    std::ifstream in(std::string(CANEWRIGHT_TEST_DATA) + "/" + file);
    return std::string{std::istreambuf_iterator<char>(in), {}};
}

long evaluations(const std::string& file) {
    const ReadDocument read = read_document(whole(file));
    REQUIRE(read.violations.empty());
    const LayoutResult found = place_holes(layout_task(read.document), bore_air(read.document));
    CHECK(found.converged);
    return found.evaluations;
}

}  // namespace

TEST_CASE("exact slopes lead to the marks that difference quotients led to", "[whole][layout]") {
    constexpr double kSame_mm = 1e-6;
    // Between limits it is the walk's own error, of a bore of 18.4 mm. Both ways of taking slopes,
    // walked on until steps are shorter than 1e-7 of a bore, came to places 2e-6 mm apart and 7e-5
    // mm from what is kept here.
    constexpr double kPulled_mm = kWalkError * 18.4;
    const Json all = Json::parse(whole("layouts/by_differences.json"));
    REQUIRE(all.size() == 4);
    for (const Json& before : all) {
        const std::string file = before["document"];
        const double same_mm = file == "documents/six_holes.json" ? kPulled_mm : kSame_mm;
        CAPTURE(file);
        const Json json = Json::parse(run_workshop("layout", whole(file)));
        REQUIRE(json.contains("answer"));
        const Json& answer = json["answer"];
        const auto moved_mm = [](const Json& a, const Json& b) {
            return std::abs(a.get<double>() - b.get<double>());
        };
        CHECK(moved_mm(answer["foot_mm"], before["foot_mm"]) < same_mm);
        REQUIRE(answer["finger_holes"].size() == before["at_mm"].size());
        for (std::size_t i = 0; i < before["at_mm"].size(); ++i) {
            CAPTURE(i);
            const Json& hole = answer["finger_holes"][i];
            CHECK(moved_mm(hole["at_mm"], before["at_mm"][i]) < same_mm);
            CHECK(moved_mm(hole["diameter_mm"], before["diameter_mm"][i]) < same_mm);
        }
    }
}

// With difference quotients: 612, 2428 and 1396.
TEST_CASE("a layout costs a few hundred impedances", "[whole][layout]") {
    CHECK(evaluations("documents/build.json") < 200);      // five holes, nothing limits
    CHECK(evaluations("documents/six_holes.json") < 300);  // seven notes, each its own width apart
    CHECK(evaluations("documents/tube.json") < 250);       // five holes from the maker's bits
}
