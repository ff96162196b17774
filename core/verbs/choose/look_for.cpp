// core/verbs/choose/look_for.cpp -- of the verb `suits`: the tube to look for, for a lowest note.
#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/document/typed.hpp"
#include "core/flute/resonance.hpp"
#include "core/task/task.hpp"
#include "core/verbs/choose/suits.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

// A wall of a tube that is worked by hand, over its bore. Common practice, no source.
constexpr double kThinWall = 0.08, kThickWall = 0.2;
// More than the sounding length, to be sawn off: the foot, and a first cut left long.
constexpr double kSpare = 0.08;

// The tube of the document in another size; a straight bore.
Flute sized(const Flute& like, double bore_m) {
    const double factor = bore_m / bore_diameter_m(like, 0.0);
    Flute flute = like;
    flute.holes.clear();
    flute.foot_plug.reset();
    flute.ridge.reset();
    flute.bore = {{0.0, bore_m, bore_m}};
    flute.wall_m *= factor;
    flute.plug_offset_m *= factor;
    flute.sound_hole.length_m *= factor;
    flute.sound_hole.width_m *= factor;
    flute.sound_hole.wall_m *= factor;
    return flute;
}

// Where it is to be sawn for that note [m]; a secant, half a wave for each step.
double foot_m(Flute flute, const Air& air, double lowest_Hz) {
    flute.foot_m = 0.5 * air.sound_speed_m_s / lowest_Hz;
    for (int trip = 0; trip < 20; ++trip) {
        const Resonance found = resonance(flute, air, {}, 1);
        if (!found.converged) break;
        const double off_m =
            0.5 * air.sound_speed_m_s * (1.0 / lowest_Hz - 1.0 / found.frequency_Hz);
        flute.foot_m = std::max(flute.foot_m + off_m, flute.sound_hole.length_m);
        if (std::abs(cents_between(found.frequency_Hz, lowest_Hz)) < 0.1) break;
    }
    return flute.foot_m;
}

// The bore of which that note's sounding length is so many. The length hardly hangs on the bore,
// so each guess is nearer by an end correction's share.
double bore_m(const Flute& like, const Air& air, double lowest_Hz, double bores) {
    double bore = 0.5 * air.sound_speed_m_s / lowest_Hz / bores;
    for (int trip = 0; trip < 6; ++trip) bore = foot_m(sized(like, bore), air, lowest_Hz) / bores;
    return bore;
}

Json span_json(double one_m, double other_m) {
    Json json = Json::object();
    json["min"] = typed_mm(std::min(one_m, other_m));
    json["max"] = typed_mm(std::max(one_m, other_m));
    return json;
}

}  // namespace

Json look_for_json(const Document& tube, double lowest_Hz) {
    const Flute like = flute_of(tube);
    const Air air = bore_air(tube);
    const double narrow_m = bore_m(like, air, lowest_Hz, kLongest_bores);
    const double wide_m = bore_m(like, air, lowest_Hz, kShortest_bores);
    const double long_m = foot_m(sized(like, narrow_m), air, lowest_Hz);
    const double short_m = foot_m(sized(like, wide_m), air, lowest_Hz);
    Json json = Json::object();
    json["lowest_hz"] = lowest_Hz;
    json["bore_mm"] = span_json(narrow_m, wide_m);
    json["length_mm"] = span_json((1.0 + kSpare) * short_m, (1.0 + kSpare) * long_m);
    json["wall_mm"] = span_json(kThinWall * narrow_m, kThickWall * wide_m);
    json["above_mm"] = typed_mm(least_above_m(tube));
    return json;
}

}  // namespace canewright
