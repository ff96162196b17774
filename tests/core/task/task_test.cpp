// tests/core/task/task_test.cpp -- what a document asks of the physics, defaults included.
#include "core/task/task.hpp"

#include <catch2/catch.hpp>

#include "core/base/units.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;
using samples::full;
using samples::said;
using samples::Said;
using samples::with;
using samples::without;

namespace {

Document document(const Json& json) {
    const ReadDocument read = samples::read(json);
    REQUIRE(said(read.violations) == Said{});
    return read.document;
}

Json no_log() { return without(without(full(), "/log"), "/sounds_as"); }

}  // namespace

TEST_CASE("each command says what it needs, all at once") {
    const Document bare = document({{"format", "canewright/1"}});
    CHECK(said(missing_for(Verb::sound, bare)) ==
          Said{"needs tube", "needs sound_hole", "needs foot_mm", "needs finger_holes"});
    CHECK(said(missing_for(Verb::layout, bare)) ==
          Said{"needs tube", "needs sound_hole", "needs song"});
    CHECK(said(missing_for(Verb::fingerings, bare)) == Said{"needs song"});
    const Document half =
        document({{"format", "canewright/1"}, {"tube", Json::object()}, {"song", Json::object()}});
    CHECK(said(missing_for(Verb::layout, half)) ==
          Said{"needs tube.bore", "needs tube.wall_mm", "needs tube.end_mm", "needs sound_hole",
               "needs song.lowest", "needs song.scale", "needs song.holes"});
    CHECK(missing_for(Verb::sound, document(full())).empty());
    CHECK(missing_for(Verb::layout, document(full())).empty());
    // The outside is as good as the wall.
    const Json outer = with(without(full(), "/tube/wall_mm"), "/tube/outer_mm", 24.6);
    CHECK(missing_for(Verb::layout, document(outer)).empty());
}

TEST_CASE("a plan of another number of holes is dropped, unless something in it is settled") {
    Json json = without(no_log(), "/song/fingerings");
    json["song"]["holes"] = 6;
    json["shop"]["hands"] = {3, 3};
    CHECK(said(missing_for(Verb::layout, document(json))) == Said{"too_small finger_holes"});
    for (Json& hole : json["finger_holes"]) hole.erase("fixed");
    CHECK(missing_for(Verb::layout, document(json)).empty());
    CHECK(layout_task(document(json)).flute.holes.empty());
    CHECK(layout_task(document(json)).hole_count == 6);
    json["log"] = {{{"hole", {{"number", 5}, {"at_mm", 307}}}}};
    CHECK(said(missing_for(Verb::layout, document(json))) == Said{"too_small finger_holes"});
    CHECK(said(missing_for(Verb::layout, document(without(json, "/finger_holes")))) ==
          Said{"needs finger_holes"});
}

TEST_CASE("a floating lowest note must be one of the whole tube") {
    const Json floating = with(no_log(), "/song/lowest", "free");
    CHECK(missing_for(Verb::layout, document(floating)).empty());
    CHECK(said(missing_for(Verb::layout, document(with(floating, "/song/fingerings",
                                                       {{5}, {5, 4}, {5, 4, 3}})))) ==
          Said{"missing_fingering song.fingerings"});
}

TEST_CASE("the air is that of the room where the flute is played") {
    Json json = full();
    CHECK(room_C(document(json)) == 21);
    CHECK(room_C(document(without(json, "/song/play_c"))) == 18);
    CHECK(room_C(document(without(without(json, "/song/play_c"), "/air"))) == 20);
    // The bore holds breath too: warmer than the room, cooler than the mouth.
    CHECK(*bore_air_C(document(json)) > 21);
    CHECK(*bore_air_C(document(json)) < kBreath.temperature_C);
    const Air air = bore_air(document(json));
    CHECK_FALSE(air.lossless);
    json["air"] = {{"sound_speed_m_s", 345}, {"density_kg_m3", 1.18}, {"lossless", true}};
    const Air lossless = bore_air(document(json));
    CHECK(lossless.lossless);
    CHECK(lossless.sound_speed_m_s == 345);
    CHECK(lossless.density_kg_m3 == 1.18);
    CHECK_FALSE(room_C(document(json)).has_value());
}

TEST_CASE("what is absent in the geometry has its default") {
    Json json = no_log();
    for (const char* pointer :
         {"/plug", "/sound_hole/wall_mm", "/foot_plug", "/fingers", "/finger_holes/0/wall_mm",
          "/finger_holes/0/inner_diameter_mm", "/tube/ridge", "/foot_mm"}) {
        json = without(json, pointer);
    }
    const Flute flute = flute_of(document(json));
    CHECK(flute.plug_offset_m == 0);
    CHECK(flute.sound_hole.wall_m == m_from_mm(3.1));
    CHECK(flute.fingers == Fingers::soft);
    CHECK(flute.holes[0].wall_m == m_from_mm(3.1));
    CHECK(flute.holes[0].inner_diameter_m == m_from_mm(7.5));
    CHECK(flute.bore[0].across_m == m_from_mm(18.1));
    CHECK(flute.bore[1].across_m == m_from_mm(17.9));
    CHECK(flute.foot_m == m_from_mm(430));
    CHECK_FALSE(flute.foot_plug.has_value());
    CHECK_FALSE(flute.ridge.has_value());
    const Flute given = flute_of(document(full()));
    CHECK(given.plug_offset_m == m_from_mm(0.5));
    CHECK(given.sound_hole.wall_m == m_from_mm(2.7));
    CHECK(given.fingers == Fingers::flat);
    CHECK(given.holes[0].inner_diameter_m == m_from_mm(8.1));
    CHECK(given.foot_plug->thickness_m == m_from_mm(4));
    CHECK(given.ridge->opening_m == m_from_mm(15.5));
}

TEST_CASE("a wall from the outside is half of what the bore leaves") {
    Json json = with(without(no_log(), "/tube/wall_mm"), "/tube/outer_mm", 24.6);
    json["tube"]["bore"] = {{{"at_mm", 0}, {"diameter_mm", 18.4}}};
    CHECK_THAT(flute_of(document(json)).wall_m, Catch::WithinRel(0.0031, 1e-12));
}

TEST_CASE("the song gives notes with their targets") {
    const auto notes = song_notes(document(with(full(), "/song/a4_hz", 440)));
    REQUIRE(notes.size() == 3);
    // G4 = 391.995 Hz, B flat 4 = 466.164 Hz, C5 = 523.251 Hz: ISO 16:1975 in equal temperament.
    CHECK_THAT(notes[0].target_Hz, Catch::WithinAbs(391.995, 0.001));
    CHECK_THAT(notes[1].target_Hz, Catch::WithinAbs(466.164, 0.001));
    CHECK_THAT(notes[2].target_Hz, Catch::WithinAbs(523.251, 0.001));
    CHECK(notes[2].open == Fingering{4, 5});  // given as 5, 4
    CHECK(notes[2].interval_cents == 500);
    const auto hertz = song_notes(document(with(full(), "/song/lowest", {{"hz", 400}})));
    CHECK(hertz[0].target_Hz == 400);
    const auto floating = song_notes(document(with(full(), "/song/lowest", "free")));
    CHECK(floating[1].target_Hz == 0);
    CHECK(floating[1].interval_cents == 300);
}

TEST_CASE("sound plays the notes, else the song, else one hole after the other") {
    const auto fingerings = [](const Json& json) {
        std::vector<Fingering> all;
        for (const NoteEntry& note : sound_task(document(json)).notes) all.push_back(note.open);
        return all;
    };
    Json json = no_log();
    CHECK(fingerings(json) == std::vector<Fingering>{{}, {5}, {3, 4, 5}});
    json.erase("notes");
    CHECK(fingerings(json) == std::vector<Fingering>{{}, {5}, {4, 5}});
    json.erase("song");
    CHECK(fingerings(json) ==
          std::vector<Fingering>{{}, {5}, {4, 5}, {3, 4, 5}, {2, 3, 4, 5}, {1, 2, 3, 4, 5}});
}

TEST_CASE("a note's target is its own, else that of the song's step with this fingering") {
    const SoundTask task = sound_task(document(with(no_log(), "/song/a4_hz", 440)));
    CHECK(task.notes[0].target_Hz == 392.1);
    CHECK_THAT(*task.notes[1].target_Hz, Catch::WithinAbs(466.164, 0.001));
    CHECK_FALSE(task.notes[2].target_Hz.has_value());
}

TEST_CASE("with a log only the holes that are cut are there, and the foot is the tube's end") {
    const Json standing = without(full(), "/sounds_as");
    const SoundTask task = sound_task(document(standing));
    REQUIRE(task.flute.holes.size() == 2);
    CHECK(task.flute.holes[0].at_m == m_from_mm(277.2));
    CHECK(task.flute.holes[1].at_m == m_from_mm(307.1));
    CHECK(task.flute.foot_m == m_from_mm(410.3));
    CHECK(task.flute.sound_hole.length_m == m_from_mm(5.6));
    CHECK(task.fingering[1] == Fingering{2});  // hole 5 of the plan is the second of two
    CHECK(task.playable == std::vector<bool>{true, true, false});

    const SoundTask planned = sound_task(document(full()));
    CHECK(planned.flute.holes.size() == 5);
    CHECK(planned.flute.foot_m == m_from_mm(396.7));
    CHECK(planned.flute.holes[4].at_m == m_from_mm(307.5));
    CHECK(planned.playable == std::vector<bool>{true, true, true});
}

TEST_CASE("a layout is asked for with hands, bits and limits") {
    const LayoutTask task = layout_task(document(no_log()));
    CHECK(task.hole_count == 5);
    CHECK(task.end_m == m_from_mm(430));
    CHECK_FALSE(task.lowest_free);
    CHECK_FALSE(task.foot_fixed);
    CHECK(task.shop.bits_m == std::vector<double>{m_from_mm(4.1), m_from_mm(7.14375)});
    CHECK(task.shop.diameter_min_m == m_from_mm(3.1));
    CHECK(task.shop.diameter_max_m == m_from_mm(9.3));
    CHECK(task.shop.spacing_min_m == m_from_mm(18));
    CHECK(task.shop.spacing_max_m == m_from_mm(36.3));
    CHECK(task.flute.holes[1].at_fixed);
    CHECK_FALSE(task.flute.holes[1].diameter_fixed);
    CHECK(task.flute.holes[2].diameter_fixed);
    CHECK(task.flute.holes[3].at_fixed);
    CHECK(task.flute.holes[3].diameter_fixed);

    const Json no_shop = without(no_log(), "/shop");
    CHECK(layout_task(document(no_shop)).shop.hands == std::vector<int>{2, 3});
    CHECK(layout_task(document(no_shop)).shop.spacing_max_m == kNoLimit);
    CHECK(layout_task(document(no_shop)).shop.bits_m.empty());
}

TEST_CASE("with a floating lowest note the foot stays") {
    const Json floating = with(no_log(), "/song/lowest", "free");
    CHECK(layout_task(document(floating)).foot_fixed);
    CHECK(layout_task(document(floating)).flute.foot_m == m_from_mm(396.7));
    CHECK(layout_task(document(without(floating, "/foot_mm"))).flute.foot_m == m_from_mm(430));
    const Json built = with(full(), "/song/lowest", "free");
    CHECK(layout_task(document(built)).flute.foot_m == m_from_mm(410.3));
}

TEST_CASE("a layout for the flute as it stands keeps what is cut") {
    const LayoutTask task = layout_task(document(full()));
    CHECK(task.end_m == m_from_mm(410.3));
    CHECK(task.flute.holes[4].at_fixed);
    CHECK(task.flute.holes[4].at_m == m_from_mm(307.1));
    CHECK(task.cut_diameter_m == std::vector<double>{0, 0, 0, m_from_mm(6.1), m_from_mm(6)});
    CHECK_FALSE(task.flute.holes[0].at_fixed);
}
