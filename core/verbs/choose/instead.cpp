// core/verbs/choose/instead.cpp -- of the verb `suits`: what a tube that is not worth the work
// could still become.
#include <algorithm>
#include <cmath>
#include <optional>

#include "core/base/units.hpp"
#include "core/choose/grid.hpp"
#include "core/document/typed.hpp"
#include "core/flute/resonance.hpp"
#include "core/music/pitch_name.hpp"
#include "core/verbs/choose/suits.hpp"

namespace canewright {

namespace {

// Below the fewest that the grid tries; one hole is a signal, no tune. Judgement.
constexpr int kFewHoles[] = {3, 2};
// The lower degrees of these are what few holes play. Judgement.
constexpr const char* kFewScales[] = {"minor pentatonic", "major pentatonic"};

struct Few {
    int note = 0, holes = 0;
    const Scale* scale = nullptr;
    double score = 0.0, foot_m = 0.0;
};

// The best with so many holes, of those that are worth it; `tried` becomes true where any was.
std::optional<Few> few_holes(const Document& tube, double whole_Hz, double a4_Hz, int holes,
                             bool& tried) {
    std::optional<Few> best;
    const Flute whole = flute_of(tube);
    const Air air = bore_air(tube);
    int before = -1;
    for (const Wish& wish : wishes(whole_Hz, a4_Hz)) {
        if (wish.note == before) continue;
        before = wish.note;
        if (bores_near(whole, air, whole_Hz, note_Hz(wish.note, a4_Hz)) < kLeast_bores) continue;
        tried = true;
        for (const char* name : kFewScales) {
            const Scale* scale = find_scale(name);
            ScaleEntry asked;
            asked.name = scale->name;
            const LaidOut laid =
                laid_out(with_song(tube, note_name(wish.note), asked, holes), true);
            if (!laid.carried()) continue;
            const double bores = laid.plan.flute.foot_m / bore_diameter_m(laid.task.flute, 0.0);
            const double points = score(merits(laid.task, laid.plan, laid.air));
            if (bores < kLeast_bores || points < kWorthIt || (best && points <= best->score))
                continue;
            best = Few{wish.note, holes, scale, points, laid.plan.flute.foot_m};
        }
    }
    return best;
}

}  // namespace

Json instead_json(const Document& tube, const Air& air, double whole_Hz, double a4_Hz) {
    if (!(whole_Hz > 0.0)) return nullptr;
    Json json = Json::object();
    json["fewer_holes"] = nullptr;
    bool tried = false;
    for (const int holes : kFewHoles) {
        const std::optional<Few> found = few_holes(tube, whole_Hz, a4_Hz, holes, tried);
        if (!found) continue;
        Json one = Json::object();
        one["lowest"] = note_name(found->note);
        one["scale"] = found->scale->name;
        one["holes"] = found->holes;
        one["score"] = std::round(found->score);
        one["foot_mm"] = typed_mm(found->foot_m);
        json["fewer_holes"] = std::move(one);
        break;
    }
    json["fewer_tried"] = tried;
    const Flute whole = flute_of(tube);
    const Resonance second = resonance(whole, air, {}, 2);
    const bool overblows = second.found && second.converged;
    json["no_holes"] = Json::object();
    json["no_holes"]["hz"] = whole_Hz;
    json["no_holes"]["name"] = name_json(whole_Hz, a4_Hz);
    json["no_holes"]["second_hz"] = overblows ? Json(second.frequency_Hz) : Json(nullptr);
    json["no_holes"]["bores"] = whole.foot_m / bore_diameter_m(whole, 0.0);
    return json;
}

}  // namespace canewright
