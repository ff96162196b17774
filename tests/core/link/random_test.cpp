// tests/core/link/random_test.cpp -- documents of every shape, and bytes of none.
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <map>

#include "tests/core/link/samples.hpp"

using namespace canewright;
using namespace canewright::samples;

namespace {

using Random = std::mt19937;

struct Field {
    const char* pointer;
    std::function<Json(Random&)> value;
};

std::function<Json(Random&)> number(double least, double most) {
    // Typed with few decimals, or computed with many.
    return
        [=](Random& random) { return Json(draw_decimal(random, least, most, draw(random, 0, 9))); };
}

// Of a JSON list. As text: compilers disagree on what Json{{...}} is.
std::function<Json(Random&)> one_of(const char* text) {
    const Json list = Json::parse(text);
    return [=](Random& random) {
        return list[static_cast<std::size_t>(draw(random, 0, static_cast<int>(list.size()) - 1))];
    };
}

Json some_bits(Random& random) {
    Json bits = Json::array();
    const int count = draw(random, 1, 20);
    for (int i = 0; i < count; ++i) {
        const int marks = draw(random, 8, 40);
        switch (draw(random, 0, 3)) {
            case 0:
                bits.push_back(
                    {{"mm", marks * 25.4 / 64}, {"label", std::to_string(marks) + "/64 in"}});
                break;
            case 1:
                bits.push_back({{"mm", 0.5 * marks}});
                break;
            case 2:
                bits.push_back({{"mm", draw_decimal(random, 3, 12, 2)}, {"label", "own"}});
                break;
            default:
                bits.push_back({{"mm", draw_decimal(random, 3, 12, draw(random, 0, 6))}});
        }
    }
    return bits;
}

Json some_log(Random& random) {
    Json hole = {{"number", 3}, {"at_mm", 250}, {"diameter_mm", 7.01}, {"bit_mm", 6.51}};
    Json log = {{{"hole", {{"number", 5}, {"at_mm", draw_decimal(random, 300, 330, 3)}}}},
                {{"hole", hole}}};
    const int count = draw(random, 0, 30);
    for (int i = 0; i < count; ++i) {
        Json entry = Json::object();
        switch (draw(random, 0, 7)) {
            case 0:
                entry["foot"] = {{"at_mm", draw_decimal(random, 340, 420, 2)}};
                break;
            case 1:
                entry["undercut"] = {{"number", draw(random, 0, 1) == 0 ? 3 : 5}};
                break;
            case 2:
                entry["narrow"] = {{"number", 5}, {"diameter_mm", draw_decimal(random, 4, 9, 1)}};
                break;
            case 3:
                entry["sound_hole"] = {{"length_mm", draw_decimal(random, 4, 7, 2)},
                                       {"width_mm", 9.5},
                                       {"error_mm", 0.1}};
                break;
            case 4:
                entry["breath"] = {
                    {"open", draw(random, 0, 1) == 0 ? Json::array() : Json({5, 3})},
                    {draw(random, 0, 1) == 0 ? "pa" : "water_mm",
                     draw_decimal(random, 2, 900, draw(random, 0, 5))},
                    {"what", one_of(R"(["jumps up", "falls back", "at pitch"])")(random)}};
                break;
            default:
                entry["read"] = {{"open", draw(random, 0, 1) == 0 ? Json::array() : Json({5, 3})},
                                 {"hz", draw_decimal(random, 300, 900, draw(random, 0, 5))}};
        }
        if (draw(random, 0, 1) == 0) entry["room_c"] = draw_decimal(random, 16, 19, 1);
        if (draw(random, 0, 2) == 0)
            entry["at"] = "2026-11-" + std::to_string(draw(random, 10, 30)) +
                          "T10:" + std::to_string(draw(random, 10, 59)) + ":07.123Z";
        if (draw(random, 0, 3) == 0)
            entry["note"] = std::string(static_cast<std::size_t>(draw(random, 0, 30)), 'x');
        if (draw(random, 0, 3) == 0) entry["error_mm"] = draw_decimal(random, 0, 1, 3);
        log.push_back(entry);
    }
    return log;
}

const std::vector<Field>& fields() {
    static const std::vector<Field> all = {
        {"/name",
         one_of(R"(["", "a", "\u0446\u0430\u043f\u043b\u044f", "Heron reach, fourth cane"])")},
        {"/show/unit", one_of(R"(["mm", "inch"])")},
        {"/show/fraction", one_of(R"([16, 32, 64])")},
        {"/show/datum", one_of(R"(["centre", "upstream edge", "splitting edge"])")},
        {"/air/room_c", number(-10, 50)},
        {"/air/humidity_percent", number(0, 100)},
        {"/air/pressure_kpa", number(50, 110)},
        {"/air",
         [](Random& random) {
             return Json{{"sound_speed_m_s", draw_decimal(random, 250, 450, 4)},
                         {"density_kg_m3", draw_decimal(random, 0.5, 2, 7)},
                         {"lossless", true}};
         }},
        {"/tube/bore/0/at_mm", number(-100, 300)},
        {"/tube/bore/0/diameter_mm", number(16, 22)},
        {"/tube/bore/0/across_mm", number(16, 22)},
        {"/tube/bore/1/diameter_mm", number(16, 22)},
        {"/tube/wall_mm", number(0.3, 20)},
        {"/tube/outer_mm", number(20, 60)},
        {"/tube/end_mm", number(420, 700)},
        {"/tube/above_mm", number(0, 300)},
        {"/tube/material", one_of(R"(["bamboo", "wood", "", "elder of the far meadow"])")},
        {"/tube/ridge/thickness_mm", number(0.1, 4)},
        {"/tube/ridge", one_of(R"([{"at_mm": -3.175, "opening_mm": 12.7}])")},
        {"/plug/offset_mm", number(0, 5)},
        {"/sound_hole/length_mm", number(3, 8)},
        {"/sound_hole/wall_mm", number(1, 5)},
        {"/sound_hole/ramp_mm", number(0, 60)},
        {"/sound_hole/ramp", one_of(R"(["none", "short", "long"])")},
        {"/sound_hole/edge_mm", number(0, 2.7)},
        {"/block", one_of(R"(["none", {}, {"width_mm": 12.7}, {"height_mm": 9.1}])")},
        {"/block/height_mm", number(0.5, 60)},
        {"/block/front_mm", number(-3, 10)},
        {"/block/side_walls", one_of(R"(["none", "low", "high",
            {"height_mm": 3.175, "thickness_mm": 1}])")},
        {"/block/side_walls/length_mm", number(0.2, 60)},
        {"/track/depth_mm", number(0.05, 5)},
        {"/track/block_gap_mm", number(0, 5)},
        {"/chamber/length_mm", number(5, 1000)},
        {"/foot_mm", number(340, 420)},
        {"/foot_plug/opening_mm", number(1, 15)},
        {"/fingers", one_of(R"(["soft", "flat"])")},
        {"/finger_holes/0/at_mm", number(150, 200)},
        {"/finger_holes/1/inner_diameter_mm", number(5, 12)},
        {"/finger_holes/2/aspect", number(0.5, 2)},
        {"/finger_holes/3/diameter_mm", number(3, 12)},
        {"/finger_holes/4/fixed", one_of(R"(["at", "diameter", "both"])")},
        {"/notes/1/target_hz", number(20, 10000)},
        {"/notes/2/open", one_of(R"([[], [1, 3, 5], [2, 1]])")},
        {"/song/lowest", one_of(R"(["G4", "free", "b\u266D4", "C#5", {"hz": 391.9954}])")},
        {"/song/scale", one_of(R"(["major", "minor pentatonic", {"cents": [0, 203.9, 702]}])")},
        {"/song/tolerance_cents", number(0.1, 100)},
        {"/song/a4_hz", number(300, 600)},
        {"/song/breath", number(0.65, 1.75)},
        {"/shop/bits", some_bits},
        {"/shop/spacing_mm/min", number(1, 18)},
        {"/shop/hands", one_of(R"([[2, 3], [0, 5], [5, 0]])")},
        {"/shop/ruler_mm", number(0, 10)},
        {"/shop/temperature_c", number(0, 20)},
        {"/shop/risk_percent", number(0.1, 50)},
        {"/pattern", one_of(R"([{}, {"means": [0.1, -3e-7]}])")},
        {"/log", some_log},
        {"/sounds_as", one_of(R"(["standing", "planned"])")},
        {"/x", one_of(R"([null, 1.25, "text", {"deep": [{"er": 1}]}])")},
    };
    return all;
}

// From one of the samples: keys changed and taken out, as long as nothing is wrong with it.
Document random_document(Random& random) {
    Json json = full();
    const int base = draw(random, 0, 7);
    if (base < 3) {
        constexpr const char* kFiles[] = {"build", "flute", "tube"};
        json = Json::parse(text_of("documents/" + std::string(kFiles[base]) + ".json"));
    }
    const int changes = draw(random, 1, 25);
    for (int i = 0; i < changes; ++i) {
        const Field& field = fields()[static_cast<std::size_t>(
            draw(random, 0, static_cast<int>(fields().size()) - 1))];
        const Json::json_pointer at(field.pointer);
        Json other = json;
        if (draw(random, 0, 3) == 0) {
            if (!other.contains(at)) continue;
            other = without(other, field.pointer);
        } else if (other.contains(at.parent_pointer()) &&
                   other[at.parent_pointer()].is_structured()) {
            other[at] = field.value(random);
        }
        if (said(other).empty()) json = other;
    }
    return right_document(json.dump());
}

// Half a step of each key by its ending, as link.hpp and link_grids.hpp promise it.
double half_step(const std::string& pointer) {
    const std::string key = pointer.substr(pointer.rfind('/') + 1);
    const auto ends = [](const std::string& text, const std::string& end) {
        return text.size() >= end.size() &&
               text.compare(text.size() - end.size(), end.size(), end) == 0;
    };
    if (pointer.find("/pattern") == 0 || pointer.find("/x") == 0 || key == "at") return 0;
    constexpr double kFiner = 1e-6;  // behind.hpp: six decimals more
    const bool behind = pointer.find("/block") == 0 || key == "ramp_mm" || key == "edge_mm" ||
                        pointer.find("/breath/") != std::string::npos;
    if (behind && ends(key, "mm")) return 0.005 * kFiner;
    if (key == "pa") return 0.05 * kFiner;
    if (ends(key, "mm") || key == "min" || key == "max") return 0.005;
    if (ends(key, "hz") || key == "sound_speed_m_s" || key == "breath") return 0.0005;
    if (key == "pressure_kpa") return 0.0005;
    if (key == "density_kg_m3") return 0.0000005;
    if (key == "aspect") return 0.00005;
    if (ends(key, "_c") || ends(key, "_cents") || ends(key, "_percent")) return 0.005;
    if (pointer.find("/song/scale/cents/") == 0) return 0.005;
    return 0;  // counts, numbers of holes
}

// The keys of which more changed than that, or that came or went.
Said changed_keys(const Json& given, const Json& found) {
    Said changed;
    const Json one = given.flatten();
    const Json other = found.flatten();
    for (const auto& item : one.items()) {
        bool same = false;
        // Only the usual thickness of a ridge may go.
        if (!other.contains(item.key())) {
            same = item.key() == "/tube/ridge/thickness_mm" &&
                   std::abs(item.value().get<double>() - 2) <= 0.005000001;
        } else if (item.value().is_number()) {
            const double off =
                std::abs(item.value().get<double>() - other[item.key()].get<double>());
            same = off <= half_step(item.key()) * (1 + 1e-6);
        } else {
            same = item.value() == other[item.key()];
        }
        if (!same) changed.push_back(item.key());
    }
    for (const auto& item : other.items()) {
        if (!one.contains(item.key())) changed.push_back(item.key());
    }
    return changed;
}

}  // namespace

TEST_CASE("any document -> link -> document -> link is the same link", "[link][property][sweep]") {
    Random random(20261125);
    for (int i = 0; i < 100; ++i) {
        const Document document = random_document(random);
        CAPTURE(i, write_document(document));
        const std::string text = link_text(document);
        const ReadDocument read = document_of_link(text);
        REQUIRE(said(read.violations) == Said{});
        CHECK(link_text(read.document) == text);
        // Also by way of the page, which keeps JSON.
        CHECK(link_text(right_document(write_document(read.document))) == text);
        CHECK(write_document(snapped(document)) == write_document(read.document));
        CHECK(write_document(snapped(read.document)) == write_document(read.document));
        CHECK(changed_keys(document_json(document), document_json(read.document)) == Said{});
    }
}

TEST_CASE("any bytes under a right checksum are a document or damaged", "[link][property][sweep]") {
    Random random(7);
    const Document document = right_document(full().dump());
    const std::string packed = packed_bytes(document);
    std::map<std::string, int> outcomes;
    for (int i = 0; i < 1500; ++i) {
        std::string body;
        if (i % 2 == 0) {
            body.resize(static_cast<std::size_t>(draw(random, 0, 300)));
            for (char& c : body) c = static_cast<char>(draw(random, 0, 255));
        } else {
            body = packed;
            for (int flips = draw(random, 1, 3); flips > 0; --flips) {
                const int bit = draw(random, 0, static_cast<int>(8 * body.size()) - 1);
                char& c = body[static_cast<std::size_t>(bit / 8)];
                c = static_cast<char>(static_cast<unsigned char>(c) ^ (1U << (bit % 8)));
            }
        }
        const std::string text = sealed(body);
        const ReadDocument read = document_of_link(text);
        outcomes[read.violations.empty() ? "document" : name(read.violations[0].code)] += 1;
        if (!read.violations.empty()) continue;
        const Linked again = link_of(read.document);
        REQUIRE(said(again.violations) == Said{});
        // What was crafted on the finer grid may have its place on the plain one.
        const bool fine = !body.empty() && (static_cast<unsigned char>(body[0]) & 0x80) != 0;
        if (!fine) CHECK(again.text == text);
    }
    // All three were met, or this test would say little.
    CHECK(outcomes["document"] > 50);
    CHECK(outcomes["link_damaged"] > 500);
    CHECK(outcomes["too_large"] > 10);
}
