// core/element/voice.cpp: the four parts of a voice and their polynomials.
#include "core/element/voice.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/strip.hpp"
#include "core/element/voice_terms.hpp"

namespace canewright {
namespace {

constexpr int kParts = 4;
constexpr int kMostVariables = 10;  // with variable 0, which is 1

struct Part {
    double base_m = 0.0;
    double v[kMostVariables] = {1.0};
};

double held(double x, const Span& span) { return std::clamp(x, span.least, span.most); }

}  // namespace

double voice_end_change_m(const WindowShape& s) {
    const VoiceShape& voice = s.voice;
    const double W = s.length_m, H = s.width_m, t = s.wall_m;
    // An opening wider than the bore lies on the flat side of an oval one.
    const double a = std::max(s.bore_radius_m, 0.515 * H);
    const bool ramped = voice.ramp_m > 0.0, blocked = voice.block_height_m > 0.0;
    const bool walled = voice.walls_height_m > 0.0;
    if (!ramped && !blocked && !walled) return 0.0;

    const VoiceRange& range = kVoiceHeld;
    const double thick_wall = held(t / W, range.wall), tau = thick_wall / (thick_wall + 0.4);
    const double high_wide = std::log(held(H / W, range.width));
    const double to_bore = std::log(held(W / s.bore_radius_m, range.length));
    const double front = std::clamp(voice.front_m / W, range.front.least, range.front.most);
    const double back_m = std::max(front, 0.0) * W, over_m = std::max(-front, 0.0) * W;
    Part parts[kParts];

    double cut = 0.0;  // how much of the wall the ramp takes away
    if (ramped) {
        const double r = voice.ramp_m / W, edge = std::min(voice.edge_m / t, 1.0);
        cut = (1.0 - edge) * r / (1.0 + r);
        parts[0] = {
            -(1.0 - edge) * t * (1.0 - std::log1p(r) / r) * tau,
            {1.0, std::log(held(r, range.ramp)), held(edge, range.edge), tau, high_wide, to_bore}};
    }
    const double block_m = std::min(voice.block_height_m, range.block_height.most * W);
    const double high = block_m / (block_m + 0.5 * std::sqrt(W * H));
    if (blocked) {
        const double image_m =
            (strip_potential_m3(2.0 * (back_m + W), H) -
             2.0 * strip_potential_m3(2.0 * back_m + W, H) + strip_potential_m3(2.0 * back_m, H)) /
            (2.0 * kPi * W * H);
        const double wide = voice.block_width_m / (voice.block_width_m + H);
        parts[1] = {image_m * high, {1.0, high, wide, tau, high_wide, to_bore, cut, back_m / W}};
        parts[2] = {over_m, {1.0, over_m / W, tau, high_wide, cut}};
    }
    if (walled) {
        // beside the opening the tube lies lower than its top, from which their height counts
        const double outer_m = a + t;
        const double sag_m = outer_m - std::sqrt(outer_m * outer_m - 0.25 * H * H);
        const double height_m = std::min(voice.walls_height_m, range.walls_height.most * W);
        const double up = (height_m + sag_m) / W;
        const double along = held(voice.walls_length_m / W, range.walls_length);
        const double thick = held(voice.walls_thickness_m / W, range.walls_thickness);
        parts[3] = {W * std::log1p(up),
                    {1.0, up / (1.0 + up), tau, high_wide, to_bore, cut, along / (along + 1.0),
                     thick / (thick + 0.5), blocked ? high : 0.0, front}};
    }
    double change_m = 0.0;
    for (const VoiceTerm& term : kVoiceTerms) {
        const Part& part = parts[term.part];
        change_m += static_cast<double>(term.c) * part.base_m * part.v[term.i] * part.v[term.j];
    }
    return change_m;
}

bool in_voice_range(const WindowShape& s) {
    const VoiceShape& voice = s.voice;
    const VoiceRange& range = kVoiceHeld;
    const auto within = [](double x, const Span& span) {
        constexpr double kRounding = 1e-9;
        return x >= span.least - kRounding && x <= span.most + kRounding;
    };
    const double W = s.length_m;
    return (voice.ramp_m == 0.0 || (within(voice.ramp_m / W, range.ramp) &&
                                    within(voice.edge_m / s.wall_m, range.edge))) &&
           (voice.block_height_m == 0.0 || (within(voice.block_height_m / W, range.block_height) &&
                                            within(voice.front_m / W, range.front))) &&
           (voice.walls_height_m == 0.0 ||
            (within(voice.walls_height_m / W, range.walls_height) &&
             within(voice.walls_length_m / W, range.walls_length) &&
             within(voice.walls_thickness_m / W, range.walls_thickness)));
}

}  // namespace canewright
