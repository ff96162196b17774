// tests/whole/properties_test.cpp: what must hold of every permitted document, over a few random
// ones (tools/properties takes as many as asked for), and that each check can fail.
#include "tests/support/properties.hpp"

#include <catch2/catch.hpp>
#include <set>
#include <string>

#include "core/document/limits.hpp"
#include "tests/support/random_documents.hpp"

using namespace canewright;
using namespace canewright::testing;

// There where the address sanitizer watches: the tests' objects are the same. Node is as slow.
extern "C" __attribute__((weak)) void __asan_init();

namespace {

// What is slow there is done on fewer documents, and what is rare is looked for elsewhere.
#ifdef __EMSCRIPTEN__
bool watched() { return true; }
#else
bool watched() { return __asan_init != nullptr; }
#endif

constexpr std::uint64_t kSeed = 8;

std::string told(const std::vector<Breach>& breaches) {
    std::string all;
    for (const Breach& breach : breaches) all += breach.property + ": " + breach.what + "\n";
    return all;
}

// The keys of a document, those of its parts as "song.breath".
void add_keys(const Json& tree, const std::string& path, std::set<std::string>& keys) {
    if (tree.is_array()) {
        for (const Json& entry : tree) add_keys(entry, path, keys);
    } else if (tree.is_object()) {
        for (const auto& [key, value] : tree.items()) {
            const std::string here = path.empty() ? key : path + "." + key;
            keys.insert(here);
            add_keys(value, here, keys);
        }
    }
}

}  // namespace

TEST_CASE("random documents are permitted, and bring every key and the bounds",
          "[whole][property][sweep]") {
    std::set<std::string> keys, found;
    for (std::uint64_t n = 0; n < (watched() ? 30U : 200U); ++n) {
        const Json document = random_document(kSeed, n);
        CAPTURE(document.dump());
        REQUIRE(permitted(document));
        add_keys(document, "", keys);
        const Json& tube = document["tube"];
        const double bore = tube["bore"][0]["diameter_mm"];
        if (bore == limit::kBore_mm.min) found.insert("least bore");
        if (bore == limit::kBore_mm.max) found.insert("most bore");
        if (tube.value("wall_mm", 0.0) == limit::kWall_mm.min) found.insert("least wall");
        if (tube.value("wall_mm", 0.0) == limit::kWall_mm.max) found.insert("most wall");
        const Json shop = document.value("shop", Json::object());
        if (shop.value("bore_mm", 1.0) == 0.0) found.insert("error of zero");
        if (shop.value("bore_mm", 1.0) == 1e-300) found.insert("error of nearly zero");
        if (shop.contains("bits") && shop["bits"].size() == 1) found.insert("one bit");
        if (shop.contains("bits") && shop["bits"].size() > 20) found.insert("many bits");
        if (document["song"]["holes"] == 1) found.insert("one hole");
        if (document["song"]["holes"] == 8) found.insert("eight holes");
        if (document["song"]["lowest"] == "free") found.insert("free");
    }
    if (watched()) return;
    for (const char* bound :
         {"least bore", "most bore", "least wall", "most wall", "error of zero",
          "error of nearly zero", "one bit", "many bits", "one hole", "eight holes", "free"}) {
        CAPTURE(bound);
        CHECK(found.count(bound) == 1);
    }
    for (const char* key : {"air.room_c",
                            "air.lossless",
                            "tube.bore.across_mm",
                            "tube.outer_mm",
                            "tube.ridge.at_mm",
                            "tube.ridge.thickness_mm",
                            "plug.offset_mm",
                            "sound_hole.wall_mm",
                            "sound_hole.ramp",
                            "sound_hole.ramp_mm",
                            "sound_hole.edge_mm",
                            "block.height_mm",
                            "block.width_mm",
                            "block.front_mm",
                            "block.side_walls.height_mm",
                            "block.side_walls.length_mm",
                            "fingers",
                            "foot_mm",
                            "foot_plug.opening_mm",
                            "finger_holes.inner_diameter_mm",
                            "finger_holes.wall_mm",
                            "finger_holes.aspect",
                            "finger_holes.fixed",
                            "song.lowest.hz",
                            "song.scale.cents",
                            "song.fingerings",
                            "song.tolerance_cents",
                            "song.good_enough_cents",
                            "song.octaves_weight",
                            "song.play_c",
                            "song.breath",
                            "shop.bits.mm",
                            "shop.diameter_mm.min",
                            "shop.spacing_mm.max",
                            "shop.hands",
                            "shop.ruler_mm",
                            "shop.bit_mm",
                            "shop.bore_mm",
                            "shop.wall_mm",
                            "shop.sound_hole_mm",
                            "shop.temperature_c",
                            "shop.risk_percent",
                            "log.read.hz",
                            "log.foot.at_mm",
                            "log.hole.diameter_mm",
                            "log.undercut.number",
                            "log.narrow.number",
                            "log.sound_hole.length_mm",
                            "log.foot_plug.opening_mm",
                            "log.block",
                            "log.bore",
                            "log.room_c",
                            "log.error_mm"}) {
        CAPTURE(key);
        CHECK(keys.count(key) == 1);
    }
}

TEST_CASE("a mark that moves is seen, one of another bit is exempt", "[whole][property]") {
    const Json one = Json::parse(R"({"converged": true, "foot_mm": 300, "finger_holes":
        [{"at_mm": 150, "diameter_mm": 6}, {"at_mm": 200, "diameter_mm": 6}]})");
    std::string what;
    Json other = one;
    CHECK(farthest_move_mm(one, other, what) == 0.0);
    other["finger_holes"][1]["at_mm"] = 203;
    CHECK(farthest_move_mm(one, other, what) == Approx(3.0));
    CHECK(what.find("hole 2") == 0);
    other["finger_holes"][1]["diameter_mm"] = 6.5;
    CHECK(farthest_move_mm(one, other, what) == Approx(3.0));
    Json bits = one;
    bits["shop"]["bits"] = Json::array({{{"mm", 6}}, {{"mm", 6.5}}});
    CHECK(farthest_move_mm(bits, other, what) == 0.0);
    other["foot_mm"] = 302.5;
    CHECK(farthest_move_mm(bits, other, what) == Approx(2.5));
    other["converged"] = false;
    CHECK(farthest_move_mm(one, other, what) < 0.0);
}

// A few, for the sanitizers and wasm; the suite `properties` of tools/test takes a thousand.
TEST_CASE("properties of random documents", "[whole][property]") {
    for (std::uint64_t n = 0; n < (watched() ? 2U : 8U); ++n) {
        const Json document = random_document(kSeed, n);
        const std::vector<Breach> breaches = breaches_of(document, Noise(kSeed + 1, n), kQuick);
        INFO(document.dump());
        INFO(told(breaches));
        CHECK(breaches.empty());
    }
}
