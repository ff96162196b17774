// tests/core/document/check_test.cpp -- violations between values, on both sides of each limit.
//
// Expected limits are worked out by hand from the sample: bore 18.4 x 18.1 at 0 and 17.9 at 410 mm,
// so that the wider diameter at z mm is 18.4 - 0.5 z / 410.
#include <catch2/catch.hpp>

#include "tests/core/document/samples.hpp"

using namespace canewright;
using samples::full;
using samples::said;
using samples::Said;
using samples::with;
using samples::without;

namespace {

// The single violation of a document, or a failed test.
Violation only(const Json& json) {
    const auto found = samples::read(json).violations;
    REQUIRE(found.size() == 1);
    return found[0];
}

// `at` is let pass; `over` gives one violation with this code, path and limit.
void check(const char* pointer, double at, double over, const std::string& said_as, double limit,
           const Json& base = full()) {
    CAPTURE(pointer);
    CHECK(said(with(base, pointer, at)).empty());
    const Violation found = only(with(base, pointer, over));
    CHECK(std::string(name(found.code)) + " " + found.path == said_as);
    CHECK(found.value == over);
    CHECK_THAT(found.limit, Catch::WithinAbs(limit, 1e-9));
}

Json no_log() { return without(full(), "/log"); }

}  // namespace

TEST_CASE("bore stations rise") {
    check("/tube/bore/1/at_mm", 1e-6, 0, "out_of_order tube.bore[1].at_mm", 0,
          without(without(no_log(), "/tube/ridge"), "/foot_plug"));
}

TEST_CASE("the outside leaves a wall") {
    const Json outer = without(full(), "/tube/wall_mm");
    check("/tube/outer_mm", 19.0, 18.99, "too_small tube.outer_mm", 19.0, outer);
}

TEST_CASE("wall and outside may be given together where they agree") {
    // 17.9 + 2 x 3.1 = 24.1 to 18.4 + 2 x 3.1 = 24.6, and 0.1 mm of wall on either side of them.
    check("/tube/outer_mm", 24.8, 24.81, "overlap tube.outer_mm", 24.6);
    check("/tube/outer_mm", 23.9, 23.89, "overlap tube.outer_mm", 24.1);
}

TEST_CASE("a ridge is narrower than the bore and within the tube") {
    const Json plain = without(full(), "/tube/bore/0/across_mm");
    check("/tube/ridge/opening_mm", 18.2, 18.3, "too_large tube.ridge.opening_mm",
          18.4 - 0.5 * 120 / 410, plain);
    check("/tube/ridge/at_mm", 430, 430.5, "too_large tube.ridge.at_mm", 430);
}

TEST_CASE("the sound hole is not wider than the bore, nor longer than the tube") {
    check("/sound_hole/width_mm", 18.39, 18.4, "too_large sound_hole.width_mm",
          18.4 - 0.5 * 2.65 / 410);
    check("/log/7/sound_hole/width_mm", 18.39, 18.4, "too_large log[7].sound_hole.width_mm",
          18.4 - 0.5 * 2.8 / 410);
    const Json stub = Json::parse(R"({"format":"canewright/1","tube":{"end_mm":20},
                                     "sound_hole":{"length_mm":19.9,"width_mm":9}})");
    CHECK(said(with(stub, "/sound_hole/length_mm", 19.25)).empty());
    CHECK(said(stub) == Said{"too_small tube.end_mm"});
}

TEST_CASE("finger holes rise, keep apart and leave the tube's sides") {
    const Json free = without(no_log(), "/finger_holes/0/inner_diameter_mm");
    check("/finger_holes/1/at_mm", 195.25, 195.24, "overlap finger_holes[1].at_mm", 195.25, free);
    check("/finger_holes/0/at_mm", 9.05, 9.04, "overlap finger_holes[0].at_mm", 9.05, free);
    CHECK(said(with(free, "/finger_holes/1/at_mm", 187.5)) ==
          Said{"out_of_order finger_holes[1].at_mm"});
    const double widest = 0.95 * (18.4 - 0.5 * 307.5 / 410);
    check("/finger_holes/4/diameter_mm", 17.1, 17.2, "too_large finger_holes[4].diameter_mm",
          widest, free);
    check("/finger_holes/4/inner_diameter_mm", 17.1, 17.2,
          "too_large finger_holes[4].inner_diameter_mm", widest, free);
}

TEST_CASE("the splitting edge is no higher than the wall that it is cut into") {
    check("/sound_hole/edge_mm", 2.7, 2.71, "too_large sound_hole.edge_mm", 2.7);
    const Json tubes = without(full(), "/sound_hole/wall_mm");
    check("/sound_hole/edge_mm", 3.1, 3.11, "too_large sound_hole.edge_mm", 3.1, tubes);
    // From the outside: 24 mm less the wider diameter in the middle, at 215 mm, halved.
    const Json outer = with(without(tubes, "/tube/wall_mm"), "/tube/outer_mm", 24);
    const double wall = 0.5 * (24 - (18.4 - 0.5 * 215 / 410));
    check("/sound_hole/edge_mm", 2.93, 2.94, "too_large sound_hole.edge_mm", wall, outer);
    const Json unknown = without(tubes, "/tube/wall_mm");
    CHECK(said(with(unknown, "/sound_hole/edge_mm", 20)).empty());
}

TEST_CASE("a block overhangs the opening but does not close it") {
    const Json slit = with(full(), "/sound_hole/length_mm", 2.5);
    check("/block/front_mm", -2.49, -2.5, "too_small block.front_mm", -2.5, slit);
    // one that was opened, too
    check("/log/7/sound_hole/length_mm", 2.51, 2.5, "too_small log[7].sound_hole.length_mm", 2.5,
          with(full(), "/block/front_mm", -2.5));
}

TEST_CASE("the foot lies between the last hole and the tube's end") {
    const Json plain = without(no_log(), "/foot_plug");
    check("/foot_mm", 430, 430.1, "too_large foot_mm", 430, plain);
    check("/foot_mm", 312, 311.9, "too_small foot_mm", 312, plain);
    const Json holeless =
        with(with(plain, "/finger_holes", Json::array()), "/notes", Json::array());
    const Json stub = with(with(holeless, "/foot_mm", 39), "/sound_hole/length_mm", 39);
    CHECK(said(stub).empty());
    CHECK(said(with(stub, "/sound_hole/length_mm", 40)) == Said{"too_small foot_mm"});
}

TEST_CASE("a foot plug reaches in no further than to the last hole") {
    // the last hole's lower edge is at 312 (the case before); the foot at 396.7
    check("/foot_plug/thickness_mm", 84.7, 84.71, "too_large foot_plug.thickness_mm", 84.7,
          without(full(), "/log"));
    // without a foot, where the last hole stays: to the tube's end
    const Json footless = with(without(without(full(), "/log"), "/foot_mm"), "/tube/end_mm", 400);
    const std::string last = "/finger_holes/" + std::to_string(footless["finger_holes"].size() - 1);
    check("/foot_plug/thickness_mm", 88, 88.01, "too_large foot_plug.thickness_mm", 88,
          with(footless, last + "/fixed", Json::array({"at"})));
    // a disc that took its place is the one that counts
    check("/log/8/foot_plug/thickness_mm", 20, 84.71, "too_large log[8].foot_plug.thickness_mm",
          84.7);
}

TEST_CASE("the foot plug's opening fits the bore") {
    // the widest that lies above the tube's end: a layout may place the foot there
    check("/foot_plug/opening_mm", 18.4, 18.41, "too_large foot_plug.opening_mm", 18.4);
    check("/log/8/foot_plug/opening_mm", 17.9, 17.91, "too_large log[8].foot_plug.opening_mm",
          17.9);  // at the tube's end, beyond the last station
}

TEST_CASE("open holes exist and are named once") {
    check("/notes/1/open/0", 1, 0, "bad_hole_number notes[1].open[0]", 5);
    check("/notes/1/open/0", 5, 6, "bad_hole_number notes[1].open[0]", 5);
    check("/song/fingerings/1/0", 5, 6, "bad_hole_number song.fingerings[1][0]", 5);
    check("/notes/2/open/1", 2, 3, "overlap notes[2].open[1]", 3);
    CHECK(said(with(full(), "/song/fingerings/1", {4, 4})) ==
          Said{"overlap song.fingerings[1][1]"});
}

TEST_CASE("the song's scale and fingerings go together") {
    CHECK(said(with(full(), "/song/fingerings", {Json::array(), {5}})) ==
          Said{"missing_fingering song.fingerings"});
    CHECK(said(with(full(), "/song/scale/cents/2", 300)) ==
          Said{"out_of_order song.scale.cents[2]"});
    CHECK(said(with(full(), "/song/scale/cents/0", 10)) == Said{"too_large song.scale.cents[0]"});
    const Json own = without(full(), "/song/fingerings");
    CHECK(said(with(own, "/song/scale/cents", {0, 200, 300, 500, 700, 1200})).empty());
    CHECK(said(with(own, "/song/scale/cents", {0, 200, 300, 500, 700, 900, 1200})) ==
          Said{"missing_fingering song.scale"});
}

TEST_CASE("a lowest note by name has the bounds of one in hertz") {
    // E1 is 41.2 Hz, E flat 1 38.9 Hz; D8 is 4699 Hz, E flat 8 4978 Hz, E8 5274 Hz (A4 = 440 Hz).
    const auto lowest = [](const char* note) {
        return said(with(with(full(), "/song/a4_hz", 440), "/song/lowest", note));
    };
    CHECK(lowest("E1").empty());
    CHECK(lowest("Eb1") == Said{"too_small song.lowest"});
    CHECK(lowest("Eb8").empty());
    CHECK(lowest("E8") == Said{"too_large song.lowest"});
}

TEST_CASE("the highest note asked for has a bound too") {
    // An octave below 10000 Hz is 5000 Hz, which is allowed; 1900 cents below is 3337.0 Hz.
    const Json wide = with(with(full(), "/song/fingerings", {Json::array(), {5}}),
                           "/song/scale/cents", {0, 1900});
    CHECK(said(with(wide, "/song/lowest", {{"hz", 3337}})).empty());
    CHECK(said(with(wide, "/song/lowest", {{"hz", 3338}})) == Said{"too_large song.lowest"});
}

TEST_CASE("so has the highest note of a scale that goes on past its last step") {
    // Five holes play 0, 300, 1200, 1500, 2400 and 2700 cents; 2700 below 10000 Hz is 2102.24 Hz.
    const Json on = with(without(full(), "/song/fingerings"), "/song/scale/cents", {0, 300});
    CHECK(said(with(on, "/song/lowest", {{"hz", 2102}})).empty());
    CHECK(said(with(on, "/song/lowest", {{"hz", 2103}})) == Said{"too_large song.lowest"});
}

TEST_CASE("what layout presses against a limit is not beyond it by rounding") {
    // 2026-11-25: a foot at the tube's end came back 2e-11 mm beyond it.
    const Json plain = without(without(full(), "/log"), "/foot_plug");
    CHECK(said(with(plain, "/foot_mm", 430.00000000005)).empty());
    CHECK(said(with(plain, "/foot_mm", 430.000001)) == Said{"too_large foot_mm"});
}

TEST_CASE("the shop's ranges, hands and bits can be met") {
    check("/shop/diameter_mm/max", 3.2, 3.0, "too_small shop.diameter_mm.max", 3.1,
          without(full(), "/shop/bits"));
    check("/shop/spacing_mm/max", 18, 17.9, "too_small shop.spacing_mm.max", 18);
    CHECK(said(with(full(), "/shop/hands", {1, 4})).empty());
    CHECK(said(with(full(), "/shop/hands", {1, 3})) == Said{"too_small shop.hands"});
    CHECK(said(with(full(), "/shop/hands", {3, 3})) == Said{"too_large shop.hands"});
    check("/shop/bits/0/mm", 9.3, 9.4, "too_large shop.bits", 9.3,
          with(full(), "/shop/bits/1/mm", 12));
    check("/shop/bits/0/mm", 3.1, 3.0, "too_small shop.bits", 3.1,
          with(full(), "/shop/bits/1/mm", 2));
}
