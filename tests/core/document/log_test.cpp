// tests/core/document/log_test.cpp -- the log: what can have happened, and what it makes of the
// tube.
#include <catch2/catch.hpp>

#include "core/task/replay.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;
using samples::full;
using samples::said;
using samples::Said;
using samples::with;

namespace {

// As a list of entries and not as one Json: compilers disagree on whether {entry} is that entry or
// a list of it.
using Log = std::vector<Json>;

Json with_log(const Log& log) { return with(full(), "/log", Json(Json::array_t(log))); }

Standing standing(const Log& log) {
    const ReadDocument read = samples::read(with_log(log));
    REQUIRE(said(read.violations) == Said{});
    return replay(read.document);
}

Json hole(int number, double at_mm) { return {{"hole", {{"number", number}, {"at_mm", at_mm}}}}; }

}  // namespace

TEST_CASE("an entry says one thing") {
    CHECK(said(with_log({{{"bore", "sealed"}, {"block", "moved"}}})) == Said{"overlap log[0]"});
    CHECK(said(with_log({{{"room_c", 20}}})) == Said{"missing log[0]"});
    CHECK(said(with_log(Json::array())).empty());
}

TEST_CASE("only holes that are cut by then can be open, undercut or narrowed") {
    const Json read5 = {{"read", {{"open", {5}}, {"hz", 440}}}};
    const Json undercut5 = {{"undercut", {{"number", 5}}}};
    const Json narrow5 = {{"narrow", {{"number", 5}, {"diameter_mm", 5}}}};
    CHECK(said(with_log({hole(5, 307), read5, undercut5, narrow5})).empty());
    CHECK(said(with_log({read5, hole(5, 307)})) == Said{"bad_hole_number log[0].read.open[0]"});
    CHECK(said(with_log({hole(4, 277), undercut5})) ==
          Said{"bad_hole_number log[1].undercut.number"});
    CHECK(said(with_log({hole(4, 277), narrow5})) == Said{"bad_hole_number log[1].narrow.number"});
}

TEST_CASE("a blowing pressure was measured with holes that are cut, and changes no flute") {
    const Json blown = {{"breath", {{"open", {5}}, {"pa", 900}, {"what", "at pitch"}}}};
    CHECK(said(with_log({hole(5, 307), blown})).empty());
    CHECK(said(with_log({blown, hole(5, 307)})) == Said{"bad_hole_number log[0].breath.open[0]"});
    const Standing with_it = standing({hole(5, 307), blown});
    const Standing without_it = standing({hole(5, 307)});
    CHECK(with_it.is_cut == without_it.is_cut);
    CHECK(with_it.document.tube->end_m == without_it.document.tube->end_m);
    CHECK(with_it.document.log->at(1).blown_to == BlownTo::at_pitch);
}

TEST_CASE("a cut hole is one of the plan, in its place in the row, within the tube") {
    CHECK(said(with_log({hole(1, 180), hole(5, 307)})).empty());
    CHECK(said(with_log({hole(0, 180)})) == Said{"bad_hole_number log[0].hole.number"});
    CHECK(said(with_log({hole(6, 350)})) == Said{"bad_hole_number log[0].hole.number"});
    // 7 and 9 mm wide: nearer than 8 mm they are one hole
    CHECK(said(with_log({hole(4, 277), hole(5, 285.1)})).empty());
    CHECK(said(with_log({hole(4, 277), hole(5, 284.9)})) == Said{"overlap log[1].hole.at_mm"});
    CHECK(said(with_log({hole(5, 284.9), hole(4, 277)})) == Said{"overlap log[1].hole.at_mm"});
    CHECK(said(with_log({hole(4, 277), hole(5, 277)})) == Said{"out_of_order log[1].hole.at_mm"});
    CHECK(said(with_log({hole(5, 277), hole(4, 277)})) == Said{"out_of_order log[1].hole.at_mm"});
    // its edge too, as wide as it was planned or is said to be, and above the disc of 4 mm
    CHECK(said(with_log({hole(5, 421.4)})).empty());
    CHECK(said(with_log({hole(5, 421.6)})) == Said{"too_large log[0].hole.at_mm"});
    Json small = hole(5, 421.6);
    small["hole"]["diameter_mm"] = 8.7;
    CHECK(said(with_log({small})).empty());
    small["hole"]["at_mm"] = 421.7;
    CHECK(said(with_log({small})) == Said{"too_large log[0].hole.at_mm"});
    const Json foot = {{"foot", {{"at_mm", 316}}}};
    CHECK(said(with_log({hole(5, 307.4), foot})).empty());
    CHECK(said(with_log({hole(5, 307.6), foot})) == Said{"too_small log[1].foot.at_mm"});
    CHECK(said(with_log({foot, hole(5, 307.4)})).empty());
    CHECK(said(with_log({foot, hole(5, 307.6)})) == Said{"too_large log[1].hole.at_mm"});
    // a thicker one
    const Json disc = {{"foot_plug", {{"opening_mm", 13.7}, {"thickness_mm", 5}}}};
    CHECK(said(with_log({disc, foot, hole(5, 306.4)})).empty());
    CHECK(said(with_log({disc, foot, hole(5, 306.6)})) == Said{"too_large log[2].hole.at_mm"});
    CHECK(said(with_log({foot, hole(5, 306.6), disc})) ==
          Said{"too_large log[2].foot_plug.thickness_mm"});
}

TEST_CASE("cuts leave room for the holes that are still to come") {
    // 0.75 mm each: of hole 4 the edge is at 3.5 mm, and one more has to go below it
    const Json foot = {{"foot", {{"at_mm", 316}}}};
    CHECK(said(with_log({foot, hole(4, 307.7)})).empty());
    CHECK(said(with_log({foot, hole(4, 307.8)})) == Said{"too_large log[1].hole.at_mm"});
    CHECK(said(with_log({hole(4, 307.8), foot})) == Said{"too_small log[1].foot.at_mm"});
    // the sound hole ends at 5.3; hole 2 of 8 mm has one above it
    CHECK(said(with_log({hole(2, 10.1)})).empty());
    CHECK(said(with_log({hole(2, 10.0)})) == Said{"too_small log[0].hole.at_mm"});
    const auto voice = [](double length_mm) {
        return Json{{"sound_hole", {{"length_mm", length_mm}, {"width_mm", 9.5}}}};
    };
    CHECK(said(with_log({hole(2, 12), voice(7.2)})).empty());
    CHECK(said(with_log({hole(2, 12), voice(7.3)})) ==
          Said{"too_large log[1].sound_hole.length_mm"});
    CHECK(said(with_log({voice(7.3), hole(2, 12)})) == Said{"too_small log[1].hole.at_mm"});
}

TEST_CASE("a cut or narrowed hole leaves the tube's sides") {
    const auto wide = [](double diameter_mm) {
        Json entry = hole(5, 410);
        entry["hole"]["diameter_mm"] = diameter_mm;
        return said(with_log({entry}));
    };
    CHECK(wide(17.0).empty());  // 0.95 x 17.9 = 17.005
    CHECK(wide(17.01) == Said{"too_large log[0].hole.diameter_mm"});
    const auto narrow = [](double diameter_mm) {
        return said(
            with_log({hole(5, 410), {{"narrow", {{"number", 5}, {"diameter_mm", diameter_mm}}}}}));
    };
    CHECK(narrow(17.0).empty());
    CHECK(narrow(17.01) == Said{"too_large log[1].narrow.diameter_mm"});
}

TEST_CASE("the foot is where it was last sawn, never beyond the tube") {
    const Json twice = {{{"foot", {{"at_mm", 410}}}}, {{"foot", {{"at_mm", 396.5}}}}};
    CHECK(standing(twice).document.tube->end_m == 0.3965);
    CHECK(standing({{{"foot", {{"at_mm", 500}}}}}).document.tube->end_m == 0.430);
    CHECK(standing(Json::array()).document.tube->end_m == 0.430);
}

TEST_CASE("cut holes stand where and as wide as they were last cut") {
    Json first = hole(5, 300);
    first["hole"]["diameter_mm"] = 5;
    Json wider = hole(5, 301);
    wider["hole"]["diameter_mm"] = 6;
    const Standing now = standing({first, wider, hole(4, 270)});
    const std::vector<HoleEntry>& holes = *now.document.finger_holes;
    CHECK(now.is_cut == std::vector<bool>{false, false, false, true, true});
    CHECK(holes[4].at_m == 0.301);
    CHECK(holes[4].diameter_m == 0.006);
    CHECK(holes[4].at_fixed);
    CHECK(now.cut_diameter_m[4] == 0.006);
    CHECK(holes[3].at_m == 0.270);
    CHECK(holes[3].diameter_m == 0.007);  // not known: the planned one
    CHECK(now.cut_diameter_m[3] == 0.0);
    CHECK(holes[0].at_m == 0.1875);
    CHECK_FALSE(holes[0].at_fixed);
}

TEST_CASE("a narrowed hole is what it was narrowed to") {
    Json cut = hole(5, 300);
    cut["hole"]["diameter_mm"] = 9;
    const Json narrow = {{"narrow", {{"number", 5}, {"diameter_mm", 6}}}};
    CHECK(standing({cut, narrow}).document.finger_holes->at(4).diameter_m == 0.006);
    CHECK(standing({cut, narrow}).cut_diameter_m[4] == 0.006);
    const Json unknown = {{"narrow", {{"number", 5}}}};
    CHECK(standing({cut, unknown}).cut_diameter_m[4] == 0.0);
}

TEST_CASE("an undercut keeps its proportion when the hole grows") {
    Json cut = hole(1, 187.5);
    cut["hole"]["diameter_mm"] = 5;
    const HoleEntry first = standing({cut}).document.finger_holes->at(0);
    CHECK_THAT(*first.inner_diameter_m, Catch::WithinRel(0.0081 * 5 / 7.5, 1e-12));
}

TEST_CASE("the sound hole is as last opened, the foot plug as last put in") {
    const Standing now = standing({{{"sound_hole", {{"length_mm", 6}, {"width_mm", 10}}}},
                                   {{"foot_plug", {{"opening_mm", 12}}}}});
    CHECK(now.document.sound_hole->length_m == 0.006);
    CHECK(now.document.sound_hole->width_m == 0.010);
    CHECK(now.document.sound_hole->wall_m == 0.0027);
    CHECK(now.document.foot_plug->opening_m == 0.012);
    CHECK(now.document.foot_plug->thickness_m == 0.004);  // as the plug before it
    Json bare = samples::without(full(), "/foot_plug");
    bare["log"] = {{{"foot_plug", {{"opening_mm", 12}}}}};
    CHECK(replay(samples::read(bare).document).document.foot_plug->thickness_m ==
          kFootPlugThickness_m);
}
