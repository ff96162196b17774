// tests/support/bare_tubes.hpp: tubes with nothing on them, and what the workshop says of them.
#pragma once

#include <catch2/catch.hpp>

#include "core/api.hpp"
#include "core/document/json_text.hpp"

namespace canewright::testing {

// The answer; that there is one is checked.
inline Json asked_of(const char* verb, const Json& document) {
    const Json reply = Json::parse(run_workshop(verb, document.dump()));
    REQUIRE(reply.contains("answer"));
    return reply["answer"];
}

// Straight, with a sound hole in proportion.
inline Json tube(double bore_mm, double wall_mm, double end_mm) {
    return {{"format", "canewright/1"},
            {"tube",
             {{"bore", {{{"at_mm", 0}, {"diameter_mm", bore_mm}}}},
              {"wall_mm", wall_mm},
              {"end_mm", end_mm}}},
            {"sound_hole", {{"length_mm", 0.3 * bore_mm}, {"width_mm", 0.5 * bore_mm}}},
            {"shop", {{"spacing_mm", {{"min", 16}, {"max", 38}}}}}};
}

// With a choice of `suits` for its song.
inline Json taken(const Json& document, const Json& choice) {
    Json with = document;
    with["song"] = {
        {"lowest", choice["lowest"]}, {"scale", choice["scale"]}, {"holes", choice["holes"]}};
    return with;
}

}  // namespace canewright::testing
