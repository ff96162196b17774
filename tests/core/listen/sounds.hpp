// tests/core/listen/sounds.hpp -- seeded synthetic sounds: flute tones, noise, a voice, a fan.
//
// Nothing here comes from core/: the truth of a tone is the phase it was made from.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <random>
#include <vector>

namespace sounds {

using Samples = std::vector<float>;
inline constexpr double kTurn = 6.283185307179586;

// The same numbers natively and in wasm: the distributions of the standard library differ.
class Dice {
   public:
    explicit Dice(std::uint64_t seed) : bits_(seed) {}
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(bits_() >> 11) * 0x1p-53;
    }
    // Evenly on a logarithmic scale, as pitches are.
    double pitch_between(double low_Hz, double high_Hz) {
        return low_Hz * std::pow(high_Hz / low_Hz, between(0.0, 1.0));
    }
    double normal() {  // Box & Muller 1958
        return std::sqrt(-2.0 * std::log(1.0 - between(0.0, 1.0))) *
               std::cos(kTurn * between(0.0, 1.0));
    }

   private:
    std::mt19937_64 bits_;
};

inline double rms(const std::vector<double>& x) {
    double sum = 0.0;
    for (const double value : x) sum += value * value;
    return std::sqrt(sum / static_cast<double>(x.size()));
}

inline void scale_to(std::vector<double>& x, double new_rms) {
    const double factor = new_rms / rms(x);
    for (double& value : x) value *= factor;
}

inline Samples as_floats(const std::vector<double>& x) {
    Samples out(x.size());
    std::transform(x.begin(), x.end(), out.begin(), [](double v) { return static_cast<float>(v); });
    return out;
}

inline std::vector<double> white(Dice& dice, std::size_t count) {
    std::vector<double> x(count);
    for (double& value : x) value = dice.normal();
    return x;
}

// -3 dB per octave: one-pole low passes an octave apart, each of half the power of white noise in
// its octave, added up (Gardner 1978, Scientific American 238(4), in continuous form).
inline std::vector<double> pink(Dice& dice, std::size_t count, double rate_Hz) {
    std::vector<double> x(count, 0.0);
    for (double corner_Hz = 15.0; corner_Hz < 0.4 * rate_Hz; corner_Hz *= 2.0) {
        const double keep = std::exp(-kTurn * corner_Hz / rate_Hz);
        const double gain = std::sqrt(1.0 - keep * keep);  // same variance for each pole
        double state = dice.normal();
        for (double& value : x) {
            state = keep * state + gain * dice.normal();
            value += state;
        }
    }
    return x;
}

struct Tone {
    Samples samples;
    std::vector<double> turns;  // of the fundamental at each sample, one more than samples
    double rate_Hz;

    // What the frame [from, from + count) should read: turns made, over the time taken.
    double mean_Hz(std::size_t from, std::size_t count) const {
        return (turns[from + count] - turns[from]) * rate_Hz / static_cast<double>(count);
    }
};

struct Recipe {
    double rate_Hz;
    double seconds;
    std::function<double(double)> frequency_Hz;  // of time [s]
    std::vector<double> amplitudes;              // of harmonic 1, 2, ..
    double noise_dB;                             // power of the noise relative to the tone's
    bool pink_noise;
    double level_rms;
};

inline Tone flute(Dice& dice, const Recipe& recipe) {
    const auto count = static_cast<std::size_t>(recipe.seconds * recipe.rate_Hz);
    Tone tone{{}, std::vector<double>(count + 1, 0.0), recipe.rate_Hz};
    std::vector<double> phases;
    for (std::size_t k = 0; k < recipe.amplitudes.size(); ++k)
        phases.push_back(dice.between(0.0, kTurn));
    std::vector<double> sound(count, 0.0);
    for (std::size_t i = 0; i < count; ++i) {
        const double now_Hz = recipe.frequency_Hz(static_cast<double>(i) / recipe.rate_Hz);
        for (std::size_t k = 0; k < phases.size(); ++k) {
            const double order = static_cast<double>(k + 1);
            if (order * now_Hz < 0.48 * recipe.rate_Hz)
                sound[i] +=
                    recipe.amplitudes[k] * std::sin(kTurn * order * tone.turns[i] + phases[k]);
        }
        tone.turns[i + 1] = tone.turns[i] + now_Hz / recipe.rate_Hz;
    }
    scale_to(sound, recipe.level_rms);
    std::vector<double> noise =
        recipe.pink_noise ? pink(dice, count, recipe.rate_Hz) : white(dice, count);
    scale_to(noise, recipe.level_rms * std::pow(10.0, recipe.noise_dB / 20.0));
    for (std::size_t i = 0; i < count; ++i) sound[i] += noise[i];
    tone.samples = as_floats(sound);
    return tone;
}

// 3 to 8 harmonics below a strong fundamental; the higher the weaker.
inline std::vector<double> flute_amplitudes(Dice& dice) {
    const int harmonics = static_cast<int>(dice.between(3.0, 9.0));
    std::vector<double> amplitudes{1.0};
    for (int k = 2; k <= harmonics; ++k)
        amplitudes.push_back(dice.between(0.05, 1.2) / static_cast<double>(k));
    return amplitudes;
}

// A drift that covers +-30 cents within `seconds`: straight, or once to and fro.
inline std::function<double(double)> drifting(Dice& dice, double middle_Hz, double seconds) {
    const double sign = dice.between(0.0, 1.0) < 0.5 ? -1.0 : 1.0;
    const bool straight = dice.between(0.0, 1.0) < 0.5;
    const double start = dice.between(0.0, kTurn);
    return [=](double t_s) {
        const double wave =
            straight ? 2.0 * t_s / seconds - 1.0 : std::sin(start + kTurn * t_s / (2.0 * seconds));
        return middle_Hz * std::exp2(30.0 * sign * wave / 1200.0);
    };
}

// The flute tone of the promise: everything drawn at random, noise 10 dB below.
inline Tone random_flute(Dice& dice, double rate_Hz, double seconds, double low_Hz,
                         double high_Hz) {
    const double middle_Hz = dice.pitch_between(low_Hz, high_Hz);
    const double drift_s = std::max(seconds, 1.0);
    const double begin_s = dice.between(0.0, drift_s - seconds);  // a short tone: any part of it
    const auto drift = [whole = drifting(dice, middle_Hz, drift_s), begin_s](double t_s) {
        return whole(begin_s + t_s);
    };
    const bool pink_noise = dice.between(0.0, 1.0) < 0.5;
    const std::vector<double> amplitudes = flute_amplitudes(dice);
    const double level_rms = std::pow(10.0, dice.between(-40.0, -12.0) / 20.0);
    return flute(dice, {rate_Hz, seconds, drift, amplitudes, -10.0, pink_noise, level_rms});
}

// Formants of five vowels [Hz] of a grown man: Peterson & Barney 1952, J. Acoust. Soc. Am. 24,
// 175-184, table II (from memory): i, e (bet), a (father), o (bought), u. `size` < 1 for a shorter
// throat.
inline constexpr double kVowels_Hz[5][3] = {
    {270, 2290, 3010}, {530, 1840, 2480}, {730, 1090, 2440}, {570, 840, 2410}, {300, 870, 2240}};

// Pulses of a moving pitch, -12 dB per octave, through three resonators, then the lips' +6 dB per
// octave (Fant 1960, Acoustic Theory of Speech Production: source and filter).
inline Samples voice(Dice& dice, double rate_Hz, double seconds, double throat,
                     const std::function<double(double)>& pitch_Hz, int vowel) {
    const auto count = static_cast<std::size_t>(seconds * rate_Hz);
    std::vector<double> x(count, 0.0);
    double turns = dice.between(0.0, 1.0);
    double glottis[2] = {0.0, 0.0};
    const double keep = std::exp(-kTurn * 100.0 / rate_Hz);
    for (std::size_t i = 0; i < count; ++i) {
        turns += pitch_Hz(static_cast<double>(i) / rate_Hz) / rate_Hz;
        const bool pulse = turns >= 1.0;
        if (pulse) turns -= 1.0;
        glottis[0] = keep * glottis[0] + (pulse ? 1.0 : 0.0) + 0.002 * dice.normal();
        glottis[1] = keep * glottis[1] + glottis[0];
        x[i] = glottis[1];
    }
    for (const double formant_Hz : kVowels_Hz[vowel]) {
        const double centre_Hz = formant_Hz / throat;
        const double r = std::exp(-kTurn / 2.0 * (50.0 + 0.03 * centre_Hz) / rate_Hz);
        const double a1 = 2.0 * r * std::cos(kTurn * centre_Hz / rate_Hz);
        double y1 = 0.0;
        double y2 = 0.0;
        for (double& value : x) {
            const double y = value + a1 * y1 - r * r * y2;
            y2 = y1;
            y1 = y;
            value = y;
        }
    }
    for (std::size_t i = count; i-- > 1;) x[i] -= x[i - 1];
    x[0] = 0.0;
    scale_to(x, 0.1);
    return as_floats(x);
}

// A fan: falling noise, a hum at 50 and 100 Hz.
inline Samples fan(Dice& dice, double rate_Hz, double seconds) {
    std::vector<double> x = pink(dice, static_cast<std::size_t>(seconds * rate_Hz), rate_Hz);
    scale_to(x, 0.03);
    const double hum = 0.03 * std::pow(10.0, dice.between(-10.0, 10.0) / 20.0);
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double turns = 50.0 * static_cast<double>(i) / rate_Hz;
        x[i] += hum * (std::sin(kTurn * turns) + 0.5 * std::sin(2.0 * kTurn * turns + 1.0));
    }
    return as_floats(x);
}

}  // namespace sounds
