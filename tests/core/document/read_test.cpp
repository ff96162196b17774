// tests/core/document/read_test.cpp -- reading: keys, kinds, names, and the way back.
#include "core/document/read.hpp"

#include <catch2/catch.hpp>

#include "core/document/write.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;
using samples::full;
using samples::said;
using samples::Said;
using samples::with;
using samples::without;

TEST_CASE("a document with every key has nothing wrong and comes back as it was", "[property]") {
    const ReadDocument read = read_document(samples::kFull);
    REQUIRE(said(read.violations) == Said{});
    // The numbers are equal as doubles, not nearly: 18.4 mm stays 18.4.
    CHECK(document_json(read.document) == full());
    const std::string once = write_document(read.document);
    CHECK(write_document(read_document(once).document) == once);
}

TEST_CASE("keys come out in the order of the format, whole numbers without a point") {
    const std::string text =
        R"({"foot_mm":40,"tube":{"end_mm":400.0,"wall_mm":3.25},"format":"canewright/1"})";
    CHECK(write_document(read_document(text).document) ==
          R"({"format":"canewright/1","tube":{"wall_mm":3.25,"end_mm":400},"foot_mm":40})");
}

TEST_CASE("numbers typed with up to 15 digits come back as typed", "[property]") {
    for (const double typed : {18.4, 7.14375, 0.3, 19.9999999999999, 3.1, 12.3456789012345, 13.3}) {
        const Json json = with(full(), "/tube/wall_mm", typed);
        CAPTURE(typed);
        CHECK(document_json(samples::read(json).document)["tube"]["wall_mm"].get<double>() ==
              typed);
    }
}

TEST_CASE("values are SI inside") {
    const Document document = read_document(samples::kFull).document;
    CHECK(document.tube->wall_m == 0.0031);
    CHECK(document.air->humidity_fraction == 0.55);
    CHECK(document.air->pressure_Pa == 99700);
    CHECK(document.log->at(3).diameter_m == 0.006);
    CHECK(document.log->at(2).own_error_m == 0.0003);
    CHECK(document.log->at(3).error_m == 0.0002);
    CHECK(document.sound_hole->ramp_m == 0.0065);
    CHECK(document.block->side_walls->thickness_m == 0.003);
    CHECK(document.log->at(10).pressure_Pa == 1320);
    // 9.80665 Pa a millimetre of water (NIST SP 811, appendix B.8)
    CHECK_THAT(document.log->at(11).pressure_Pa, Catch::WithinRel(475.622525, 1e-12));
}

TEST_CASE("an unknown key is a violation wherever it stands, except under x", "[property]") {
    for (const char* parent : {"",
                               "/show",
                               "/air",
                               "/tube",
                               "/tube/bore/0",
                               "/tube/ridge",
                               "/plug",
                               "/sound_hole",
                               "/track",
                               "/chamber",
                               "/foot_plug",
                               "/finger_holes/2",
                               "/notes/1",
                               "/song",
                               "/song/scale",
                               "/shop",
                               "/shop/bits/0",
                               "/shop/diameter_mm",
                               "/shop/spacing_mm",
                               "/log/0",
                               "/log/2/foot",
                               "/log/3/hole",
                               "/log/9/read",
                               "/log/10/breath",
                               "/block",
                               "/block/side_walls"}) {
        CAPTURE(parent);
        const auto found =
            samples::read(with(full(), std::string(parent) + "/diamter_mm", 1)).violations;
        REQUIRE(found.size() == 1);
        CHECK(found[0].code == Code::unknown_key);
        CHECK(found[0].path.find("diamter_mm") != std::string::npos);
    }
    CHECK(said(with(full(), "/x/diamter_mm", 1)).empty());
    CHECK(said(with(full(), "/pattern/diamter_mm", 1)).empty());
    CHECK(said(with(full(), "/finger_holes/2/diamter_mm", 1)) ==
          Said{"unknown_key finger_holes[2].diamter_mm"});
}

TEST_CASE("what layout adds to a document may stand there", "[property]") {
    Json json = full();
    json["binding"] = Json::array();
    json["converged"] = true;
    json["worst_cents"] = 0.1;
    json["cane"] = {{"lowest_hz", 370.1}};
    json["at_c"] = 21;
    for (const char* key : {"hz", "second_hz", "cents", "name", "interval_cents", "cents_per_mm",
                            "cents_per_tenth_mm", "cents_per_mm_foot", "converged", "why"}) {
        json["notes"][0][key] = nullptr;
    }
    CHECK(said(json).empty());
}

TEST_CASE("each key refuses what is of another kind", "[property]") {
    for (const char* pointer : {"/format",
                                "/name",
                                "/show",
                                "/show/unit",
                                "/show/fraction",
                                "/show/datum",
                                "/air",
                                "/air/room_c",
                                "/tube",
                                "/tube/bore",
                                "/tube/bore/0",
                                "/tube/bore/0/at_mm",
                                "/tube/material",
                                "/tube/ridge",
                                "/plug",
                                "/sound_hole",
                                "/sound_hole/length_mm",
                                "/track",
                                "/chamber",
                                "/foot_mm",
                                "/foot_plug",
                                "/fingers",
                                "/finger_holes",
                                "/finger_holes/0",
                                "/finger_holes/1/fixed",
                                "/notes",
                                "/notes/0",
                                "/notes/0/open",
                                "/notes/1/open/0",
                                "/song",
                                "/song/lowest",
                                "/song/scale",
                                "/song/scale/cents",
                                "/song/scale/cents/1",
                                "/song/holes",
                                "/song/fingerings",
                                "/song/fingerings/1",
                                "/song/fingerings/1/0",
                                "/shop",
                                "/shop/bits",
                                "/shop/bits/0",
                                "/shop/bits/1/label",
                                "/shop/diameter_mm",
                                "/shop/hands",
                                "/shop/hands/0",
                                "/pattern",
                                "/log",
                                "/log/0",
                                "/log/0/bore",
                                "/log/0/at",
                                "/log/0/note",
                                "/log/1/block",
                                "/log/2/foot",
                                "/log/3/hole/number",
                                "/log/9/read",
                                "/log/9/read/open",
                                "/log/10/breath",
                                "/log/10/breath/open",
                                "/log/10/breath/pa",
                                "/log/10/breath/what",
                                "/sound_hole/ramp",
                                "/sound_hole/ramp_mm",
                                "/sound_hole/edge_mm",
                                "/block",
                                "/block/height_mm",
                                "/block/side_walls",
                                "/block/side_walls/length_mm",
                                "/sounds_as"}) {
        CAPTURE(pointer);
        std::size_t count = 0;
        for (const Violation& each : samples::read(with(full(), pointer, true)).violations) {
            count += each.code == Code::wrong_type && each.given == "true" ? 1 : 0;
        }
        CHECK(count == 1);
    }
    CHECK(said("text") == Said{"wrong_type "});
    CHECK(said(with(full(), "/song/holes", 5.5)) == Said{"wrong_type song.holes"});
    CHECK(said(with(full(), "/notes/1/open/0", 4.5)) == Said{"wrong_type notes[1].open[0]"});
    CHECK(said(with(full(), "/tube/wall_mm", nullptr)) == Said{"wrong_type tube.wall_mm"});
    CHECK(said(with(full(), "/tube/wall_mm", "3.1")) == Said{"wrong_type tube.wall_mm"});
}

TEST_CASE("names are taken from their lists only") {
    CHECK(said(with(full(), "/format", "canewright/2")) == Said{"wrong_format format"});
    CHECK(said(with(full(), "/show/unit", "cm")) == Said{"unknown_name show.unit"});
    CHECK(said(with(full(), "/show/fraction", 33)) == Said{"unknown_name show.fraction"});
    CHECK(said(with(full(), "/show/fraction", 16)).empty());
    CHECK(said(with(full(), "/show/datum", "foot")) == Said{"unknown_name show.datum"});
    CHECK(said(with(full(), "/fingers", "hard")) == Said{"unknown_name fingers"});
    CHECK(said(with(full(), "/finger_holes/1/fixed", "place")) ==
          Said{"unknown_name finger_holes[1].fixed"});
    CHECK(said(with(full(), "/finger_holes/1/fixed", {"at", "place"})) ==
          Said{"unknown_name finger_holes[1].fixed[1]"});
    CHECK(said(with(full(), "/finger_holes/1/fixed", "both")).empty());
    CHECK(said(with(full(), "/song/scale", "minor")) == Said{"unknown_name song.scale"});
    CHECK(said(with(full(), "/log/0/bore", "oiled")) == Said{"unknown_name log[0].bore"});
    CHECK(said(with(full(), "/log/1/block", "lost")) == Said{"unknown_name log[1].block"});
    CHECK(said(with(full(), "/log/10/breath/what", "leaps")) ==
          Said{"unknown_name log[10].breath.what"});
    CHECK(said(with(full(), "/block", "some")) == Said{"unknown_name block"});
    CHECK(said(with(full(), "/block/side_walls", "long")) == Said{"unknown_name block.side_walls"});
    CHECK(said(with(without(full(), "/sound_hole/ramp_mm"), "/sound_hole/ramp", "low")) ==
          Said{"unknown_name sound_hole.ramp"});
    CHECK(said(with(full(), "/sounds_as", "dreamt")) == Said{"unknown_name sounds_as"});
    CHECK(said(with(full(), "/song/lowest", "H4")) == Said{"not_a_note song.lowest"});
    CHECK(said(with(full(), "/song/lowest", "free")).empty());
}

TEST_CASE("keys that must be there are missed") {
    CHECK(said(without(full(), "/format")) == Said{"missing format"});
    CHECK(said(without(full(), "/tube/bore/1/at_mm")) == Said{"missing tube.bore[1].at_mm"});
    CHECK(said(without(full(), "/sound_hole/width_mm")) == Said{"missing sound_hole.width_mm"});
    CHECK(said(without(full(), "/foot_plug/thickness_mm")) ==
          Said{"missing foot_plug.thickness_mm"});
    CHECK(said(without(full(), "/finger_holes/2/diameter_mm")) ==
          Said{"missing finger_holes[2].diameter_mm"});
    CHECK(said(without(full(), "/notes/1/open")) == Said{"missing notes[1].open"});
    CHECK(said(without(full(), "/song/scale/cents")) == Said{"missing song.scale.cents"});
    CHECK(said(without(full(), "/shop/bits/0/mm")) == Said{"missing shop.bits[0].mm"});
    CHECK(said(without(full(), "/log/9/read/hz")) == Said{"missing log[9].read.hz"});
    CHECK(said(without(full(), "/log/2/foot")) == Said{"missing log[2]"});
    CHECK(said(without(full(), "/log/10/breath/open")) == Said{"missing log[10].breath.open"});
    CHECK(said(without(full(), "/log/10/breath/pa")) == Said{"missing log[10].breath.pa"});
    CHECK(said(without(full(), "/log/10/breath/what")) == Said{"missing log[10].breath.what"});
    CHECK(said(without(full(), "/block/side_walls/height_mm")) ==
          Said{"missing block.side_walls.height_mm"});
    CHECK(said(without(full(), "/block/side_walls/thickness_mm")) ==
          Said{"missing block.side_walls.thickness_mm"});
}

TEST_CASE("the air is a room or lossless, not both and not half") {
    const auto air = [](Json given) { return said(with(full(), "/air", std::move(given))); };
    CHECK(air({{"sound_speed_m_s", 345}, {"density_kg_m3", 1.18}, {"lossless", true}}).empty());
    CHECK(air({{"lossless", false}}).empty());
    CHECK(air({{"lossless", true}, {"density_kg_m3", 1.18}}) ==
          Said{"missing air.sound_speed_m_s"});
    CHECK(air({{"lossless", true}, {"sound_speed_m_s", 345}}) == Said{"missing air.density_kg_m3"});
    CHECK(air({{"sound_speed_m_s", 345}, {"density_kg_m3", 1.18}}) == Said{"missing air.lossless"});
    CHECK(air({{"sound_speed_m_s", 345}, {"lossless", false}}) ==
          Said{"overlap air.sound_speed_m_s"});
    CHECK(air({{"room_c", 20},
               {"sound_speed_m_s", 345},
               {"density_kg_m3", 1.18},
               {"lossless", true}}) == Said{"overlap air.room_c"});
}

TEST_CASE("all violations come at once, a value's own only once") {
    Json json = with(full(), "/tube/wall_mm", -1);
    json["song"]["lowest"] = "zebra";
    json["finger_holes"][2]["at_mm"] = "near";  // its neighbours are not compared with it
    json["typo"] = 1;
    CHECK(said(json) == Said{"too_small tube.wall_mm", "wrong_type finger_holes[2].at_mm",
                             "not_a_note song.lowest", "unknown_key typo"});
    const auto found = samples::read(json).violations;
    CHECK(found[0].value == -1);
    CHECK(found[0].limit == 0.3);
    CHECK(found[1].given == "near");
    Json many = full();
    for (int i = 0; i < 220; ++i) many[std::to_string(i)] = i;
    CHECK(samples::read(many).violations.size() == 200);
}
