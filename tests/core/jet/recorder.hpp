// tests/core/jet/recorder.hpp: a six-hole duct flute and its voice, for tests of what blows it.
#pragma once

#include "core/flute/geometry.hpp"
#include "core/jet/regime.hpp"

namespace canewright::testing {

inline Air blown_air() { return moist_air(sounding_air(AirState{})); }

// Something like an alto recorder without its taper: six holes, thumb hole left out.
inline Flute recorder_like() {
    Flute flute;
    flute.bore = {{0.0, 0.019, 0.019}};
    flute.wall_m = 0.004;
    flute.sound_hole.length_m = 0.004;
    flute.sound_hole.width_m = 0.012;
    flute.sound_hole.wall_m = 0.004;
    flute.foot_m = 0.28;
    for (int n = 0; n < 6; ++n) {
        FingerHole hole;
        hole.at_m = 0.15 + 0.02 * n;
        hole.diameter_m = hole.inner_diameter_m = 0.007;
        hole.wall_m = 0.004;
        flute.holes.push_back(hole);
    }
    return flute;
}

inline Voice recorder_voice() {
    Voice voice;
    voice.track = {1e-3, 12e-3, 40e-3, 0.0};
    voice.window_m = 4e-3;
    voice.width_m = 12e-3;
    voice.edge_offset_m = 1e-4;
    return voice;
}

// The lowest `open` of six holes.
inline Fingering lowest_open(int open) {
    Fingering holes;
    for (int n = 7 - open; n <= 6; ++n) holes.push_back(n);
    return holes;
}

}  // namespace canewright::testing
