// core/task/voice.hpp: the voice as it was cut, as far as a document says, and what is taken for
// the rest. Layer: task.
#pragma once

#include <algorithm>

#include "core/document/document.hpp"

namespace canewright {

// What is taken for what nobody has measured, in lengths of the sound hole but where another unit
// stands. Our judgement of what makers cut (common practice, no source); where a word says what was
// seen, it means these.
inline constexpr double kShortRamp = 1.0, kUsualRamp = 2.0, kLongRamp = 3.5;
inline constexpr double kLowSideWalls = 0.3, kHighSideWalls = 1.0;
inline constexpr double kUsualSideWalls = 0.15;  // of none and some, about as often
inline constexpr double kUsualSideWall = 0.4;    // their thickness
inline constexpr double kUsualBlockHeight = 1.2;
inline constexpr double kThinEdge = 0.06, kUsualEdge = 0.15, kThickEdge = 0.4;  // of the wall there

// What is taken for a ramp and a block of which nobody has said how large: no more than a bore.
inline double usual_ramp_m(double length_m, double bore_m) {
    return std::min(kUsualRamp * length_m, bore_m);
}
inline double usual_block_height_m(double length_m, double bore_m) {
    return std::min(kUsualBlockHeight * length_m, bore_m);
}

// What is left to know of a voice whose every part was measured, relative inertance, one standard
// deviation: the model's own error is a fifth of it (core/element/voice); the rest is the jet
// (blown less passive +20 to -25 cents, J.W. Coltman, J. Acoust. Soc. Am. 40 (1966) 99, from
// memory), edges that are not square, and the player's face (judgement).
inline constexpr double kVoiceRest = 0.05;
inline constexpr double kMostVoiceSigma = 0.25;  // of any shape, that the belief stays one

// What somebody said of a voice.
struct VoiceSaid {
    SoundHoleEntry sound_hole;
    std::optional<BlockEntry> block;
    bool absent_is_bare = false;  // the lossless form, for comparison with calculations
};
VoiceSaid voice_said(const Document& document);

// The flute's tube and sound hole must stand already.
VoiceShape voice_shape(const VoiceSaid& said, const Flute& flute);

// How far the sound hole's inertance may be off for what is not known of the voice, relative, one
// standard deviation: kVoiceRest, and for each part that was not measured half the difference
// between what makers cut less and more of (absent: from none or short to high or long; seen: a
// third less and half more).
double voice_sigma(const VoiceSaid& said, const Flute& flute);

}  // namespace canewright
