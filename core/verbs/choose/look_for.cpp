// core/verbs/choose/look_for.cpp -- of the verb `suits`: the tube to look for, for a lowest note.
#include <algorithm>
#include <cmath>
#include <vector>

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
Document sized(const Document& like, double bore_m) {
    const Flute flute = flute_of(like);
    const double factor = bore_m / bore_diameter_m(flute, 0.0);
    Document document = like;
    document.foot_plug.reset();
    TubeEntry tube = like.tube.value_or(TubeEntry{});
    tube.ridge.reset();
    tube.outer_m.reset();
    tube.bore = {{0.0, bore_m, {}}};
    tube.wall_m = factor * flute.wall_m;
    document.tube = tube;
    if (document.plug && document.plug->offset_m) *document.plug->offset_m *= factor;
    SoundHoleEntry hole = like.sound_hole.value_or(SoundHoleEntry{});
    hole.length_m *= factor;
    hole.width_m *= factor;
    hole.wall_m = factor * flute.sound_hole.wall_m;
    document.sound_hole = hole;
    return document;
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
double bore_m(const Document& like, const Air& air, double lowest_Hz, double bores) {
    double bore = 0.5 * air.sound_speed_m_s / lowest_Hz / bores;
    for (int trip = 0; trip < 6; ++trip)
        bore = foot_m(flute_of(sized(like, bore)), air, lowest_Hz) / bores;
    return bore;
}

Json span_json(double one_m, double other_m) {
    Json json = Json::object();
    json["min"] = typed_mm(std::min(one_m, other_m));
    json["max"] = typed_mm(std::max(one_m, other_m));
    return json;
}

// How many bores between the ends are tried.
constexpr int kBoresTried = 7;

// Those of them, from narrow to wide, that carry the song with the maker's hands and bits: the
// longest row of neighbours. Empty: none does.
std::vector<double> carrying_m(const Document& like, const Air& air, double lowest_Hz,
                               double narrow_m, double wide_m) {
    std::vector<double> longest, row;
    for (int i = 0; i < kBoresTried; ++i) {
        const double bore_m =
            narrow_m * std::pow(wide_m / narrow_m, i / static_cast<double>(kBoresTried - 1));
        Document document = sized(like, bore_m);
        document.tube->end_m = (1.0 + kSpare) * foot_m(flute_of(document), air, lowest_Hz);
        if (laid_out(document, true).carried())
            row.push_back(bore_m);
        else
            row.clear();
        if (row.size() > longest.size()) longest = row;
    }
    return longest;
}

}  // namespace

Json look_for_json(const Document& tube, double lowest_Hz) {
    const Air air = bore_air(tube);
    double narrow_m = bore_m(tube, air, lowest_Hz, kLongest_bores);
    double wide_m = bore_m(tube, air, lowest_Hz, kShortest_bores);
    const std::vector<double> carrying = carrying_m(tube, air, lowest_Hz, narrow_m, wide_m);
    if (!carrying.empty()) {
        narrow_m = carrying.front();
        wide_m = carrying.back();
    }
    const double long_m = foot_m(flute_of(sized(tube, narrow_m)), air, lowest_Hz);
    const double short_m = foot_m(flute_of(sized(tube, wide_m)), air, lowest_Hz);
    Json json = Json::object();
    json["lowest_hz"] = lowest_Hz;
    json["carries"] = !carrying.empty();
    json["bore_mm"] = span_json(narrow_m, wide_m);
    json["length_mm"] = span_json((1.0 + kSpare) * short_m, (1.0 + kSpare) * long_m);
    json["wall_mm"] = span_json(kThinWall * narrow_m, kThickWall * wide_m);
    json["above_mm"] = typed_mm(least_above_m(tube));
    return json;
}

}  // namespace canewright
