// tests/core/listen/held_tone_test.cpp -- readings of held tones, and what is said without one.
#include "core/listen/held_tone.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>
#include <string>
#include <vector>

#include "core/base/units.hpp"
#include "tests/core/listen/sounds.hpp"
#include "tests/support/figures.hpp"

using namespace canewright;
using namespace canewright::testing;

namespace held_tone_test {  // its own where tests are compiled together
using Catch::WithinAbs;
using sounds::Dice;
using sounds::Samples;
using sounds::Tone;

namespace {

constexpr std::size_t kFrame = 8192;
constexpr double kQuiet_s = 0.4;  // of a quiet room before the tone

std::vector<TimedFrame> frames_of(const Samples& samples, double rate_Hz, double every_s) {
    std::vector<TimedFrame> frames;
    const auto hop = static_cast<std::size_t>(every_s * rate_Hz);
    for (std::size_t end = kFrame; end <= samples.size(); end += hop)
        frames.push_back({static_cast<double>(end) / rate_Hz,
                          pitch_frame(samples.data() + end - kFrame, kFrame, rate_Hz)});
    return frames;
}

Samples quiet_room(Dice& dice, double seconds, double rate_Hz) {
    std::vector<double> noise =
        sounds::pink(dice, static_cast<std::size_t>(seconds * rate_Hz), rate_Hz);
    sounds::scale_to(noise, 1e-3);
    return sounds::as_floats(noise);
}

void append(Samples& to, const Samples& more) { to.insert(to.end(), more.begin(), more.end()); }

// The first time at which `frames`, as they come, are in `state`; negative if never.
double first_s(const std::vector<TimedFrame>& frames, double expected_Hz, Held state) {
    std::vector<TimedFrame> so_far;
    for (const TimedFrame& frame : frames) {
        so_far.push_back(frame);
        if (held_tone(so_far, expected_Hz).state == state) return frame.time_s;
    }
    return -1.0;
}

double median_true_Hz(const Tone& tone, double from_s, double to_s) {
    std::vector<double> all_Hz;
    const auto end = static_cast<std::size_t>(to_s * tone.rate_Hz);
    for (auto i = static_cast<std::size_t>(from_s * tone.rate_Hz); i < end; i += 16)
        all_Hz.push_back(tone.mean_Hz(i, 1));
    std::nth_element(all_Hz.begin(), all_Hz.begin() + static_cast<long>(all_Hz.size() / 2),
                     all_Hz.end());
    return all_Hz[all_Hz.size() / 2];
}

void check_readings(int tones, double rate_Hz, std::uint64_t seed) {
    Dice dice(seed);
    std::vector<double> errors_cents;
    double latest_s = 0.0;
    for (int i = 0; i < tones; ++i) {
        const Tone tone = sounds::random_flute(dice, rate_Hz, 1.0, kLowestTone_Hz, kHighestTone_Hz);
        Samples samples = quiet_room(dice, kQuiet_s, rate_Hz);
        const double begin_s = static_cast<double>(samples.size()) / rate_Hz;
        append(samples, tone.samples);
        const std::vector<TimedFrame> frames = frames_of(samples, rate_Hz, 0.05);
        const double ready_s = first_s(frames, 0.0, Held::ready);
        REQUIRE(ready_s > 0.0);
        latest_s = std::max(latest_s, ready_s - begin_s);
        const HeldTone reading = held_tone(frames, 0.0);
        REQUIRE(reading.state == Held::ready);
        const double frame_s = static_cast<double>(kFrame) / rate_Hz;
        const double truth_Hz = median_true_Hz(
            tone, std::max(0.0, reading.from_s - frame_s - begin_s), reading.to_s - begin_s);
        errors_cents.push_back(std::abs(cents_between(reading.frequency_Hz, truth_Hz)));
    }
    std::sort(errors_cents.begin(), errors_cents.end());
    const double median_cents = errors_cents[errors_cents.size() / 2];
    const double most_cents = errors_cents[errors_cents.size() * 95 / 100];
    CAPTURE(rate_Hz, median_cents, most_cents, errors_cents.back(), latest_s);
    CHECK(median_cents < kHeldMedianError_cents);
    CHECK(most_cents < kHeld95Error_cents);
    check_shares(errors_cents, figure("reading_median").most(), figure("reading_95").most());
    CHECK(latest_s <= kHeldReady_s);
    if (tones > 100)
        WARN(rate_Hz << " Hz: median " << median_cents << ", 95 % " << most_cents << ", worst "
                     << errors_cents.back() << " cents; latest after " << latest_s << " s");
}

struct Heard {
    int frames = 0;
    int tones = 0;              // frames that seem the tone of a flute
    int more_than_no_tone = 0;  // times anything but 'no tone' was said
    int readings = 0;
};

Heard heard_speech(int sentences_per_vowel, std::uint64_t seed) {
    Dice dice(seed);
    Heard heard;
    const double throats[] = {1.0, 0.85, 0.75};  // formants as of a man, 18 and 33 % higher
    const double lowest_Hz[] = {90.0, 170.0, 200.0};
    for (int speaker = 0; speaker < 3; ++speaker) {
        for (int sentence = 0; sentence < 5 * sentences_per_vowel; ++sentence) {
            const double middle_Hz = dice.pitch_between(lowest_Hz[speaker], 2 * lowest_Hz[speaker]);
            const double rise = dice.between(3.0, 12.0) * (dice.between(0.0, 1.0) < 0.3 ? 1 : -1);
            const double sway = dice.between(0.0, 4.0);
            const double times_a_second = dice.between(2.0, 5.0);
            const auto pitch_Hz = [=](double t_s) {
                const double semitones =
                    rise * (t_s - 0.5) + sway * std::sin(sounds::kTurn * times_a_second * t_s);
                return middle_Hz * std::exp2(semitones / 12.0);
            };
            const Samples samples =
                sounds::voice(dice, 48e3, 1.0, throats[speaker], pitch_Hz, sentence % 5);
            std::vector<TimedFrame> so_far;
            for (const TimedFrame& frame : frames_of(samples, 48e3, 0.05)) {
                so_far.push_back(frame);
                const Held state = held_tone(so_far, 0.0).state;
                ++heard.frames;
                heard.tones += frame.pitch.tone ? 1 : 0;
                heard.more_than_no_tone += state != Held::no_tone ? 1 : 0;
                heard.readings += state == Held::ready ? 1 : 0;
            }
        }
    }
    return heard;
}

// Frames as of a tracker, for what needs no sound.
void hold(std::vector<TimedFrame>& frames, double frequency_Hz, double seconds,
          NoTone why_not = NoTone::none, bool clipped = false) {
    const double from_s = frames.empty() ? 0.0 : frames.back().time_s;
    for (double t_s = 0.03; t_s <= seconds; t_s += 0.03)
        frames.push_back(
            {from_s + t_s,
             {why_not == NoTone::none, why_not, frequency_Hz, 0.9, -20.0, 0.0, 0.8, clipped}});
}

}  // namespace

// Reference  the tone's own frequency over the time that was read. Tolerance  the promises.
TEST_CASE("a held tone is read to a cent within 0.7 s", "[listen][derived][sweep]") {
    check_readings(12, 44.1e3, 1);
    check_readings(12, 48e3, 2);
}

TEST_CASE("a thousand readings", "[.long][listen][derived]") {
    check_readings(500, 44.1e3, 3);
    check_readings(500, 48e3, 4);
}

TEST_CASE("a steady tone has the floor for its uncertainty", "[listen][derived]") {
    Dice dice(5);
    const auto steady = [](double) { return 523.25; };
    const Tone tone = sounds::flute(dice, {48e3, 1.0, steady, {1.0, 0.3, 0.2}, -10.0, true, 0.05});
    const HeldTone reading = held_tone(frames_of(tone.samples, 48e3, 0.05), 0.0);
    CHECK(reading.state == Held::ready);
    CHECK(reading.uncertainty_cents == kHeldFloor_cents);
    CHECK_THAT(cents_between(reading.frequency_Hz, 523.25), WithinAbs(0.0, kHeldFloor_cents));
}

// Voices of a man, a woman and a child, about their mean pitches (Peterson & Barney 1952, table II:
// 132, 223, 264 Hz). The pitch of speech falls or rises by 3 to 12 semitones in a second and sways
// by up to 4 more (our choice of range, no source).
TEST_CASE("speech is never a reading", "[listen][property][sweep]") {
    const Heard heard = heard_speech(2, 6);
    CAPTURE(heard.frames, heard.tones, heard.more_than_no_tone);
    CHECK(heard.readings == 0);
    // A vowel at the turn of its pitch is a tone for the length of a frame: seldom, and not longer.
    CHECK(heard.tones * 100 <= heard.frames * 5);
    CHECK(heard.more_than_no_tone * 100 <= heard.frames);
}

TEST_CASE("a lot of speech", "[.long][listen][property]") {
    const Heard heard = heard_speech(40, 9);
    WARN(heard.frames << " frames of speech: " << heard.tones << " seem tones, "
                      << heard.more_than_no_tone << " times more than 'no tone' was said, "
                      << heard.readings << " readings");
    CHECK(heard.readings == 0);
    CHECK(heard.tones * 100 <= heard.frames * 5);
    CHECK(heard.more_than_no_tone * 100 <= heard.frames);
}

TEST_CASE("silence, noise and a fan are no tone", "[listen][property]") {
    Dice dice(7);
    Samples samples = quiet_room(dice, 0.5, 48e3);
    append(samples, Samples(24000, 0.0F));
    append(samples, sounds::fan(dice, 48e3, 1.0));
    const std::vector<TimedFrame> frames = frames_of(samples, 48e3, 0.05);
    for (const Held state :
         {Held::ready, Held::hold_longer, Held::too_soft, Held::clipped, Held::jumped})
        CHECK(first_s(frames, 0.0, state) < 0.0);
    CHECK(held_tone({}, 0.0).state == Held::no_tone);
    CHECK(std::isnan(held_tone(frames, 0.0).frequency_Hz));
}

TEST_CASE("a jump to the second register, in sound", "[listen][derived]") {
    Dice dice(8);
    const auto leaps = [](double t_s) { return t_s < 0.6 ? 392.0 : 2.03 * 392.0; };
    const Tone tone = sounds::flute(dice, {48e3, 1.4, leaps, {1.0, 0.4, 0.2}, -10.0, true, 0.05});
    const std::vector<TimedFrame> frames = frames_of(tone.samples, 48e3, 0.03);
    CHECK(held_tone(frames, 0.0).state == Held::jumped);
    CHECK(held_tone(frames, 400.0).state == Held::jumped);
    CHECK_THAT(cents_between(held_tone(frames, 0.0).frequency_Hz, 2.03 * 392.0),
               WithinAbs(0.0, 1.0));
    CHECK(held_tone(frames, 800.0).state == Held::ready);  // that octave was asked for
}

TEST_CASE("what counts as a jump", "[listen][property]") {
    const auto state_after = [](double first_Hz, double gap_s, double second_Hz) {
        std::vector<TimedFrame> frames;
        hold(frames, first_Hz, 0.4);
        hold(frames, 0.0, gap_s, NoTone::not_periodic);
        hold(frames, second_Hz, 0.8);
        return held_tone(frames, 0.0).state;
    };
    CHECK(state_after(400.0, 0.1, 800.0) == Held::jumped);
    CHECK(state_after(400.0, 0.1, 1200.0) == Held::jumped);
    CHECK(state_after(400.0, 0.1, 600.0) == Held::ready);
    CHECK(state_after(800.0, 0.1, 400.0) == Held::ready);  // back to the first register
    CHECK(state_after(400.0, 1.0, 800.0) == Held::ready);  // another attempt, another fingering
}

TEST_CASE("hold it longer, and steadily", "[listen][property]") {
    std::vector<TimedFrame> frames;
    hold(frames, 440.0, 0.10);
    CHECK(held_tone(frames, 0.0).state == Held::no_tone);
    hold(frames, 440.0, 0.20);
    CHECK(held_tone(frames, 0.0).state == Held::hold_longer);
    hold(frames, 440.0, 0.30);
    CHECK(held_tone(frames, 0.0).state == Held::ready);
    hold(frames, shifted_Hz(440.0, 100.0), 0.30);  // a finger lifted: begins anew
    CHECK(held_tone(frames, 0.0).state == Held::hold_longer);
    for (int i = 0; i < 20; ++i) hold(frames, shifted_Hz(440.0, 15.0 * i), 0.06);
    CHECK(held_tone(frames, 0.0).state == Held::hold_longer);
    hold(frames, 0.0, 0.2, NoTone::silence);
    CHECK(held_tone(frames, 0.0).state == Held::no_tone);
}

TEST_CASE("too soft and clipped", "[listen][property]") {
    std::vector<TimedFrame> frames;
    hold(frames, 440.0, 0.6, NoTone::too_soft);
    CHECK(held_tone(frames, 0.0).state == Held::too_soft);
    hold(frames, 440.0, 0.6, NoTone::noisy);
    CHECK(held_tone(frames, 0.0).state == Held::too_soft);
    for (int i = 0; i < 20; ++i) hold(frames, 440.0 + 40.0 * (i % 5), 0.03, NoTone::noisy);
    CHECK(held_tone(frames, 0.0).state == Held::no_tone);  // repeats, but each time another pitch
    hold(frames, 440.0, 0.8, NoTone::none, true);
    CHECK(held_tone(frames, 0.0).state == Held::clipped);
}

TEST_CASE("every state has a name of its own", "[listen][property]") {
    std::set<std::string> names;
    for (int i = 0; i < kHeldCount; ++i) names.insert(name(static_cast<Held>(i)));
    CHECK(names.size() == static_cast<std::size_t>(kHeldCount));
    CHECK(names.count("") == 0);
}

}  // namespace held_tone_test
