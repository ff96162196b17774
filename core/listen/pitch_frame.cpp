// core/listen/pitch_frame.cpp -- from period and phase to a verdict; see the header.
#include "core/listen/pitch_frame.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "core/base/units.hpp"
#include "core/listen/periodicity.hpp"
#include "core/listen/phase_slope.hpp"

namespace canewright {
namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

// Limits of the verdict. Our choice, each with what it must let pass and what it must stop.
constexpr double kSilence_dB = -80.0;   // 16 bits have their own noise at -98 dB
constexpr double kSoftest_dB = -66.0;   // about 20 steps of 16 bits
constexpr double kClarity = 0.65;       // noise 2.7 dB below the tone
constexpr double kFaintClarity = 0.45;  // noise 1 dB above it
constexpr double kFundamentalShare = 0.25;
constexpr double kFastestDrift_cents_per_s = 500.0;
// What the phase may stray from a steady drift: breath noise does by up to 0.07 rad at 150 Hz, a
// voice by half a turn. Never less than so many cents over half a frame, else high tones with a
// slow waver would fail.
constexpr double kPhaseScatter_rad = 0.15;
constexpr double kPhaseScatter_cents = 2.0;
constexpr double kLowestLevel_dB = -160.0;  // what an all-zero frame shows instead of -infinity
constexpr int kHarmonics = 8;

constexpr float kFullScale = 0.998F;  // one step of 9 bits below 1: converters differ at the top
constexpr int kClippedRun = 3;        // neighbours at full scale; a clean peak rarely has as many

bool clipped(const float* samples, std::size_t count) {
    int run = 0;
    for (std::size_t i = 0; i < count; ++i) {
        run = std::abs(samples[i]) >= kFullScale ? run + 1 : 0;
        if (run == kClippedRun) return true;
    }
    return false;
}

bool all_finite(const float* samples, std::size_t count) {
    return std::all_of(samples, samples + count, [](float x) { return std::isfinite(x); });
}

// Share of the fundamental in the power of the first harmonics inside the band. Each harmonic is as
// wide as the window's main lobe and a drift of half a semitone make it.
double fundamental_share(const Periodicity& sound, double frequency_Hz, double frame_s) {
    double fundamental = 0.0;
    double all = 0.0;
    for (int k = 1; k <= kHarmonics; ++k) {
        const double low_Hz = shifted_Hz(k * frequency_Hz, -kBeyondRange_cents) - 2.0 / frame_s;
        const double high_Hz = shifted_Hz(k * frequency_Hz, kBeyondRange_cents) + 2.0 / frame_s;
        if (low_Hz > kBandHighest_Hz) break;
        const auto first = static_cast<std::size_t>(std::max(0.0, low_Hz / sound.bin_Hz));
        const auto last = static_cast<std::size_t>(high_Hz / sound.bin_Hz);
        for (std::size_t i = first; i <= last && i < sound.power.size(); ++i) {
            all += sound.power[i];
            if (k == 1) fundamental += sound.power[i];
        }
    }
    return all > 0.0 ? fundamental / all : 0.0;
}

NoTone out_of_range(double frequency_Hz) {
    if (frequency_Hz < shifted_Hz(kLowestTone_Hz, -kBeyondRange_cents)) return NoTone::too_low;
    if (frequency_Hz > shifted_Hz(kHighestTone_Hz, kBeyondRange_cents)) return NoTone::too_high;
    return NoTone::none;
}

bool steady(const PhaseSlope& partial, double frame_s) {
    const double waver_cents = cents_between(
        1.0 + partial.phase_scatter_rad / (kPi * partial.frequency_Hz * frame_s), 1.0);
    return std::abs(partial.drift_cents_per_s) <= kFastestDrift_cents_per_s &&
           (partial.phase_scatter_rad <= kPhaseScatter_rad || waver_cents <= kPhaseScatter_cents);
}

}  // namespace

const char* name(NoTone why_not) {
    switch (why_not) {
        case NoTone::none:
            return "none";
        case NoTone::bad_input:
            return "bad_input";
        case NoTone::frame_too_short:
            return "frame_too_short";
        case NoTone::silence:
            return "silence";
        case NoTone::not_periodic:
            return "not_periodic";
        case NoTone::noisy:
            return "noisy";
        case NoTone::too_low:
            return "too_low";
        case NoTone::too_high:
            return "too_high";
        case NoTone::weak_fundamental:
            return "weak_fundamental";
        case NoTone::gliding:
            return "gliding";
        case NoTone::too_soft:
            return "too_soft";
    }
    return "";
}

PitchFrame pitch_frame(const float* samples, std::size_t count, double sample_rate_Hz) {
    PitchFrame frame{false, NoTone::bad_input, kNaN, 0.0, kLowestLevel_dB, 0.0, 0.0, false};
    const auto ends_as = [&frame](NoTone why_not) {
        frame.why_not = why_not;
        return frame;
    };
    if (!(sample_rate_Hz >= kLowestSampleRate_Hz && sample_rate_Hz <= kHighestSampleRate_Hz) ||
        !all_finite(samples, count))
        return frame;
    const double frame_s = static_cast<double>(count) / sample_rate_Hz;
    if (!(frame_s >= kShortestFrame_s)) return ends_as(NoTone::frame_too_short);

    frame.clipped = clipped(samples, count);
    const Periodicity sound = periodicity(samples, count, sample_rate_Hz);
    if (sound.band_mean_square > 0.0)
        frame.level_dB = std::max(kLowestLevel_dB, 10.0 * std::log10(sound.band_mean_square));
    if (frame.level_dB < kSilence_dB) return ends_as(NoTone::silence);

    frame.clarity = sound.period.strength;
    if (frame.clarity < kFaintClarity) return ends_as(NoTone::not_periodic);
    const double guess_Hz = 1.0 / sound.period.lag_s;
    if (out_of_range(guess_Hz) != NoTone::none) return ends_as(out_of_range(guess_Hz));

    frame.fundamental_share = fundamental_share(sound, guess_Hz, frame_s);
    if (frame.fundamental_share < kFundamentalShare) return ends_as(NoTone::weak_fundamental);
    const PhaseSlope exact = phase_slope(samples, count, sample_rate_Hz, guess_Hz);
    if (!exact.found) return ends_as(NoTone::not_periodic);
    if (!steady(exact, frame_s)) return ends_as(NoTone::gliding);

    frame.frequency_Hz = exact.frequency_Hz;
    if (frame.clarity < kClarity) return ends_as(NoTone::noisy);
    if (frame.level_dB < kSoftest_dB) return ends_as(NoTone::too_soft);
    frame.drift_cents_per_s = exact.drift_cents_per_s;
    frame.tone = true;
    return ends_as(NoTone::none);
}

}  // namespace canewright
