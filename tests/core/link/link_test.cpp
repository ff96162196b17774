// tests/core/link/link_test.cpp -- everything travels, on its grid, and comes back the same.
#include "core/link/link.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "tests/core/link/samples.hpp"

using namespace canewright;
using namespace canewright::samples;

namespace {

// A flute of five holes as it is shared: laid out, with a shop's bits and a name of 20 bytes.
constexpr const char* kTypical = R"json({
  "format": "canewright/1", "name": "Heron reach, cane 14",
  "show": {"unit": "mm", "fraction": 32, "datum": "centre"},
  "air": {"room_c": 18, "humidity_percent": 55},
  "tube": {
    "material": "bamboo", "bore": [{"at_mm": 0, "diameter_mm": 18.4}, {"at_mm": 410, "diameter_mm": 17.9}],
    "wall_mm": 3.1, "end_mm": 430, "above_mm": 160
  },
  "plug": {"offset_mm": 0, "thickness_mm": 9},
  "sound_hole": {"length_mm": 5, "width_mm": 9.5, "wall_mm": 2.7},
  "foot_mm": 396.69432,
  "finger_holes": [
    {"at_mm": 187.531, "diameter_mm": 6.5}, {"at_mm": 214.512, "diameter_mm": 7},
    {"at_mm": 242.7654, "diameter_mm": 7}, {"at_mm": 277.4821, "diameter_mm": 6},
    {"at_mm": 307.83, "diameter_mm": 8}
  ],
  "song": {"lowest": "G4", "scale": "minor pentatonic", "holes": 5, "a4_hz": 440, "play_c": 21},
  "shop": {
    "bits": [{"mm": 4}, {"mm": 5}, {"mm": 5.5}, {"mm": 6}, {"mm": 6.5}, {"mm": 7}, {"mm": 8}],
    "spacing_mm": {"min": 18, "max": 36}, "hands": [2, 3]
  }
})json";

Document changed(const std::string& pointer, Json value) {
    return right_document(with(full(), pointer, std::move(value)).dump());
}

double snapped_number(const std::string& pointer, double value) {
    const Json json = document_json(snapped(changed(pointer, value)));
    return json.at(Json::json_pointer(pointer)).get<double>();
}

}  // namespace

// The issue's own figures: at most 200 characters of link; a QR code of version 10-M holds 213
// bytes, an address of 36 in front included (ISO/IEC 18004, table of capacities; from memory).
TEST_CASE("the link of a typical flute of five holes is short", "[link]") {
    const std::string text = link_text(right_document(kTypical));
    CAPTURE(text, text.size());
    CHECK(text.size() <= 130);
    CHECK(text.size() + 36 <= 200);
    Json with_notes = Json::parse(kTypical);
    for (const double target_hz : {391.995, 466.164, 523.251, 587.33, 698.456, 783.991}) {
        with_notes["notes"].push_back({{"open", {1, 2, 3}}, {"target_hz", target_hz}});
    }
    CHECK(link_text(right_document(with_notes.dump())).size() + 36 <= 200);
}

TEST_CASE("a document comes back key for key, its link byte for byte", "[link][property]") {
    const std::string file = GENERATE("", "build", "flute", "six_holes", "tube");
    const Document document =
        right_document(file.empty() ? full().dump() : text_of("documents/" + file + ".json"));
    const std::string text = link_text(document);
    const ReadDocument read = document_of_link(text);
    REQUIRE(said(read.violations) == Said{});
    CHECK(read.is_object);
    // All numbers of these documents are on the grid: nothing may have changed at all.
    CHECK(write_document(read.document) == write_document(document));
    CHECK(write_document(snapped(document)) == write_document(document));
    CHECK(link_text(read.document) == text);
    CHECK(text.find_first_not_of(
              "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.") ==
          std::string::npos);
    CHECK(text.back() == 'Z');
}

TEST_CASE("an empty document has a link too", "[link]") {
    const Document document = right_document(R"({"format":"canewright/1"})");
    const ReadDocument read = document_of_link(link_text(document));
    REQUIRE(said(read.violations) == Said{});
    CHECK(write_document(read.document) == R"({"format":"canewright/1"})");
}

// The steps are those of the promise in link.hpp.
TEST_CASE("numbers go to the nearest step", "[link]") {
    Json metric = with(full(), "/show/unit", "mm");
    const auto placed = [&](const std::string& pointer, double value) {
        const Document on_grid = snapped(right_document(with(metric, pointer, value).dump()));
        return document_json(on_grid).at(Json::json_pointer(pointer)).get<double>();
    };
    CHECK(placed("/foot_mm", 396.7049) == 396.7);
    CHECK(placed("/foot_mm", 396.7051) == 396.71);
    CHECK(placed("/tube/bore/0/at_mm", -12.3456) == -12.35);
    CHECK(placed("/song/a4_hz", 441.30049) == 441.3);
    CHECK(placed("/song/a4_hz", 441.30051) == 441.301);
    CHECK(placed("/song/scale/cents/1", 315.641287) == 315.64);
    CHECK(placed("/song/tolerance_cents", 8.006) == 8.01);
    CHECK(placed("/air/room_c", -3.336) == -3.34);
    CHECK(placed("/air/humidity_percent", 54.996) == 55);
    CHECK(placed("/air/pressure_kpa", 101.3254) == 101.325);
    CHECK(placed("/log/9/read/hz", 512.31249) == 512.312);
}

// 2 3/32 in is 53.18125 mm (1 in = 25.4 mm exactly).
TEST_CASE("64ths of an inch stay what they are where lengths are shown in inches", "[link]") {
    CHECK(snapped_number("/finger_holes/0/at_mm", 188.9125) == 188.9125);  // 7 7/16
    CHECK(snapped_number("/tube/ridge/at_mm", 53.18125) == 53.18125);
    CHECK(snapped_number("/tube/bore/0/at_mm", -3.175) == -3.175);  // 1/8 the other way
    CHECK(snapped_number("/foot_mm", 396.7051) == 396.71);          // none
    const Json metric = with(with(full(), "/show/unit", "mm"), "/tube/ridge/at_mm", 53.18125);
    CHECK(snapped(right_document(metric.dump())).tube->ridge->at_m == m_from_mm(53.18));
}

TEST_CASE("bits keep their labels, and inch bits their exact size", "[link]") {
    Json metric = with(full(), "/show/unit", "mm");
    const Json bits = Json::parse(R"([{"mm":1.984375,"label":"5/64 in"},
        {"mm":3.175,"label":"1/8\""},{"mm":4.0386,"label":"#21"},{"mm":2.778125,"label":"7/64 in"},
        {"mm":6},{"mm":5},{"mm":5.05},{"mm":7.14375,"label":"9/32″"},{"mm":9,"label":""}])");
    Json expected = bits;
    expected[2]["mm"] = 4.04;  // any other size: 0.01 mm
    expected[3]["mm"] = 2.78;  // out of the row
    const Document document = right_document(with(metric, "/shop/bits", bits).dump());
    CHECK(json_text(document_json(snapped(document))["shop"]["bits"]) == json_text(expected));
    CHECK(link_text(snapped(document)) == link_text(document));
}

// 0.95 of a bore of 17.88 mm is 16.986 mm, the widest hole there; 16.99 would be too wide.
TEST_CASE("what 0.01 mm would make wrong keeps more decimals", "[link]") {
    Json json = with(full(), "/tube/bore", Json::parse(R"([{"at_mm":0,"diameter_mm":17.88}])"));
    json["show"]["unit"] = "mm";
    json["finger_holes"][4]["diameter_mm"] = 16.986;
    const Document document = right_document(json.dump());
    const std::string text = link_text(document);
    const ReadDocument read = document_of_link(text);
    REQUIRE(said(read.violations) == Said{});
    CHECK(read.document.finger_holes->at(4).diameter_m == m_from_mm(16.986));
    CHECK(link_text(read.document) == text);
    // Two stations closer than a step would lie at one place.
    const Json near =
        Json::parse(R"([{"at_mm":100.001,"diameter_mm":18},{"at_mm":100.002,"diameter_mm":18.4}])");
    const Document stations = changed("/tube/bore", near);
    CHECK(json_text(document_json(snapped(stations))["tube"]["bore"]) == json_text(near));
}

TEST_CASE("the thickness of a ridge that nobody gave stays away", "[link]") {
    const auto thickness = [](double value_mm) {
        const Document document = changed("/tube/ridge/thickness_mm", value_mm);
        const ReadDocument read = document_of_link(link_text(document));
        REQUIRE(said(read.violations) == Said{});
        return document_json(read.document)["tube"]["ridge"].value("thickness_mm", -1.0);
    };
    CHECK(thickness(2) == -1.0);
    CHECK(thickness(2.004) == -1.0);
    CHECK(thickness(2.006) == 2.01);
}

TEST_CASE("a document that is wrong has no link, and says why", "[link]") {
    Document document = right_document(full().dump());
    document.tube->bore[0].diameter_m = 1.0;
    CHECK(said(link_of(document).violations) == Said{"too_large tube.bore[0].diameter_mm"});
    CHECK(link_of(document).text.empty());
    CHECK(snapped(document).tube->bore[0].diameter_m == 1.0);
    document.tube->bore[0].diameter_m = std::nan("");
    CHECK_FALSE(link_of(document).violations.empty());
    CHECK(link_of(document).text.empty());
}

TEST_CASE("what does not fit into a link is refused", "[link]") {
    Json log = Json::array();
    while (log.size() < 400) {
        log.push_back({{"foot", {{"at_mm", 420}}}, {"note", std::string(400, 'n')}});
    }
    const Linked linked = link_of(changed("/log", log));
    CHECK(linked.text.empty());
    REQUIRE(said(linked.violations) == Said{"link_too_long link"});
    CHECK(linked.violations[0].limit == static_cast<double>(kMostLink_chars));
    CHECK(linked.violations[0].value > 400 * 400);
    const Document large = changed("/x", std::string(200000, 'x'));
    CHECK(said(link_of(large).violations) == Said{"link_too_long link"});
    CHECK(link_of(changed("/x", std::string(2000, 'x'))).violations.empty());
    CHECK(said(link_of(changed("/x", std::string(3000, 'x'))).violations) ==
          Said{"link_too_long link"});
}

TEST_CASE("JSON that nobody reads comes back as written", "[link]") {
    const Json x = Json::parse(R"({"a":[1.5,-2,true,null,"text"],"b":{"c":1e300}})");
    const Document document = changed("/x", x);
    CHECK(document_of_link(link_text(document)).document.x == json_text(x));
    const Document whole = changed("/x", 1.0);  // written as 1
    CHECK(link_text(document_of_link(link_text(whole)).document) == link_text(whole));
}

TEST_CASE("names in any script, with any character", "[link]") {
    for (const char* const text : {"", "\u0446\u0430\u043F\u043B\u044F 4", "a\"b\\c\n",
                                   "\U0001F3B5", "<img src=x onerror=1>", "\u202E\u200B"}) {
        const Document document = changed("/name", text);
        CHECK(document_of_link(link_text(document)).document.name == text);
    }
    CHECK(document_of_link(link_text(changed("/name", std::string(1, '\0')))).document.name ==
          std::string(1, '\0'));
}

TEST_CASE("notes of the song are kept as spelled", "[link]") {
    for (const char* const note :
         {"G4", "Bb4", "F#5", "F\u266F5", "B\u266D4", "g4", " G4", "Cb5"}) {
        const Document document = changed("/song/lowest", note);
        CHECK(document_of_link(link_text(document)).document.song->lowest->note == note);
    }
    for (const Json& lowest : {Json("free"), Json{{"hz", 392.004}}}) {
        const Document document = changed("/song/lowest", lowest);
        const Document found = document_of_link(link_text(document)).document;
        CHECK(document_json(found)["song"]["lowest"].dump() == lowest.dump());
    }
}
