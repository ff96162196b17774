// tests/core/listen/ear_limits_test.cpp -- where the ear's verdicts change, from both sides.
//
// Every sound is made so that the quantity in question is known by arithmetic; the limits are those
// that core/listen/*.cpp state with their reasons, and a verdict must turn at them and not
// elsewhere.
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "core/listen/held_tone.hpp"
#include "core/listen/pitch_frame.hpp"
#include "tests/core/listen/sounds.hpp"

using namespace canewright;

namespace ear_limits_test {  // its own where tests are compiled together
using Catch::WithinAbs;
using sounds::Dice;
using sounds::Samples;

namespace {

constexpr double kRate_Hz = 48000.0;
constexpr double kSeconds = 8192.0 / kRate_Hz;

struct EarSound {
    double tone_Hz = 440.0;
    std::vector<double> amplitudes = {1.0, 0.3};
    double noise_dB = -60.0;
    double level_rms = 0.1;
    std::function<double(double)> frequency_Hz;  // of time, in place of tone_Hz
};

PitchFrame ear(const EarSound& of, std::uint64_t seed = 5) {
    Dice dice(seed);
    const double tone_Hz = of.tone_Hz;
    const auto steady = [tone_Hz](double) { return tone_Hz; };
    const Samples samples =
        sounds::flute(dice, {kRate_Hz, kSeconds, of.frequency_Hz ? of.frequency_Hz : steady,
                             of.amplitudes, of.noise_dB, false, of.level_rms})
            .samples;
    return pitch_frame(samples.data(), samples.size(), kRate_Hz);
}

// The fundamental's share as asked, the rest in two harmonics.
EarSound sharing(double share) {
    const double rest = std::sqrt(0.5 * (1.0 - share));
    EarSound sound;
    sound.amplitudes = {std::sqrt(share), rest, rest};
    return sound;
}

}  // namespace

// Limit  a quarter of the power in the fundamental. Share by arithmetic: squares of amplitudes.
TEST_CASE("a voice with a weak fundamental is no flute", "[listen][limits][analytic]") {
    for (const double share : {0.1, 0.22, 0.28, 0.5, 0.9}) {
        CAPTURE(share);
        const PitchFrame frame = ear(sharing(share));
        CHECK_THAT(frame.fundamental_share, WithinAbs(share, 0.015));
        CHECK(frame.tone == (share > 0.25));
        if (share < 0.25) CHECK(frame.why_not == NoTone::weak_fundamental);
    }
}

// Limit  500 cents a second.
TEST_CASE("speech glides, a flute does not", "[listen][limits][analytic]") {
    for (const double drift : {-560.0, -450.0, 300.0, 450.0, 560.0}) {
        CAPTURE(drift);
        EarSound sound;
        sound.frequency_Hz = [drift](double t_s) {
            return 440.0 * std::exp2(drift * t_s / 1200.0);
        };
        const PitchFrame frame = ear(sound);
        CHECK(frame.tone == (std::abs(drift) < 500.0));
        if (frame.tone)
            CHECK_THAT(frame.drift_cents_per_s, WithinAbs(drift, 0.03 * std::abs(drift)));
        else
            CHECK(frame.why_not == NoTone::gliding);
    }
}

// Limit  0.15 rad, or 2 cents over half a frame where that is more: 1.2 rad at 2 kHz. A phase that
//        swings three times in the frame strays by its amplitude over root 2; a block of the ear is
//        an eighth of the frame and takes a tenth or less of it away.
TEST_CASE("a phase that strays is no tone", "[listen][limits][analytic]") {
    const auto swinging = [](double tone_Hz, double stray_rad) {
        const double swings_Hz = 3.0 / kSeconds, amplitude_rad = std::sqrt(2.0) * stray_rad;
        EarSound sound;
        sound.frequency_Hz = [=](double t_s) {
            return tone_Hz + amplitude_rad * swings_Hz * std::cos(sounds::kTurn * swings_Hz * t_s);
        };
        return ear(sound);
    };
    CHECK(swinging(300.0, 0.10).tone);
    CHECK(swinging(300.0, 0.14).tone);
    CHECK(swinging(300.0, 0.30).why_not == NoTone::gliding);
    CHECK(swinging(2000.0, 0.30).tone);
    CHECK(swinging(2000.0, 0.90).tone);
    CHECK(swinging(2000.0, 1.70).why_not == NoTone::gliding);
}

// Limit  three neighbours within one step of nine bits (0.998) of full scale, on either side.
TEST_CASE("three samples at full scale are a clipped frame", "[listen][limits][analytic]") {
    Dice dice(6);
    const auto steady = [](double) { return 440.0; };
    const Samples clean =
        sounds::flute(dice, {kRate_Hz, kSeconds, steady, {1.0}, -60.0, false, 0.3}).samples;
    const auto with_run = [&clean](std::size_t run, float value) {
        Samples samples = clean;
        for (std::size_t i = 0; i < run; ++i) samples[4000 + i] = value;
        return pitch_frame(samples.data(), samples.size(), kRate_Hz).clipped;
    };
    CHECK_FALSE(with_run(0, 1.0F));
    CHECK_FALSE(with_run(2, 1.0F));
    CHECK(with_run(3, 1.0F));
    CHECK(with_run(3, -1.0F));
    CHECK(with_run(4, 0.9985F));
    CHECK_FALSE(with_run(4, 0.9970F));
}

// Limits -66 dB for a reading, -80 dB for anything. Level by arithmetic: dB of the mean square.
TEST_CASE("too soft, and silence", "[listen][limits][analytic]") {
    const auto at_dB = [](double level_dB) {
        EarSound sound;
        sound.level_rms = std::pow(10.0, level_dB / 20.0);
        return ear(sound);
    };
    CHECK_THAT(at_dB(-20.0).level_dB, WithinAbs(-20.0, 0.3));
    CHECK(at_dB(-65.0).tone);
    CHECK(at_dB(-67.0).why_not == NoTone::too_soft);
    CHECK_THAT(at_dB(-67.0).frequency_Hz, WithinAbs(440.0, 0.5));
    CHECK(at_dB(-79.0).why_not == NoTone::too_soft);
    CHECK(at_dB(-81.0).why_not == NoTone::silence);
}

// Limits 150 and 3000 Hz and half a semitone beyond.
TEST_CASE("the range ends where it says", "[listen][limits][analytic]") {
    const auto at_Hz = [](double tone_Hz) {
        EarSound sound;
        sound.tone_Hz = tone_Hz;
        return ear(sound);
    };
    CHECK(at_Hz(150.0 * std::exp2(-40.0 / 1200.0)).tone);
    CHECK(at_Hz(150.0 * std::exp2(-60.0 / 1200.0)).why_not == NoTone::too_low);
    CHECK(at_Hz(3000.0 * std::exp2(40.0 / 1200.0)).tone);
    CHECK(at_Hz(3000.0 * std::exp2(60.0 / 1200.0)).why_not == NoTone::too_high);
}

// Limits 65 and 45 % of the power in the band that repeats: noise 2.7 dB below the tone and 0.9 dB
//        above it. White noise up to half the sample rate has 4880 of 24000 Hz in the band.
//        Majority of five frames, each two tenths of a decibel wide by chance.
TEST_CASE("noise takes the tone away in two steps", "[listen][limits][analytic]") {
    const auto verdicts = [](double in_band_dB, NoTone wanted) {
        EarSound sound;
        sound.noise_dB = in_band_dB + 10.0 * std::log10(24000.0 / 4880.0);
        int agreed = 0;
        for (std::uint64_t seed = 1; seed <= 5; ++seed)
            agreed += ear(sound, seed).why_not == wanted ? 1 : 0;
        return agreed;
    };
    CHECK(verdicts(-3.7, NoTone::none) >= 3);
    CHECK(verdicts(-1.7, NoTone::noisy) >= 3);
    CHECK(verdicts(-0.1, NoTone::noisy) >= 3);
    CHECK(verdicts(2.0, NoTone::not_periodic) >= 3);
}

namespace {

// Frames of one tone, 40 ms apart; `spoil` may change each.
template <class Spoil>
HeldTone held(int frames, double expected_Hz, Spoil spoil) {
    std::vector<TimedFrame> all;
    for (int n = 0; n < frames; ++n) {
        TimedFrame frame{0.04 * n, {true, NoTone::none, 440.0, 0.95, -20.0, 0.0, 0.8, false}};
        spoil(n, frame);
        all.push_back(frame);
    }
    return held_tone(all, expected_Hz);
}

}  // namespace

// Limits a quarter of the frames clipped; 200 cents a second; 0.15 s of attack, then 0.25 s and
//        five frames; an octave or a twelfth above what is expected.
TEST_CASE("a held tone's verdicts turn at their limits", "[listen][limits][analytic]") {
    const auto clipped = [](int every) {
        return held(24, 0.0, [every](int n, TimedFrame& f) { f.pitch.clipped = n % every == 0; });
    };
    CHECK(clipped(3).state == Held::clipped);
    CHECK(clipped(4).state == Held::clipped);  // 6 of 24
    CHECK(clipped(5).state == Held::ready);    // 5 of 24

    const auto gliding = [](double drift) {
        return held(24, 0.0, [drift](int, TimedFrame& f) { f.pitch.drift_cents_per_s = drift; });
    };
    CHECK(gliding(190.0).state == Held::ready);
    CHECK(gliding(-190.0).state == Held::ready);
    CHECK(gliding(210.0).state == Held::no_tone);
    CHECK(gliding(-210.0).state == Held::no_tone);

    const auto none = [](int, TimedFrame&) {};
    CHECK(held(4, 0.0, none).state == Held::no_tone);       // 0.12 s
    CHECK(held(7, 0.0, none).state == Held::hold_longer);   // 0.24 s
    CHECK(held(10, 0.0, none).state == Held::hold_longer);  // 0.20 s after the attack
    CHECK(held(12, 0.0, none).state == Held::ready);        // 0.28 s after it
    CHECK(held(12, 220.0, none).state == Held::jumped);
    CHECK(held(12, 440.0 / 3.0, none).state == Held::jumped);
    CHECK(held(12, 440.0 / 1.5, none).state == Held::ready);
    CHECK(held(12, 440.0, none).state == Held::ready);
}

// Limits 80 cents across for one run; a tenth of a second of nothing does not end it; the attack is
//        not read, the last two seconds are.
TEST_CASE("what belongs to one held tone", "[listen][limits][analytic]") {
    const auto stepped = [](double cents) {
        return held(40, 0.0, [cents](int n, TimedFrame& f) {
            if (n < 20) f.pitch.frequency_Hz *= std::exp2(cents / 1200.0);
        });
    };
    // within the run both halves are read; beyond, the last alone, its attack left out
    CHECK_THAT(stepped(75.0).held_s, WithinAbs(39 * 0.04 - 0.16, 1e-9));
    CHECK_THAT(stepped(85.0).held_s, WithinAbs(19 * 0.04 - 0.16, 1e-9));
    const auto with_hole = [](int from, int to) {
        return held(40, 0.0, [=](int n, TimedFrame& f) {
            if (n >= from && n < to) f.pitch.tone = false, f.pitch.why_not = NoTone::not_periodic;
        });
    };
    CHECK_THAT(with_hole(20, 22).held_s, WithinAbs(39 * 0.04 - 0.16, 1e-9));  // 0.12 s
    CHECK_THAT(with_hole(20, 23).held_s, WithinAbs(16 * 0.04 - 0.16, 1e-9));  // 0.16 s
    const auto none = [](int, TimedFrame&) {};
    CHECK_THAT(held(100, 0.0, none).held_s, WithinAbs(2.0, 1e-9));
    // the attack half a semitone flat is not in the median nor in its uncertainty
    const HeldTone attack = held(14, 0.0, [](int n, TimedFrame& f) {
        if (n < 4) f.pitch.frequency_Hz *= std::exp2(-50.0 / 1200.0);
    });
    CHECK_THAT(attack.frequency_Hz, WithinAbs(440.0, 1e-9));
    CHECK_THAT(attack.uncertainty_cents, WithinAbs(kHeldFloor_cents, 1e-9));
}

}  // namespace ear_limits_test
