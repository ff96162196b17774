// tools/virtual_makers/tube.cpp: the draws, with the ranges they are drawn from.
#include "tools/virtual_makers/tube.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/units.hpp"
#include "core/layout/place_holes.hpp"
#include "core/music/fingering.hpp"
#include "core/music/scale.hpp"
#include "tools/virtual_makers/voice.hpp"

namespace virtual_makers {
namespace {

using namespace canewright;

struct Tune {
    const char* scale;
    int holes;
};
constexpr std::array<Tune, 5> kTunes = {{{"minor pentatonic", 5},
                                         {"major pentatonic", 5},
                                         {"minor pentatonic", 6},
                                         {"natural minor", 6},
                                         {"major", 6}}};
constexpr double kAllowance = 1.12;  // how much longer the blank is than its flute, roughly

std::vector<double> half_millimetre_bits() {
    std::vector<double> bits;
    for (int halves = 4; halves <= 26; ++halves) bits.push_back(m_from_mm(0.5 * halves));
    return bits;
}

// Without its opening, wall and plug: those are the voice's.
TrueFlute draw_truth(Random& random, double bore_m) {
    TrueFlute t;
    t.bore_m = bore_m;
    t.taper = uniform(random, -0.01, 0.01);
    t.voice = std::exp(normal(random, 0.05));
    t.breath_share = std::clamp(0.45 + normal(random, 0.08), 0.2, 0.7);
    t.humidity = uniform(random, 0.35, 0.65);
    t.edge_m = uniform(random, 0.0, 0.3e-3);
    t.fingertip = uniform(random, 0.1, 0.5);
    t.breath_drift_cents = uniform(random, 0.0, 15.0);
    t.space = uniform(random, 2.0, 4.0);
    return t;
}

// Moves one number of a flute until a note sounds; false where its range does not hold it.
template <class Set>
bool tune(TrueFlute& flute, const std::vector<int>& open, double room_C, double target_Hz,
          double low, double high, Set set) {  // set(low) sounds lower
    const auto above = [&](double x) {
        set(x);
        const double Hz = sounding_Hz(flute, open, room_C);
        return std::isfinite(Hz) && Hz > target_Hz;
    };
    if (above(low) || !above(high)) return false;
    for (int n = 0; n < 16; ++n) {
        const double middle = 0.5 * (low + high);
        (above(middle) ? high : low) = middle;
    }
    set(0.5 * (low + high));
    return true;
}

}  // namespace

Blank draw_blank(Random& random, Told told, const Habits& habits, double lift_cents) {
    int too_odd = 0, too_long = 0;
    for (;;) {
        Blank b;
        b.habits = habits;
        const double bore_m = uniform(random, 8e-3, 20e-3);
        b.truth = draw_truth(random, bore_m);
        const VoiceShape cut = cut_voice(random, b.truth);
        const double length_m = std::clamp(bore_m * uniform(random, 15.0, 26.0), 0.21, 0.42);

        // what the maker measured
        const double bore_seen_m = bore_m + normal(random, habits.hands * b.measures.bore_m);
        b.measured.bore = {{0.0, bore_seen_m, bore_seen_m}};
        b.measured.wall_m = b.truth.wall_m + normal(random, habits.hands * b.measures.wall_m);
        b.measured.plug_offset_m = std::max(0.0, b.truth.plug_offset_m + normal(random, 0.2e-3));
        b.measured.sound_hole.length_m = b.truth.window_length_m + normal(random, 0.1e-3);
        b.measured.sound_hole.width_m = b.truth.window_width_m + normal(random, 0.1e-3);
        b.measured.sound_hole.wall_m = b.measured.wall_m;
        tell_voice(told, cut, random, b);
        b.room.humidity_fraction = 0.5;
        b.first_room_C = uniform(random, 15.0, 23.0);
        b.thermometer_C = normal(random, 0.5);
        b.truth.foot_m = kAllowance * length_m + uniform(random, 0.0, 0.03);
        b.measured.foot_m = b.truth.foot_m + normal(random, habits.hands * b.measures.ruler_m);

        // the tune
        const Tune tune = kTunes[static_cast<std::size_t>(uniform(random, 0.0, kTunes.size()))];
        const double lowest_Hz = 347.0 / (2.0 * (length_m + 2.5 * bore_m));
        const double key_Hz =
            440.0 * std::exp2(std::round(12.0 * std::log2(lowest_Hz / 440.0)) / 12.0);
        b.truth.lowest_Hz = key_Hz;
        const ResolvedFingerings fingered = resolve_fingerings(*find_scale(tune.scale), tune.holes);
        for (const FingeredStep& step : fingered.steps)
            b.aim.notes.push_back(
                {step.open, step.step_cents, shifted_Hz(key_Hz, step.step_cents)});
        b.aim.play_C = 20.0;
        b.aim.needs_drying = uniform(random, 0.0, 1.0) < 0.5;
        b.aim.shop.bits_m = half_millimetre_bits();
        b.aim.shop.diameter_min_m = 2.5e-3;
        b.aim.shop.diameter_max_m = 0.62 * bore_seen_m;
        b.aim.shop.spacing_min_m = std::max(13e-3, 0.9 * bore_m);
        b.aim.shop.hands = {tune.holes / 2, tune.holes - tune.holes / 2};

        LayoutTask task;
        task.flute = b.measured;
        task.hole_count = tune.holes;
        task.notes = b.aim.notes;
        task.lift_cents = lift_cents;
        task.end_m = b.measured.foot_m;
        task.shop = b.aim.shop;
        task.shop.bits_m.clear();
        AirState room = b.room;
        room.temperature_C = b.aim.play_C;
        b.layout = place_holes(task, moist_air(sounding_air(room)));
        too_odd += !b.layout.converged || b.layout.worst_cents > 0.5;
        if (!b.layout.converged || b.layout.worst_cents > 0.5) continue;
        too_long += b.layout.flute.foot_m > 0.97 * b.measured.foot_m;
        if (b.layout.flute.foot_m > 0.97 * b.measured.foot_m) continue;
        b.rejected_notes = too_odd;
        b.rejected_foot = too_long;
        b.truth.holes.resize(b.layout.flute.holes.size());
        return b;
    }
}

TrueFlute draw_pattern(Random& random, const Blank& blank, double bore_spread) {
    TrueFlute p = draw_truth(random, blank.truth.bore_m * (1.0 + normal(random, bore_spread)));
    p.wall_m = blank.truth.wall_m * (1.0 + normal(random, 0.12));
    p.lowest_Hz = blank.truth.lowest_Hz;
    p.window_length_m = blank.truth.window_length_m * (1.0 + normal(random, 0.03));  // copied too
    p.window_width_m = blank.truth.window_width_m * (1.0 + normal(random, 0.03));
    // alike, and so is all that stands round it
    const auto over_opening = [](const TrueFlute& f) {
        return f.bore_m * f.bore_m / (f.window_length_m * f.window_width_m);
    };
    p.mouth_m = blank.truth.mouth_m * over_opening(p) / over_opening(blank.truth) *
                (1.0 + normal(random, 0.03));
    p.plug_offset_m = blank.truth.plug_offset_m;
    const auto target = [&](std::size_t n) { return blank.aim.notes[n].target_Hz; };
    p.holes.clear();
    for (const FingerHole& hole : blank.layout.flute.holes)
        p.holes.push_back({hole.at_m, hole.diameter_m, false});
    // in tune by its own truth, place by place: the pattern's maker had practice
    if (!tune(p, {}, blank.aim.play_C, target(0), 1.3 * blank.layout.flute.foot_m,
              0.7 * blank.layout.flute.foot_m, [&](double x) { p.foot_m = x; }))
        return {};
    for (int round = 0; round < 2; ++round)
        for (std::size_t n = 1; n < blank.aim.notes.size(); ++n) {
            const std::vector<int>& open = blank.aim.notes[n].open;
            const std::size_t own =
                static_cast<std::size_t>(*std::min_element(open.begin(), open.end()) - 1);
            p.holes[own].cut = true;
            const double at_m = p.holes[own].at_m;
            if (!tune(p, open, blank.aim.play_C, target(n), at_m + 0.02, at_m - 0.02,
                      [&](double x) { p.holes[own].at_m = x; }))
                return {};
        }
    return p;
}

std::vector<double> departures_cents(const Blank& blank) {
    TrueFlute exact = blank.truth;
    exact.foot_m = blank.layout.flute.foot_m;
    exact.holes.clear();
    for (const FingerHole& hole : blank.layout.flute.holes)
        exact.holes.push_back({hole.at_m, hole.diameter_m, true});
    return errors_cents(exact, blank.aim);
}

std::vector<double> errors_cents(const TrueFlute& flute, const Aim& aim) {
    std::vector<double> errors;
    for (const NoteTarget& note : aim.notes)
        errors.push_back(cents_between(sounding_Hz(flute, note.open, aim.play_C), note.target_Hz));
    return errors;
}

}  // namespace virtual_makers
