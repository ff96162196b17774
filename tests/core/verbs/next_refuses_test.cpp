// tests/core/verbs/next_refuses_test.cpp -- logs without what they are about.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "core/api.hpp"

using namespace canewright;

namespace next_refuses_test {  // its own where tests are compiled together

// It crashed: the plan from before the hole was sought on a tube that was not there.
TEST_CASE("a hole cut in no tube is refused, with what is missing", "[next][told]") {
    for (const char* verb : {"next", "layout", "sound", "pattern", "voice", "spread"}) {
        CAPTURE(verb);
        const auto json = nlohmann::json::parse(run_workshop(
            verb, R"({"format":"canewright/1","log":[{"hole":{"number":1,"at_mm":100}}]})"));
        REQUIRE(json.contains("violations"));
        CHECK(json["violations"][0]["path"].get<std::string>().substr(0, 4) != "log[");
    }
}

}  // namespace next_refuses_test
