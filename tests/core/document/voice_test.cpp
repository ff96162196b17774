// tests/core/document/voice_test.cpp -- sound hole and block: measured, seen, or not known.
#include <catch2/catch.hpp>

#include "core/document/write.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;
using samples::full;
using samples::said;
using samples::Said;
using samples::with;
using samples::without;

TEST_CASE("what was not measured may be seen, in a word of its own", "[property]") {
    const Json base = without(full(), "/sound_hole/ramp_mm");
    const auto comes_back = [](const Json& json) {
        REQUIRE(said(json) == Said{});
        CHECK(document_json(samples::read(json).document) == json);
    };
    for (const char* const word : {"none", "short", "long"}) {
        Json json = base;
        json["sound_hole"].erase("edge_mm");
        json["sound_hole"]["ramp"] = word;
        json["sound_hole"]["edge_mm"] = 0.8;  // behind it, as it is written
        comes_back(json);
    }
    for (const char* const word : {"none", "low", "high"}) {
        comes_back(with(full(), "/block/side_walls", word));
    }
    const auto read = [](const Json& json) { return samples::read(json).document; };
    CHECK(read(with(base, "/sound_hole/ramp", "long")).sound_hole->ramp_seen == Seen::much);
    CHECK(read(with(full(), "/block/side_walls", "low")).block->side_walls->seen == Seen::little);
    // measured and seen
    CHECK(said(with(full(), "/sound_hole/ramp", "none")) == Said{"overlap sound_hole.ramp"});
    CHECK(said(with(full(), "/log/11/breath/pa", 400)) == Said{"overlap log[11].breath.pa"});
}

TEST_CASE("no block, one that is not measured and an unknown one are three things") {
    CHECK(document_json(samples::read(with(full(), "/block", "none")).document)["block"] == "none");
    CHECK(samples::read(with(full(), "/block", "none")).document.block->none);
    const Document there = samples::read(with(full(), "/block", Json::object())).document;
    REQUIRE(there.block);
    CHECK_FALSE(there.block->none);
    CHECK(document_json(there)["block"] == Json::object());
    CHECK_FALSE(samples::read(without(full(), "/block")).document.block);
    // a ramp of no length is a measured one
    const Document steep = samples::read(with(full(), "/sound_hole/ramp_mm", 0)).document;
    CHECK(steep.sound_hole->ramp_m == 0.0);
    CHECK_FALSE(samples::read(without(full(), "/sound_hole/ramp_mm")).document.sound_hole->ramp_m);
}
