// tests/core/listen/pitch_frame_test.cpp -- one frame: right to a cent, and silent about the rest.
#include "core/listen/pitch_frame.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <limits>
#include <set>
#include <string>
#include <vector>

#include "core/base/units.hpp"
#include "tests/core/listen/sounds.hpp"
#include "tests/support/figures.hpp"

using namespace canewright;
using namespace canewright::testing;

namespace pitch_frame_test {  // its own where tests are compiled together
using Catch::WithinAbs;
using sounds::Dice;
using sounds::Samples;
using sounds::Tone;

namespace {

constexpr std::size_t kFrame = 8192;  // what the page asks an AnalyserNode for at 44.1 and 48 kHz

PitchFrame heard(const Samples& samples, double rate_Hz) {
    return pitch_frame(samples.data(), samples.size(), rate_Hz);
}

struct Errors {
    std::vector<double> cents;  // sorted
    int unheard = 0;
    int gross = 0;  // an octave, a fifth, anything beyond half a semitone

    double at(double share) const {
        return cents[static_cast<std::size_t>(share * static_cast<double>(cents.size() - 1))];
    }
};

Errors errors_of(int tones, double rate_Hz, std::uint64_t seed) {
    Dice dice(seed);
    Errors errors;
    const double seconds = (static_cast<double>(kFrame) + 0.5) / rate_Hz;
    for (int i = 0; i < tones; ++i) {
        const Tone tone =
            sounds::random_flute(dice, rate_Hz, seconds, kLowestTone_Hz, kHighestTone_Hz);
        const PitchFrame frame = heard(tone.samples, rate_Hz);
        if (!frame.tone) {
            ++errors.unheard;
            continue;
        }
        const double truth_Hz = tone.mean_Hz(0, tone.samples.size());
        errors.cents.push_back(std::abs(cents_between(frame.frequency_Hz, truth_Hz)));
        if (errors.cents.back() > 50.0) ++errors.gross;
    }
    std::sort(errors.cents.begin(), errors.cents.end());
    return errors;
}

void check_promise(const Errors& errors) {
    REQUIRE(!errors.cents.empty());
    CAPTURE(errors.at(0.5), errors.at(0.95), errors.cents.back());
    CHECK(errors.unheard == 0);
    CHECK(errors.gross == 0);
    CHECK(errors.at(0.5) < kFrameMedianError_cents);
    CHECK(errors.at(0.95) < kFrame95Error_cents);
    check_shares(errors.cents, figure("frame_median").most(), figure("frame_95").most());
}

Samples sine(double frequency_Hz, double amplitude, double rate_Hz, std::size_t count) {
    Samples samples(count);
    for (std::size_t i = 0; i < count; ++i)
        samples[i] =
            static_cast<float>(amplitude * std::sin(0.3 + sounds::kTurn * frequency_Hz *
                                                              static_cast<double>(i) / rate_Hz));
    return samples;
}

}  // namespace

// Reference  the phase each tone was made from (tests/core/listen/sounds.hpp).
// Tolerance  the promise of pitch_frame.hpp.
TEST_CASE("a frame of a flute tone is read to a cent", "[listen][derived][sweep]") {
    check_promise(errors_of(60, 44.1e3, 1));
    check_promise(errors_of(60, 48e3, 2));
}

TEST_CASE("a thousand flute tones, none an octave off", "[.long][listen][derived]") {
    for (const double rate_Hz : {44.1e3, 48e3}) {
        const Errors errors = errors_of(1000, rate_Hz, 3);
        check_promise(errors);
        WARN(rate_Hz << " Hz: median " << errors.at(0.5) << ", 95 % " << errors.at(0.95)
                     << ", worst " << errors.cents.back() << " cents");
    }
}

TEST_CASE("pure tones at any sample rate, and at the ends of the range", "[listen][derived]") {
    const double rate_Hz = GENERATE(8e3, 11.025e3, 44.1e3, 96e3, 192e3);
    const auto count = static_cast<std::size_t>(0.17 * rate_Hz);
    for (const double truth_Hz : {kLowestTone_Hz, 440.0, 1234.5, kHighestTone_Hz}) {
        const PitchFrame frame = heard(sine(truth_Hz, 0.1, rate_Hz, count), rate_Hz);
        CAPTURE(rate_Hz, truth_Hz, name(frame.why_not));
        REQUIRE(frame.tone);
        CHECK_THAT(cents_between(frame.frequency_Hz, truth_Hz), WithinAbs(0.0, 0.2));
    }
}

// Analytic: a sine of amplitude 1 has mean square 1/2, -3.01 dB. Clarity by (5) of periodicity.hpp:
// of white noise as strong as the tone, the band holds (5000 - 120)/24000.
TEST_CASE("level and clarity mean what they say", "[listen][analytic]") {
    Samples samples = sine(1000.0, 0.999, 48e3, kFrame);
    CHECK_THAT(heard(samples, 48e3).level_dB, WithinAbs(-3.01, 0.05));
    CHECK_THAT(heard(samples, 48e3).clarity, WithinAbs(1.0, 0.001));
    CHECK_THAT(heard(samples, 48e3).fundamental_share, WithinAbs(1.0, 0.001));
    Dice dice(4);
    for (float& x : samples) x = 0.1F * (x + static_cast<float>(std::sqrt(0.5) * dice.normal()));
    CHECK_THAT(heard(samples, 48e3).clarity, WithinAbs(1.0 / (1.0 + 4880.0 / 24000.0), 0.03));
}

TEST_CASE("the drift within a frame", "[listen][derived]") {
    Dice dice(5);
    const double rise_cents_per_s = GENERATE(-300.0, 0.0, 100.0);
    const auto rising = [=](double t_s) { return shifted_Hz(500.0, rise_cents_per_s * t_s); };
    const Tone tone =
        sounds::flute(dice, {48e3, 0.171, rising, {1.0, 0.3, 0.2}, -40.0, false, 0.1});
    CHECK_THAT(heard(tone.samples, 48e3).drift_cents_per_s, WithinAbs(rise_cents_per_s, 3.0));
}

TEST_CASE("what the room adds does not move the tone", "[listen][derived]") {
    Samples samples = sine(330.0, 0.1, 48e3, kFrame);
    const std::string added = GENERATE("nothing", "an offset", "hum", "half a second harmonic");
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double turns = 330.0 * static_cast<double>(i) / 48e3;
        const double hum = std::sin(sounds::kTurn * 100.0 * static_cast<double>(i) / 48e3);
        if (added == "an offset") samples[i] += 0.2F;
        if (added == "hum") samples[i] += static_cast<float>(0.1 * hum);
        if (added == "half a second harmonic")
            samples[i] += static_cast<float>(0.05 * std::cos(2.0 * sounds::kTurn * turns));
    }
    const PitchFrame frame = heard(samples, 48e3);
    CAPTURE(added, name(frame.why_not));
    REQUIRE(frame.tone);
    CHECK_THAT(cents_between(frame.frequency_Hz, 330.0), WithinAbs(0.0, 0.3));
}

TEST_CASE("silence and noise are no tone", "[listen][property]") {
    Dice dice(6);
    const double rate_Hz = GENERATE(44.1e3, 48e3);
    CHECK(heard(Samples(kFrame, 0.0F), rate_Hz).why_not == NoTone::silence);
    CHECK(heard(Samples(kFrame, 0.25F), rate_Hz).why_not == NoTone::silence);  // a dead converter
    for (int i = 0; i < 40; ++i) {
        const auto frame_of = [&](std::vector<double> noise) {
            sounds::scale_to(noise, 0.05);
            return heard(sounds::as_floats(noise), rate_Hz);
        };
        CHECK(frame_of(sounds::white(dice, kFrame)).why_not == NoTone::not_periodic);
        CHECK(frame_of(sounds::pink(dice, kFrame, rate_Hz)).why_not == NoTone::not_periodic);
        const double seconds = static_cast<double>(kFrame) / rate_Hz;
        CHECK(heard(sounds::fan(dice, rate_Hz, seconds), rate_Hz).why_not == NoTone::not_periodic);
    }
}

TEST_CASE("each reason for no tone", "[listen][property]") {
    const auto why = [](const Samples& s) { return heard(s, 48e3).why_not; };
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const Samples good = sine(440.0, 0.1, 48e3, kFrame);
    CHECK(heard(good, 7.9e3).why_not == NoTone::bad_input);
    CHECK(heard(good, 193e3).why_not == NoTone::bad_input);
    CHECK(heard(good, nan).why_not == NoTone::bad_input);
    CHECK(pitch_frame(nullptr, 0, 48e3).why_not == NoTone::frame_too_short);
    CHECK(why(sine(440.0, 0.1, 48e3, 5759)) == NoTone::frame_too_short);
    CHECK(why(sine(440.0, 0.1, 48e3, 5761)) == NoTone::none);
    CHECK(why(sine(440.0, 3e-4, 48e3, kFrame)) == NoTone::too_soft);
    CHECK(why(sine(130.0, 0.1, 48e3, kFrame)) == NoTone::too_low);
    CHECK(why(sine(3300.0, 0.1, 48e3, kFrame)) == NoTone::too_high);
    CHECK(why(sine(4500.0, 0.1, 48e3, kFrame)) == NoTone::too_high);
    Samples broken = good;
    broken[4000] = std::numeric_limits<float>::infinity();
    CHECK(why(broken) == NoTone::bad_input);
    CHECK(std::isnan(heard(broken, 48e3).frequency_Hz));

    // A mains hum with all its harmonics repeats 50 times a second, whatever stands at 150 Hz.
    Samples hum(kFrame, 0.0F);
    for (const double line_Hz : {50.0, 100.0, 150.0, 200.0, 250.0, 350.0}) {
        const Samples line = sine(line_Hz, 0.05, 48e3, kFrame);
        std::transform(hum.begin(), hum.end(), line.begin(), hum.begin(), std::plus<float>());
    }
    CHECK(why(hum) == NoTone::too_low);

    Dice dice(7);
    const auto steady = [](double) { return 300.0; };
    const std::vector<double> reedy{0.3, 1.0, 1.0, 0.5};
    CHECK(why(sounds::flute(dice, {48e3, 0.17, steady, reedy, -30.0, false, 0.1}).samples) ==
          NoTone::weak_fundamental);
    CHECK(why(sounds::flute(dice, {48e3, 0.17, steady, {1.0}, 6.0, false, 0.1}).samples) ==
          NoTone::noisy);
    const auto rising = [](double t_s) { return shifted_Hz(300.0, 900.0 * t_s); };
    CHECK(why(sounds::flute(dice, {48e3, 0.17, rising, {1.0}, -30.0, false, 0.1}).samples) ==
          NoTone::gliding);
}

TEST_CASE("a clipped frame is marked and still read", "[listen][property]") {
    Samples samples = sine(440.0, 1.5, 48e3, kFrame);
    for (float& x : samples) x = std::clamp(x, -1.0F, 1.0F);
    const PitchFrame frame = heard(samples, 48e3);
    CHECK(frame.clipped);
    CHECK_THAT(cents_between(frame.frequency_Hz, 440.0), WithinAbs(0.0, 0.2));
    CHECK_FALSE(heard(sine(440.0, 0.9, 48e3, kFrame), 48e3).clipped);
}

TEST_CASE("every reason has a name of its own", "[listen][property]") {
    std::set<std::string> names;
    for (int i = 0; i < kNoToneCount; ++i) names.insert(name(static_cast<NoTone>(i)));
    CHECK(names.size() == static_cast<std::size_t>(kNoToneCount));
    CHECK(names.count("") == 0);
}

}  // namespace pitch_frame_test
