// core/element/voice.hpp: what ramp, block and side walls do to a sound hole. Layer: element.
#pragma once

#include "core/element/sound_hole.hpp"

namespace canewright {

// By how much the opening's length (wall and both ends, as in window_inertance_length_m) grows over
// the bare one's for its VoiceShape [m]; 0 for a bare one.
//
// Model    a sum of four parts, each a length with a reason times a polynomial of second degree
//          (voice_terms.hpp): the ramp opens the slot as a horn does, the block is a mirror, its
//          overhang covers, side walls make the slot go on outside.
// Valid    kVoiceHeld, the shapes solved: in_voice_range(); variables are held beyond.
// Error    kVoiceError_cents on a tube's resonance on 95 of 100 tubes solved whole, where the bare
//          opening is 11 off in the middle and 46 at most; 3.9 on 95 of 100 shapes that were kept
//          from the fit, which reach to the corners of the range; side walls four times as high as
//          they are long 30.
// Source   steady potential flow by finite elements, tools/reference/voice_theory.py and
//          voice_fit.py, where shapes count less the farther they are from what makers cut; no tube
//          that was solved whole is in it, and no measurement.
double voice_end_change_m(const WindowShape& shape);

// Whether the voice's parts are like those that were solved.
bool in_voice_range(const WindowShape& shape);

// tests/whole/voices_test.cpp holds it, the median and the worst.
inline constexpr double kVoiceError_cents = 4.0;

struct Span {
    double least, most;
};
// Ratios to the opening's length, but for the edge's to the wall and the length's to the bore's
// radius.
struct VoiceRange {
    Span length{0.3, 1.5};
    Span ramp{0.5, 6.0}, edge{0.03, 0.9}, block_height{0.4, 4.0}, front{-0.3, 0.5};
    Span width{0.35, 5.5}, wall{0.055, 2.6};
    Span walls_height{0.06, 2.5}, walls_length{0.3, 2.5}, walls_thickness{0.15, 1.0};
};
inline constexpr VoiceRange kVoiceHeld{};

}  // namespace canewright
