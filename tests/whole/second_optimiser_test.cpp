// tests/whole/second_optimiser_test.cpp: layouts against a general library's least squares.
//
// Source     tests/data/layouts/second_optimiser.json, made by tools/reference/second_optimiser.py:
//            scipy.optimize's least_squares (trust region reflective) and SLSQP on the verb
//            `sound`. To be made anew whenever the acoustic model changes.
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "core/api.hpp"
#include "tests/support/figures.hpp"

namespace {

using Json = nlohmann::ordered_json;

// Least squares came to rest within 1e-6 cent; SLSQP within 0.01 cent, up to 0.003 mm away.
constexpr double kLeastSquares_mm = 0.001;
const double kSlsqp_mm = canewright::testing::figure("optimiser_most_mm").value;

Json recorded() {
    std::ifstream in(std::string(CANEWRIGHT_TEST_DATA) + "/layouts/second_optimiser.json");
    return Json::parse(std::string{std::istreambuf_iterator<char>(in), {}});
}

// Sizes held, places free. The starts matter to neither and are unlike the script's.
Json layout_of(const Json& task) {
    Json document = task["document"];
    document["finger_holes"] = Json::array();
    const double end_mm = document["tube"]["end_mm"].get<double>();
    const std::size_t holes = task["sizes_mm"].size();
    for (std::size_t i = 0; i < holes; ++i)
        document["finger_holes"].push_back(
            {{"at_mm", end_mm * (0.4 + 0.1 * static_cast<double>(i))},
             {"diameter_mm", task["sizes_mm"][i]},
             {"fixed", {"diameter"}}});
    const Json json = Json::parse(canewright::run("layout", document.dump()));
    CAPTURE(json.dump());
    REQUIRE(json.contains("answer"));
    return json["answer"];
}

void compare(const Json& ours, const Json& theirs, double within_mm) {
    REQUIRE(ours["finger_holes"].size() == theirs["at_mm"].size());
    for (std::size_t i = 0; i < theirs["at_mm"].size(); ++i)
        CHECK_THAT(ours["finger_holes"][i]["at_mm"].get<double>(),
                   Catch::WithinAbs(theirs["at_mm"][i].get<double>(), within_mm));
    CHECK_THAT(ours["foot_mm"].get<double>(),
               Catch::WithinAbs(theirs["foot_mm"].get<double>(), within_mm));
}

}  // namespace

TEST_CASE("layouts are those of a second optimiser", "[whole][derived]") {
    const Json tasks = recorded()["tasks"];
    REQUIRE(tasks.size() == 3);
    for (const auto& [name, task] : tasks.items()) {
        CAPTURE(name);
        const Json ours = layout_of(task);
        CHECK(ours["converged"] == true);
        CHECK(ours["worst_cents"] < 0.1);
        compare(ours, task["least_squares"], kLeastSquares_mm);
        compare(ours, task["slsqp"], kSlsqp_mm);
    }
}
