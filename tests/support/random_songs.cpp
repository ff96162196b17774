// tests/support/random_songs.cpp: what is to be played on a random tube, and with which tools.
#include <set>
#include <string>
#include <vector>

#include "core/base/units.hpp"
#include "core/document/document.hpp"
#include "core/document/limits.hpp"
#include "core/music/pitch_name.hpp"
#include "core/music/scale.hpp"
#include "tests/support/random_documents.hpp"

namespace canewright::testing {

namespace {

// What the bare tube sounds with its foot at a place; 0 where it does not speak.
double bare_Hz(const Json& document, double foot_mm) {
    Json bare = document;
    bare.erase("song");
    bare["foot_mm"] = foot_mm;
    if (foot_mm > bare["tube"]["end_mm"]) bare["tube"]["end_mm"] = foot_mm;
    bare["finger_holes"] = Json::array();
    const Json answer = answer_of("sound", bare);
    if (!answer.is_object() || !answer["notes"][0]["hz"].is_number()) return 0.0;
    return answer["notes"][0]["hz"];
}

Json random_scale(Draw& draw, int& holes) {
    if (draw.chance(0.65)) {
        const std::vector<Scale>& named = named_scales();
        return named[static_cast<std::size_t>(draw.whole(0, static_cast<int>(named.size()) - 1))]
            .name;
    }
    const int steps = draw.whole(2, std::min(13, holes + 1));
    double cents = 0.0;
    Json list = Json::array({0});
    for (int i = 1; i < steps; ++i) {
        cents += draw.kind() == Kind::plain ? 100.0 * draw.whole(1, 4)
                                            : draw.size(50, 400, 1, 2400.0 / steps);
        list.push_back(std::min(cents, kHighestStep_cents));
    }
    return {{"cents", list}};
}

// Each step opens one more from the foot up, some with a hole below the first open one covered.
Json random_fingerings(Draw& draw, std::size_t steps, int holes) {
    Json all = Json::array();
    for (std::size_t step = 0; step < steps; ++step) {
        Json open = Json::array();
        const int first = holes + 1 - static_cast<int>(step);
        const int covered = draw.chance(0.3) ? draw.whole(first + 1, holes + 1) : 0;
        for (int hole = std::max(1, first); hole <= holes; ++hole)
            if (hole != covered) open.push_back(hole);
        all.push_back(open);
    }
    return all;
}

Json random_lowest(Draw& draw, const Json& document, double a4_Hz) {
    if (draw.chance(0.12)) return "free";
    const double end = document["tube"]["end_mm"];
    double share = draw.between(0.8, 1.0);
    if (draw.chance(0.1)) share = draw.between(1.0, 1.2);
    if (draw.chance(0.1)) share = draw.between(0.3, 0.8);
    double lowest_Hz = bare_Hz(document, std::clamp(share * end, 20.0, 2000.0));
    if (lowest_Hz <= 0.0 || (draw.kind() != Kind::plain && draw.chance(0.1)))
        lowest_Hz = draw.size(200, 900, limit::kLowest_Hz.min, limit::kLowest_Hz.max);
    if (draw.chance(0.3)) {
        const NearestNote nearest = nearest_note(lowest_Hz, a4_Hz);
        if (nearest.ok) return nearest.name;
    }
    return {{"hz", lowest_Hz}};
}

Json random_bits(Draw& draw, double bore) {
    const int kind = draw.whole(0, 9);
    const int count = kind < 2 ? 1 : kind < 7 ? draw.whole(2, 8) : draw.whole(9, 30);
    const bool whole_set = draw.kind() == Kind::extreme && draw.chance(0.1);
    Json bits = Json::array();
    for (int i = 0; i < (whole_set ? static_cast<int>(limit::kBits) : count); ++i) {
        double bit = std::clamp(bore * draw.size(0.2, 0.55, 0.02, 0.95), limit::kHole_mm.min,
                                limit::kHole_mm.max);
        if (draw.chance(0.3) && bit > 1.0) bit = std::round(2.0 * bit) / 2.0;
        bits.push_back({{"mm", bit}});
    }
    return bits;
}

Json random_span(double least, double most, Draw& draw) {
    Json span = Json::object();
    if (draw.chance(0.08)) most = least;
    if (draw.chance(0.9)) span["min"] = std::min(least, most);
    if (draw.chance(0.9)) span["max"] = std::max(least, most);
    return span;
}

}  // namespace

void add_song(Draw& draw, Json& document) {
    Json song = Json::object();
    int holes =
        draw.kind() == Kind::plain && draw.chance(0.8) ? draw.whole(4, 6) : draw.whole(1, 8);
    const double a4_Hz = draw.chance(0.7) ? 440.0 : draw.size(415, 466, 300, 600);
    song["lowest"] = random_lowest(draw, document, a4_Hz);
    song["scale"] = random_scale(draw, holes);
    song["holes"] = holes;
    if (a4_Hz != 440.0 || draw.chance(0.5)) song["a4_hz"] = a4_Hz;
    if (draw.chance(0.4)) song["tolerance_cents"] = draw.size(5, 15, 0.1, 100);
    if (draw.chance(0.2)) song["good_enough_cents"] = draw.size(3, 10, 1, 50);
    if (draw.chance(0.4)) song["play_c"] = draw.size(15, 30, -10, 50);
    if (draw.odd(0.15)) song["breath"] = draw.size(0.9, 1.2, 0.65, 1.75);
    if (draw.chance(0.08)) {
        const Scale* named =
            song["scale"].is_string() ? find_scale(song["scale"].get<std::string>()) : nullptr;
        const std::size_t steps = named ? named->step_cents.size() : song["scale"]["cents"].size();
        song["fingerings"] = random_fingerings(draw, steps, holes);
    }
    Draw aside = draw;  // what came later leaves the documents of old seeds as they were
    if (aside.chance(0.1)) song["octaves_weight"] = aside.size(0.1, 1, 0, 1);
    if (aside.chance(0.3)) song["lift_cents"] = aside.size(2, 12, -30, 60);
    document["song"] = song;
}

void add_shop(Draw& draw, Json& document) {
    if (draw.chance(0.1)) return;
    const double bore = bore_mm(document), end = document["tube"]["end_mm"];
    const int holes = document["song"]["holes"];
    Json shop = Json::object();
    if (draw.chance(0.35)) shop["bits"] = random_bits(draw, bore);
    if (draw.chance(0.5))
        shop["diameter_mm"] =
            random_span(std::max(0.3, bore * draw.size(0.12, 0.3, 0.02, 0.9)),
                        std::max(0.3, bore * draw.size(0.35, 0.6, 0.02, 0.95)), draw);
    if (draw.chance(0.55)) {
        const double step = std::max(2.0, end / (holes + 1));
        shop["spacing_mm"] =
            random_span(std::clamp(draw.chance(0.5) ? bore * draw.between(0.7, 1.1)
                                                    : step * draw.between(0.2, 1.0),
                                   1.0, 500.0),
                        draw.size(1.2 * bore, 2.2 * bore, 1, 500), draw);
    }
    if (draw.chance(0.5)) {
        const int upper = draw.chance(0.8) ? holes / 2 : draw.whole(0, holes);
        shop["hands"] = {upper, holes - upper};
    }
    for (const char* error : {"ruler_mm", "bit_mm", "bore_mm", "wall_mm", "sound_hole_mm"}) {
        if (!draw.chance(0.4)) continue;
        shop[error] = draw.chance(0.15) ? 0.0 : draw.size(0.05, 0.5, 0, 10);
        if (draw.odd(0.02)) shop[error] = 1e-300;
    }
    if (draw.chance(0.4)) shop["temperature_c"] = draw.chance(0.2) ? 0 : draw.size(0.5, 3, 0, 20);
    if (draw.chance(0.2)) shop["risk_percent"] = draw.size(1, 10, 0.1, 50);
    document["shop"] = shop;
}

}  // namespace canewright::testing
