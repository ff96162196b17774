// core/listen/pitch_frame.hpp -- one frame of sound: is it the tone of a flute, and how high.
#pragma once

#include <cstddef>

namespace canewright {

enum class NoTone {
    none,              // it is a tone
    bad_input,         // a sample that is not finite, or a sample rate outside 8 to 192 kHz
    frame_too_short,   // shorter than kShortestFrame_s
    silence,           // nothing to hear in the band
    not_periodic,      // noise
    noisy,             // something repeats, but the noise is too strong to trust it
    too_low,           // it repeats, but more slowly than 150 Hz: hum, a man's voice
    too_high,          // above 3000 Hz: a whistle
    weak_fundamental,  // harmonics as of a voice or a string
    gliding,           // the pitch moves as in speech
    too_soft,          // a tone, but as soft as the converter's own noise
};

// Every reason in the order above; for lists of texts and for tests.
inline constexpr int kNoToneCount = 11;
// The stable name of a reason ("not_periodic"); the page keys its texts on it.
const char* name(NoTone why_not);

struct PitchFrame {
    bool tone;
    NoTone why_not;
    double frequency_Hz;       // mean over the frame; NaN unless tone, noisy or too_soft
    double clarity;            // 0..1: share of the power that is periodic (0.9: noise 10 dB down)
    double level_dB;           // between 120 and 5000 Hz; a full-scale sine is -3 dB
    double drift_cents_per_s;  // within the frame; 0 unless `tone`
    double fundamental_share;  // of the power of the harmonics, 0..1; 0 where nothing repeats
    bool clipped;              // the samples touch full scale
};

// Tones are read in this range, and half a semitone beyond so that its ends may drift.
inline constexpr double kLowestTone_Hz = 150.0;
inline constexpr double kHighestTone_Hz = 3000.0;
inline constexpr double kBeyondRange_cents = 50.0;

inline constexpr double kLowestSampleRate_Hz = 8e3;
inline constexpr double kHighestSampleRate_Hz = 192e3;
// Below, too few periods of the lowest tone for phase_slope and too little to tell noise from tone.
inline constexpr double kShortestFrame_s = 0.12;

// The promise, for frames of at least 0.17 s (8192 samples at 48 kHz) and tones with a strong
// fundamental, breath noise 10 dB below, drifting by +-30 cents: |error| of the mean frequency of
// the frame. The tests use these constants.
inline constexpr double kFrameMedianError_cents = 1.0;
inline constexpr double kFrame95Error_cents = 3.0;

// Pitch of one frame.
//
//   samples, count   mono, full scale +-1
//   sample_rate_Hz   8 to 192 kHz; read it anew for every frame, it may change while listening
//
// Model    period by autocorrelation (core/listen/periodicity.hpp), made exact by the phase of
//          the fundamental (core/listen/phase_slope.hpp), then asked whether it is a flute:
//          clarity, range, share of the fundamental, steadiness. Limits in the .cpp.
// Valid    one flute at a time. A steady sung vowel with a strong fundamental, a whistling person
//          or a ventilator that truly sings passes as a tone: it is one.
// Error    kFrameMedianError_cents, kFrame95Error_cents.
// Source   see the two headers named.
// Checked  tests/core/listen/pitch_frame_test.cpp
PitchFrame pitch_frame(const float* samples, std::size_t count, double sample_rate_Hz);

}  // namespace canewright
