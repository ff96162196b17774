// tests/core/document/limits_test.cpp -- every number of the format, at and beyond both its bounds.
#include "core/document/limits.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "tests/core/document/samples.hpp"

using namespace canewright;

namespace {

struct Bound {
    const char* pointer;
    const char* path;
    Range range;
};

// Written out here, not taken from the table: a bound that is changed by mistake fails.
const Bound kBounds[] = {
    {"/air/room_c", "air.room_c", {-10, 50}},
    {"/air/humidity_percent", "air.humidity_percent", {0, 100}},
    {"/air/pressure_kpa", "air.pressure_kpa", {50, 110}},
    {"/tube/bore/0/at_mm", "tube.bore[0].at_mm", {-1000, 2000}},
    {"/tube/bore/0/diameter_mm", "tube.bore[0].diameter_mm", {3, 60}},
    {"/tube/bore/0/across_mm", "tube.bore[0].across_mm", {3, 60}},
    {"/tube/wall_mm", "tube.wall_mm", {0.3, 20}},
    {"/tube/outer_mm", "tube.outer_mm", {3.6, 100}},
    {"/tube/end_mm", "tube.end_mm", {20, 2000}},
    {"/tube/above_mm", "tube.above_mm", {0, 1000}},
    {"/tube/ridge/at_mm", "tube.ridge.at_mm", {-1000, 2000}},
    {"/tube/ridge/opening_mm", "tube.ridge.opening_mm", {1, 60}},
    {"/plug/offset_mm", "plug.offset_mm", {0, 50}},
    {"/plug/thickness_mm", "plug.thickness_mm", {0.3, 100}},
    {"/sound_hole/length_mm", "sound_hole.length_mm", {1, 40}},
    {"/sound_hole/width_mm", "sound_hole.width_mm", {1, 60}},
    {"/sound_hole/wall_mm", "sound_hole.wall_mm", {0.2, 20}},
    {"/sound_hole/ramp_mm", "sound_hole.ramp_mm", {0, 60}},
    {"/sound_hole/edge_mm", "sound_hole.edge_mm", {0, 20}},
    {"/block/height_mm", "block.height_mm", {0.5, 60}},
    {"/block/width_mm", "block.width_mm", {1, 120}},
    {"/block/front_mm", "block.front_mm", {-3, 10}},
    {"/block/side_walls/height_mm", "block.side_walls.height_mm", {0.1, 40}},
    {"/block/side_walls/thickness_mm", "block.side_walls.thickness_mm", {0.2, 20}},
    {"/block/side_walls/length_mm", "block.side_walls.length_mm", {0.2, 60}},
    {"/track/depth_mm", "track.depth_mm", {0.05, 5}},
    {"/track/width_mm", "track.width_mm", {1, 60}},
    {"/track/length_mm", "track.length_mm", {1, 200}},
    {"/track/block_gap_mm", "track.block_gap_mm", {0, 5}},
    {"/chamber/length_mm", "chamber.length_mm", {5, 1000}},
    {"/chamber/air_hole_mm", "chamber.air_hole_mm", {1, 60}},
    {"/foot_mm", "foot_mm", {20, 2000}},
    {"/foot_plug/opening_mm", "foot_plug.opening_mm", {1, 60}},
    {"/foot_plug/thickness_mm", "foot_plug.thickness_mm", {0.3, 100}},
    {"/finger_holes/0/at_mm", "finger_holes[0].at_mm", {1, 2000}},
    {"/finger_holes/0/diameter_mm", "finger_holes[0].diameter_mm", {0.3, 57}},
    {"/finger_holes/0/inner_diameter_mm", "finger_holes[0].inner_diameter_mm", {0.3, 57}},
    {"/finger_holes/0/wall_mm", "finger_holes[0].wall_mm", {0.2, 20}},
    {"/notes/0/target_hz", "notes[0].target_hz", {20, 1e6}},
    {"/song/holes", "song.holes", {1, 8}},
    {"/song/a4_hz", "song.a4_hz", {300, 600}},
    {"/song/tolerance_cents", "song.tolerance_cents", {0.1, 100}},
    {"/song/good_enough_cents", "song.good_enough_cents", {1, 50}},
    {"/song/octaves_weight", "song.octaves_weight", {0, 1}},
    {"/song/play_c", "song.play_c", {-10, 50}},
    {"/song/lift_cents", "song.lift_cents", {-30, 60}},
    {"/shop/bits/0/mm", "shop.bits[0].mm", {0.3, 57}},
    {"/shop/diameter_mm/min", "shop.diameter_mm.min", {0.3, 57}},
    {"/shop/diameter_mm/max", "shop.diameter_mm.max", {0.3, 57}},
    {"/shop/spacing_mm/min", "shop.spacing_mm.min", {1, 500}},
    {"/shop/spacing_mm/max", "shop.spacing_mm.max", {1, 500}},
    {"/shop/ruler_mm", "shop.ruler_mm", {0, 10}},
    {"/shop/bit_mm", "shop.bit_mm", {0, 10}},
    {"/shop/bore_mm", "shop.bore_mm", {0, 10}},
    {"/shop/wall_mm", "shop.wall_mm", {0, 10}},
    {"/shop/temperature_c", "shop.temperature_c", {0, 20}},
    {"/shop/hands/0", "shop.hands[0]", {0, 8}},
    {"/finger_holes/0/aspect", "finger_holes[0].aspect", {0.5, 2}},
    {"/tube/ridge/thickness_mm", "tube.ridge.thickness_mm", {0.1, 20}},
    {"/log/0/room_c", "log[0].room_c", {-10, 50}},
    {"/log/1/at", "log[1].at", {0, 1e15}},
    {"/log/2/foot/at_mm", "log[2].foot.at_mm", {20, 2000}},
    {"/log/2/foot/error_mm", "log[2].foot.error_mm", {0, 10}},
    {"/log/3/error_mm", "log[3].error_mm", {0, 10}},
    {"/log/3/hole/at_mm", "log[3].hole.at_mm", {1, 2000}},
    {"/log/3/hole/diameter_mm", "log[3].hole.diameter_mm", {0.3, 57}},
    {"/log/6/narrow/diameter_mm", "log[6].narrow.diameter_mm", {0.3, 57}},
    {"/log/7/sound_hole/length_mm", "log[7].sound_hole.length_mm", {1, 40}},
    {"/log/7/sound_hole/width_mm", "log[7].sound_hole.width_mm", {1, 60}},
    {"/log/8/foot_plug/opening_mm", "log[8].foot_plug.opening_mm", {1, 60}},
    {"/log/8/foot_plug/thickness_mm", "log[8].foot_plug.thickness_mm", {0.3, 100}},
    {"/log/9/read/hz", "log[9].read.hz", {20, 10000}},
    {"/log/9/read/sigma_cents", "log[9].read.sigma_cents", {0.01, 200}},
    {"/log/10/breath/pa", "log[10].breath.pa", {1, 10000}},
    {"/log/11/breath/water_mm", "log[11].breath.water_mm", {0.2, 1000}},
};

// Whether the bound itself is broken. Other checks (a bore narrower than its sound hole) may well
// complain about a value at its bound; they have tests of their own.
bool breaks(const Json& json, Code code, const std::string& path, double limit) {
    for (const Violation& each : samples::read(json).violations) {
        if (each.code == code && each.path == path && each.limit == limit) return true;
    }
    return false;
}

}  // namespace

TEST_CASE("every number is refused just outside its bounds and let pass at them", "[property]") {
    for (const Bound& bound : kBounds) {
        CAPTURE(bound.path);
        const bool whole =
            std::string(bound.path) == "song.holes" || std::string(bound.path) == "shop.hands[0]";
        const auto at = [&](double value) {
            return samples::with(samples::full(), bound.pointer, value);
        };
        const double below = whole ? bound.range.min - 1 : std::nextafter(bound.range.min, -1e30);
        const double above = whole ? bound.range.max + 1 : std::nextafter(bound.range.max, 1e30);
        CHECK(breaks(at(below), Code::too_small, bound.path, bound.range.min));
        CHECK_FALSE(breaks(at(bound.range.min), Code::too_small, bound.path, bound.range.min));
        CHECK(breaks(at(above), Code::too_large, bound.path, bound.range.max));
        CHECK_FALSE(breaks(at(bound.range.max), Code::too_large, bound.path, bound.range.max));
    }
}

TEST_CASE("the lossless air and a lowest note in hertz have bounds too", "[property]") {
    const Json lossless =
        samples::with(samples::full(), "/air",
                      {{"sound_speed_m_s", 345}, {"density_kg_m3", 1.18}, {"lossless", true}});
    const Json hertz = samples::with(samples::full(), "/song/lowest", {{"hz", 392}});
    struct Case {
        Json json;
        const char* pointer;
        const char* path;
        Range range;
    };
    const Case cases[] = {
        {lossless, "/air/sound_speed_m_s", "air.sound_speed_m_s", {250, 450}},
        {lossless, "/air/density_kg_m3", "air.density_kg_m3", {0.5, 2}},
        {hertz, "/song/lowest/hz", "song.lowest.hz", {40, 5000}},
    };
    for (const Case& each : cases) {
        CAPTURE(each.path);
        const auto at = [&](double value) { return samples::with(each.json, each.pointer, value); };
        CHECK(samples::said(at(each.range.min)).empty());
        CHECK(samples::said(at(each.range.max)).empty());
        CHECK(breaks(at(std::nextafter(each.range.min, 0)), Code::too_small, each.path,
                     each.range.min));
        CHECK(breaks(at(std::nextafter(each.range.max, 1e9)), Code::too_large, each.path,
                     each.range.max));
    }
}

TEST_CASE("texts and lists have bounds", "[property]") {
    const auto text = [](std::size_t bytes) { return std::string(bytes, 'a'); };
    const auto check = [](const char* pointer, const std::string& path, Json at, Json over,
                          const char* code) {
        CAPTURE(path);
        const samples::Said wrong = {std::string(code) + " " + path};
        CHECK(samples::said(samples::with(samples::full(), pointer, std::move(at))).empty());
        CHECK(samples::said(samples::with(samples::full(), pointer, std::move(over))) == wrong);
    };
    check("/name", "name", text(80), text(81), "too_long");
    check("/tube/material", "tube.material", text(40), text(41), "too_long");
    check("/shop/bits/1/label", "shop.bits[1].label", text(40), text(41), "too_long");
    check("/log/0/at", "log[0].at", text(40), text(41), "too_long");
    check("/log/0/note", "log[0].note", text(400), text(401), "too_long");

    const auto stations = [](int count) {
        Json bore = Json::array();
        for (int i = 0; i < count; ++i) {
            bore.push_back({{"at_mm", 5 * i}, {"diameter_mm", 18}});
        }
        return bore;
    };
    check("/tube/bore", "tube.bore", stations(64), stations(65), "too_large");
    check("/tube/bore", "tube.bore", stations(1), stations(0), "too_small");
    const auto repeated = [](std::size_t count, const Json& what) { return Json(count, what); };
    check("/notes", "notes", repeated(32, {{"open", {5}}}), repeated(33, {{"open", {5}}}),
          "too_large");
    check("/shop/bits", "shop.bits", repeated(128, {{"mm", 5}}), repeated(129, {{"mm", 5}}),
          "too_large");
    check("/shop/bits", "shop.bits", repeated(1, {{"mm", 5}}), Json::array(), "too_small");
    check("/log", "log", repeated(400, {{"bore", "sealed"}}), repeated(401, {{"bore", "sealed"}}),
          "too_large");
    check("/shop/hands", "shop.hands", {2, 3}, {1, 1, 3}, "too_large");
    check("/shop/hands", "shop.hands", {2, 3}, Json(1, 5), "too_small");
}

TEST_CASE("eight finger holes are the most", "[property]") {
    Json json = samples::without(samples::without(samples::full(), "/log"), "/notes");
    const auto holes = [&](int count) {
        Json list = Json::array();
        for (int i = 0; i < count; ++i) {
            list.push_back({{"at_mm", 100 + 20 * i}, {"diameter_mm", 5}});
        }
        return samples::with(json, "/finger_holes", list);
    };
    CHECK(samples::said(holes(8)).empty());
    CHECK(samples::said(holes(9)) == samples::Said{"too_large finger_holes"});
}
