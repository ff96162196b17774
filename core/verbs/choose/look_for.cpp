// core/verbs/choose/look_for.cpp -- of the verb `suits`: the tube to look for, for a lowest note.
#include <algorithm>
#include <cmath>
#include <optional>

#include "core/base/units.hpp"
#include "core/document/typed.hpp"
#include "core/flute/resonance.hpp"
#include "core/task/task.hpp"
#include "core/verbs/choose/suits.hpp"
#include "core/verbs/voice/voice_parts.hpp"

namespace canewright {

namespace {

// A wall of a tube that is worked by hand, over a bore of the middle. Common practice, no source.
constexpr double kThinWall = 0.08, kThickWall = 0.2;
// More than the sounding length, to be sawn off: the foot, and a first cut left long.
constexpr double kSpare = 0.08;

// The tube of the document in another size; a straight bore. `wall_m` 0: in proportion.
Document sized(const Document& like, double bore_m, double wall_m = 0.0) {
    const Flute flute = flute_of(like);
    const double factor = bore_m / bore_diameter_m(flute, 0.0);
    Document document = like;
    document.foot_plug.reset();
    TubeEntry tube = like.tube.value_or(TubeEntry{});
    tube.ridge.reset();
    tube.outer_m.reset();
    tube.bore = {{0.0, bore_m, {}}};
    tube.wall_m = wall_m > 0.0 ? wall_m : factor * flute.wall_m;
    document.tube = tube;
    if (document.plug && document.plug->offset_m) *document.plug->offset_m *= factor;
    SoundHoleEntry hole = like.sound_hole.value_or(SoundHoleEntry{});
    hole.length_m *= factor;
    hole.width_m *= factor;
    if (hole.wall_m) *hole.wall_m *= factor;
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

// How many bores between the ends are tried, each with as many walls.
constexpr int kBoresTried = 7, kWallsTried = 3;

double between(double from, double to, int step, int steps) {
    return from * std::pow(to / from, step / static_cast<double>(steps - 1));
}

// Bores and walls of which every pair carries the song: neighbours among those that were tried.
struct Sizes {
    double narrow_m = 0.0, wide_m = 0.0, thin_m = 0.0, thick_m = 0.0;
};

// The most of them that carry the song with the maker's hands and bits; nothing where none does.
std::optional<Sizes> carrying(const Document& like, const Air& air, double lowest_Hz,
                              const Sizes& all) {
    bool carries[kWallsTried][kBoresTried];
    for (int w = 0; w < kWallsTried; ++w)
        for (int b = 0; b < kBoresTried; ++b) {
            Document document = sized(like, between(all.narrow_m, all.wide_m, b, kBoresTried),
                                      between(all.thin_m, all.thick_m, w, kWallsTried));
            document.tube->end_m = (1.0 + kSpare) * foot_m(flute_of(document), air, lowest_Hz);
            carries[w][b] = laid_out(document, true).carried();
        }
    int most = 0;
    std::optional<Sizes> found;
    for (int thin = 0; thin < kWallsTried; ++thin)
        for (int thick = thin; thick < kWallsTried; ++thick)
            for (int from = 0; from < kBoresTried; ++from)
                for (int to = from; to < kBoresTried; ++to) {
                    bool every = true;
                    for (int w = thin; w <= thick; ++w)
                        for (int b = from; b <= to; ++b) every = every && carries[w][b];
                    const int count = (thick - thin + 1) * (to - from + 1);
                    if (!every || count <= most) continue;
                    most = count;
                    found = Sizes{between(all.narrow_m, all.wide_m, from, kBoresTried),
                                  between(all.narrow_m, all.wide_m, to, kBoresTried),
                                  between(all.thin_m, all.thick_m, thin, kWallsTried),
                                  between(all.thin_m, all.thick_m, thick, kWallsTried)};
                }
    return found;
}

}  // namespace

Json look_for_json(const Document& tube, double lowest_Hz) {
    const Air air = bore_air(tube);
    Sizes sizes;
    sizes.narrow_m = bore_m(tube, air, lowest_Hz, kLongest_bores);
    sizes.wide_m = bore_m(tube, air, lowest_Hz, kShortest_bores);
    const double middle_m = std::sqrt(sizes.narrow_m * sizes.wide_m);
    sizes.thin_m = kThinWall * middle_m;
    sizes.thick_m = kThickWall * middle_m;
    const std::optional<Sizes> carried = carrying(tube, air, lowest_Hz, sizes);
    if (carried) sizes = *carried;
    const double thick_m = std::sqrt(sizes.thin_m * sizes.thick_m);
    const double long_m = foot_m(flute_of(sized(tube, sizes.narrow_m, thick_m)), air, lowest_Hz);
    const double short_m = foot_m(flute_of(sized(tube, sizes.wide_m, thick_m)), air, lowest_Hz);
    Json json = Json::object();
    json["lowest_hz"] = lowest_Hz;
    json["carries"] = carried.has_value();
    json["bore_mm"] = span_json(sizes.narrow_m, sizes.wide_m);
    json["length_mm"] = span_json((1.0 + kSpare) * short_m, (1.0 + kSpare) * long_m);
    json["wall_mm"] = span_json(sizes.thin_m, sizes.thick_m);
    json["above_mm"] = typed_mm(least_above_m(tube));
    return json;
}

}  // namespace canewright
