// tests/support/random_documents.cpp: the tube, and what stands round it.
#include "tests/support/random_documents.hpp"

#include <vector>

#include "core/api.hpp"
#include "core/document/limits.hpp"
#include "core/document/read.hpp"
#include "core/document/write.hpp"
#include "core/task/task.hpp"

namespace canewright::testing {

namespace {

constexpr std::uint64_t kVoices = 0x766f696365;  // sets the voices' numbers apart
constexpr int kTries = 200;                      // of the parts that may not fit each other

double clamped(double value, Range range) { return std::clamp(value, range.min, range.max); }

int stations(Draw& draw) {
    if (draw.chance(0.5)) return 1;
    if (draw.chance(0.6)) return 2;
    if (draw.kind() == Kind::extreme && draw.chance(0.2)) return static_cast<int>(limit::kStations);
    return draw.whole(3, 8);
}

Json random_bore(Draw& draw, double bore, double end) {
    const int count = stations(draw);
    const double taper = draw.kind() == Kind::plain ? 0.03 : 0.3;
    const bool oval = draw.odd(0.15);
    const double from = draw.chance(0.7) ? 0.0 : draw.between(-0.3 * end, 0.2 * end);
    Json list = Json::array();
    for (int i = 0; i < count; ++i) {
        Json station = Json::object();
        station["at_mm"] = from + (1.1 * end - from) * i / std::max(1, count - 1);
        const double share = i == 0 ? 1.0 : 1.0 + draw.between(-taper, taper);
        const double here = clamped(bore * share, limit::kBore_mm);
        station["diameter_mm"] = here;
        if (oval)
            station["across_mm"] =
                clamped(here * (1.0 + draw.between(-2.0 * taper, 2.0 * taper)), limit::kBore_mm);
        list.push_back(station);
    }
    return list;
}

Json random_air(Draw& draw) {
    if (draw.chance(0.05))
        return {{"sound_speed_m_s", draw.size(340, 350, 250, 450)},
                {"density_kg_m3", draw.size(1.1, 1.2, 0.5, 2)},
                {"lossless", true}};
    Json air = Json::object();
    if (draw.chance(0.7)) air["room_c"] = draw.size(12, 28, -10, 50);
    if (draw.chance(0.5)) air["humidity_percent"] = draw.size(30, 80, 0, 100);
    if (draw.chance(0.2)) air["pressure_kpa"] = draw.size(95, 103, 50, 110);
    return air;
}

Json random_plug(Draw& draw, double bore) {
    return {{"offset_mm", draw.size(0, 0.2 * bore, 0, 50)}};
}

Json random_ridge(Draw& draw, const Json& document, double foot) {
    const double end = document["tube"]["end_mm"], bore = bore_mm(document);
    double at = draw.between(0, end);
    const double where = draw.between(0, 1);
    if (where < 0.3) at = foot + draw.between(-0.5 * bore, 0.5 * bore);
    if (where > 0.8) at = draw.between(-bore, 2 * bore);
    if (where > 0.97) at = draw.between(-1000, 0);
    Json ridge = {
        {"at_mm", std::min(at, end)},
        {"opening_mm", clamped(bore * draw.size(0.7, 0.95, 0.1, 1), limit::kRidgeOpening_mm)}};
    if (draw.chance(0.4)) ridge["thickness_mm"] = draw.size(1, 5, 0.1, 20);
    return ridge;
}

Json random_holes(Draw& draw, const Json& document, double foot) {
    const double bore = bore_mm(document), window = document["sound_hole"]["length_mm"];
    int count = document["song"]["holes"];
    const bool same = draw.chance(0.85);
    if (!same) count = draw.whole(0, 8);
    const bool fixed = same && draw.chance(0.5);
    const bool undercut = draw.odd(0.2), own_wall = draw.odd(0.1), oval = draw.odd(0.1);
    const double first = draw.chance(0.7) ? 0.4 : 0.1;
    Json holes = Json::array();
    for (int i = 0; i < count; ++i) {
        const double share = first + (0.95 - first) * (i + 0.5) / count;
        Json hole = Json::object();
        hole["at_mm"] = window + (foot - window) * share + draw.between(-0.1, 0.1) * bore;
        const double diameter = clamped(bore * draw.size(0.25, 0.5, 0.05, 0.95), limit::kHole_mm);
        hole["diameter_mm"] = diameter;
        if (undercut)
            hole["inner_diameter_mm"] =
                clamped(diameter * draw.size(1.0, 1.3, 0.7, 2.0), limit::kHole_mm);
        if (own_wall) hole["wall_mm"] = draw.size(1, 4, 0.2, 20);
        if (oval) hole["aspect"] = draw.size(0.8, 1.25, 0.5, 2);
        if (fixed && draw.chance(0.35)) {
            const char* const what[] = {"at", "diameter", "both"};
            hole["fixed"] = what[draw.whole(0, 2)];
        }
        holes.push_back(hole);
    }
    return holes;
}

// The tube ends a hair before or behind the foot that the song wants.
void end_a_hair_beside(Draw& draw, Json& document) {
    Json longer = document;
    if (longer.contains("shop")) longer["shop"].erase("bits");  // they take time
    const double end = document["tube"]["end_mm"];
    longer["tube"]["end_mm"] = std::min(2.0 * end, limit::kEnd_mm.max);
    const Json answer = answer_of("layout", longer);
    if (!answer.is_object() || !answer["foot_mm"].is_number()) return;
    const double span = draw.chance(0.6) ? 0.3 : 3.0;
    document["tube"]["end_mm"] = answer["foot_mm"].get<double>() + draw.between(-span, span);
    document.erase("foot_mm");
}

Json drawn(Draw& draw) {
    Json document = {{"format", kFormat}};
    if (draw.chance(0.8)) document["air"] = random_air(draw);
    document["tube"] = random_tube(draw);
    const double bore = bore_mm(document), end = document["tube"]["end_mm"];
    if (draw.chance(0.7)) document["plug"] = random_plug(draw, bore);
    document["sound_hole"] = random_sound_hole(draw, document["tube"]);
    if (draw.chance(0.1)) document["fingers"] = draw.chance(0.7) ? "flat" : "soft";
    if (draw.odd(0.1))
        document["foot_plug"] = {
            {"opening_mm", clamped(bore * draw.size(0.5, 0.95, 0.02, 1.0), limit::kPlugOpening_mm)},
            {"thickness_mm", draw.size(2, 8, 0.3, 100)}};
    add_song(draw, document);
    add_shop(draw, document);
    // where the song's foot is about to be, were it the tube's end or up to a fifth before
    const double foot = end * draw.between(0.8, 1.0);
    if (draw.odd(0.15)) document["tube"]["ridge"] = random_ridge(draw, document, foot);
    if (draw.chance(0.1)) document["foot_mm"] = std::max(20.0, end * draw.between(0.6, 1.0));
    if (draw.chance(0.2)) document["finger_holes"] = random_holes(draw, document, foot);
    return document;
}

}  // namespace

Json random_tube(Draw& draw) {
    const double bore = draw.size(6, 25, limit::kBore_mm.min, limit::kBore_mm.max);
    const double end = clamped(draw.kind() == Kind::plain || draw.chance(0.6)
                                   ? bore * draw.between(12, 28)
                                   : draw.size(200, 600, limit::kEnd_mm.min, limit::kEnd_mm.max),
                               limit::kEnd_mm);
    const double wall = draw.size(0.8, std::min(5.0, 0.3 * bore), 0.3, 20);
    Json tube = Json::object();
    tube["bore"] = random_bore(draw, bore, end);
    if (draw.chance(0.85))
        tube["wall_mm"] = wall;
    else
        tube["outer_mm"] = clamped(bore + 2 * wall, limit::kOuter_mm);
    tube["end_mm"] = end;
    if (draw.chance(0.5)) tube["above_mm"] = draw.size(50, 200, 0, 1000);
    if (draw.chance(0.5)) tube["material"] = draw.chance(0.5) ? "bamboo" : "plastic pipe";
    return tube;
}

Json random_sound_hole(Draw& draw, const Json& tube) {
    const double bore = tube["bore"][0]["diameter_mm"];
    const double across = tube["bore"][0].value("across_mm", bore);
    Json hole = Json::object();
    hole["length_mm"] = draw.size(0.2 * bore, 0.45 * bore, limit::kSoundHoleLength_mm.min,
                                  limit::kSoundHoleLength_mm.max);
    hole["width_mm"] =
        draw.size(0.4 * bore, 0.7 * bore, limit::kSoundHoleWidth_mm.min, std::max(bore, across));
    if (draw.chance(0.3)) hole["wall_mm"] = draw.size(0.5, 3, limit::kThinnedWall_mm.min, 20);
    return hole;
}

double bore_mm(const Json& document) { return document["tube"]["bore"][0]["diameter_mm"]; }

bool permitted(const Json& document) {
    const ReadDocument read = read_document(document.dump());
    return read.violations.empty() && missing_for(Verb::layout, read.document).empty();
}

Json answer_of(const char* verb, const Json& document) {
    Json all = Json::parse(run_workshop(verb, document.dump()), nullptr, false);
    return all.is_object() && all.contains("answer") ? all["answer"] : Json();
}

Json random_document(std::uint64_t seed, std::uint64_t index) {
    Draw draw(seed, index);
    Json document;
    for (int attempt = 0; attempt < kTries; ++attempt) {
        document = drawn(draw);
        if (permitted(document)) break;
    }
    if (draw.chance(0.12)) {
        Json beside = document;
        end_a_hair_beside(draw, beside);
        if (permitted(beside)) document = beside;
    }
    // From numbers of its own: the documents without a voice stay what they were.
    Draw voices(seed ^ kVoices, index);
    if (voices.chance(0.4)) {
        Json voiced = document;
        add_voice(voices, voiced);
        if (permitted(voiced)) document = voiced;
    }
    if (draw.chance(0.2)) add_log(draw, document);
    return document;
}

}  // namespace canewright::testing
