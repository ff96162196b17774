// tests/core/verbs/voice_as_cut_test.cpp -- what the parts of a voice do to the lowest note.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/document/read.hpp"
#include "core/flute/resonance.hpp"
#include "core/task/task.hpp"
#include "core/task/voice.hpp"
#include "tests/core/verbs/voice_flutes.hpp"

using namespace canewright;
using canewright::testing::asked;
using canewright::testing::large_flute;
using canewright::testing::small_flute;
using Catch::WithinAbs;
using Catch::WithinRel;
using samples::with;
using samples::without;

namespace {

double lowest_Hz(const Json& flute) { return asked("sound", flute)["notes"][0]["hz"]; }

Json::json_pointer pointer(std::string path) {
    for (char& each : path)
        if (each == '.') each = '/';
    return Json::json_pointer("/" + path);
}

Json part(const Json& answer, const std::string& path) {
    for (const Json& each : answer["as_cut"]["parts"])
        if (each["path"] == path) return each;
    FAIL("no part " + path);
    return {};
}

}  // namespace

// Reference  `sound` of the document without ramp and block.
TEST_CASE("what the voice does to the lowest note is the difference to a bare opening",
          "[voice][property]") {
    for (const Json& flute : {small_flute(), large_flute()}) {
        Json bare = flute;
        bare["sound_hole"]["ramp_mm"] = 0;
        bare["block"] = "none";
        CHECK_THAT(asked("voice", flute)["as_cut"]["lowest_cents"].get<double>(),
                   WithinAbs(cents_between(lowest_Hz(flute), lowest_Hz(bare)), 1e-6));
    }
    CHECK(std::abs(asked("voice", small_flute())["as_cut"]["lowest_cents"].get<double>()) > 5.0);
}

// Reference  `sound` of documents in which the part was measured 0.05 mm greater and smaller.
// Tolerance  2 %: the quotients differ in step, and by the 6th digit nothing is rounded.
TEST_CASE("a millimetre of each part moves the lowest note as in a changed document",
          "[voice][property]") {
    const Json flute = small_flute();
    const Json answer = asked("voice", flute);
    REQUIRE(answer["as_cut"]["parts"].size() == 11);
    for (const Json& each : answer["as_cut"]["parts"]) {
        const std::string path = each["path"];
        CAPTURE(path);
        CHECK(each["known"] == "measured");
        const Json::json_pointer at = pointer(path);
        CHECK(each["mm"] == flute[at]);
        Json more = flute, less = flute;
        more[at] = flute[at].get<double>() + 0.05;
        less[at] = flute[at].get<double>() - 0.05;
        const double per_mm = cents_between(lowest_Hz(more), lowest_Hz(less)) / 0.1;
        CHECK_THAT(each["cents_per_mm"].get<double>(), WithinRel(per_mm, 0.02));
    }
}

TEST_CASE("the block's front, a millimetre back and a millimetre over", "[voice][property]") {
    const Json front = part(asked("voice", small_flute()), "block.front_mm");
    const double now_Hz = lowest_Hz(small_flute());
    CHECK_THAT(
        front["back_1_mm_cents"].get<double>(),
        WithinAbs(cents_between(lowest_Hz(with(small_flute(), "/block/front_mm", 1)), now_Hz),
                  1e-6));
    CHECK_THAT(
        front["over_1_mm_cents"].get<double>(),
        WithinAbs(cents_between(lowest_Hz(with(small_flute(), "/block/front_mm", -1)), now_Hz),
                  1e-6));
    CHECK(front["back_1_mm_cents"] > 0);
    CHECK(front["over_1_mm_cents"] < 0);
    // of a short sound hole a millimetre more would close it
    Json shut = with(small_flute(), "/sound_hole/length_mm", 2);
    shut["block"]["front_mm"] = -1.2;
    const Json closing = part(asked("voice", shut), "block.front_mm");
    CHECK(closing["over_1_mm_cents"].is_null());
    CHECK(closing["why"] == "closes_the_opening");
    CHECK(closing["back_1_mm_cents"].is_number());
}

TEST_CASE("every part says whether it was measured, seen or taken", "[voice]") {
    const Json taken = asked("voice", large_flute());
    for (const Json& each : taken["as_cut"]["parts"]) {
        const std::string path = each["path"];
        const bool measured = path == "sound_hole.length_mm" || path == "sound_hole.width_mm";
        CHECK(each["known"] == (measured ? "measured" : "taken"));
        CHECK(each["cents_per_mm"].is_number());
    }
    Json seen = large_flute();
    seen["sound_hole"]["ramp"] = "long";
    seen["block"] = {{"height_mm", 7}, {"side_walls", "low"}};
    const Json answer = asked("voice", seen);
    CHECK(part(answer, "sound_hole.ramp_mm")["known"] == "seen");
    CHECK(part(answer, "sound_hole.ramp_mm")["mm"] == kLongRamp * 5);
    CHECK(part(answer, "block.height_mm")["known"] == "measured");
    CHECK(part(answer, "block.width_mm")["known"] == "taken");
    CHECK(part(answer, "block.side_walls.height_mm")["known"] == "seen");
}

TEST_CASE("a part that is not there has no millimetre, and says so", "[voice]") {
    Json none = large_flute();
    none["sound_hole"]["ramp"] = "none";
    none["block"] = "none";
    const Json answer = asked("voice", none);
    for (const char* path :
         {"block.height_mm", "block.width_mm", "block.front_mm", "block.side_walls.height_mm"}) {
        CHECK(part(answer, path)["cents_per_mm"].is_null());
        CHECK(part(answer, path)["why"] == "no_block");
        CHECK(part(answer, path)["known"] == "measured");
    }
    CHECK(part(answer, "block.side_walls.length_mm")["why"] == "no_side_walls");
    CHECK(part(answer, "sound_hole.edge_mm")["why"] == "no_ramp");
    CHECK(part(answer, "sound_hole.ramp_mm")["cents_per_mm"].is_number());
    CHECK(answer["as_cut"]["lowest_cents"] == 0);
}

// Reference  the inertance factor of the flute's sound hole, put off by one standard deviation.
TEST_CASE("what is not known of the voice, in cents of the lowest note", "[voice][property]") {
    const Json unknown = asked("voice", large_flute()), known = asked("voice", small_flute());
    const ReadDocument read = samples::read(large_flute());
    Flute more = flute_of(read.document), less = more;
    const double sigma = voice_sigma(voice_said(read.document), more);
    more.sound_hole.inertance_factor = 1.0 + sigma;
    less.sound_hole.inertance_factor = 1.0 - sigma;
    const Air air = bore_air(read.document);
    const double cents = cents_between(resonance(less, air, {}, 1).frequency_Hz,
                                       resonance(more, air, {}, 1).frequency_Hz);
    CHECK_THAT(unknown["as_cut"]["sigma_cents"].get<double>(), WithinAbs(0.5 * cents, 1e-6));
    // what was measured is known better
    CHECK(known["as_cut"]["sigma_cents"] < 0.5 * unknown["as_cut"]["sigma_cents"].get<double>());
}
