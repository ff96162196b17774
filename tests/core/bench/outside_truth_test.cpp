// tests/core/bench/outside_truth_test.cpp: belief against flutes that are not drawn from its prior.
//
// The flute is a Flute of this test, opened and sawn here: nothing of core/bench says how it
// sounds. Its errors are spread evenly and not normally, with the sizes the planner is told; the
// breath's lift grows with frequency and not with cents; the room's air holds more or less breath.
// What it shares with the planner is the resonance of a given flute, and the sizes of the errors.
#include <catch2/catch.hpp>

#include "tests/core/bench/workshop.hpp"

namespace canewright {
namespace {

using Catch::WithinAbs;
using testing::Dice;

// Evenly spread with this standard deviation.
double even(Dice& dice, double sigma) {
    const double half = std::sqrt(3.0) * sigma;
    return dice.between(-half, half);
}

struct Outside {
    Flute flute;
    double breath_share, lift_cents, lowest_Hz, holes_factor;
    Dice& dice;

    explicit Outside(Dice& d) : dice(d) {
        flute = testing::plain_tube(17e-3 + even(d, 0.1e-3), 3e-3 + even(d, 0.1e-3), 0.44);
        flute.sound_hole = {5e-3, 9.5e-3, flute.wall_m};
        flute.sound_hole.inertance_factor = 1.0 + even(d, 0.06);
        breath_share = kBreathShare + even(d, 0.1);
        holes_factor = 1.0 + even(d, kHolesSigma);
        lift_cents = std::max(0.0, kDriftMean_cents + even(d, kDriftSigma_cents));
        lowest_Hz = 392.0;
    }
    double sounds_Hz(const Fingering& over) const {
        const double Hz =
            testing::pitch_Hz(flute, moist_air(sounding_air(AirState{}, breath_share)), over);
        return shifted_Hz(Hz, std::max(0.0, lift_cents * (Hz / lowest_Hz - 1.0)));
    }
    void saw(double at_m) {
        const Measures m;
        flute.foot_m = at_m + even(dice, std::hypot(m.ruler_m, m.saw_m));
    }
    // Holes are drilled from the foot up, so the new one comes first.
    void drill(double at_m, double bit_m) {
        const Measures m;
        const double size_m = (bit_m + even(dice, m.bit_m)) * holes_factor;
        flute.holes.insert(flute.holes.begin(),
                           testing::round_hole(at_m + even(dice, m.ruler_m), size_m, flute.wall_m));
    }
};

// The notes by the holes there are: {} none, {5} the lower one, {4, 5} both.
Fingering over_made(const Fingering& open, std::size_t holes) {
    Fingering made;
    for (const int number : open) made.push_back(number - 5 + static_cast<int>(holes));
    return made;
}

}  // namespace

// Tolerance  four standard deviations of a share of that many builds, and 3 % for errors that are
//            not normal (evenly spread ones are within one deviation less often, within two more).
TEST_CASE("bands cover flutes from outside as often as they say", "[bench][evidence][derived]") {
    Dice dice(41);
    constexpr int kBuilds = 200;
    constexpr double kReading_cents = 3.0;
    const std::vector<Fingering> notes = {{}, {5}, {4, 5}};
    std::vector<int> within_68(notes.size()), within_95(notes.size());
    std::vector<double> sum(notes.size());
    for (int build = 0; build < kBuilds; ++build) {
        Outside truth(dice);
        testing::Workshop plan(dice, kReading_cents);  // its log and its aim; its own truth unused
        Builder& log = plan.log();
        const auto hear = [&](const Fingering& open) {
            const double Hz = truth.sounds_Hz(over_made(open, truth.flute.holes.size()));
            log.read(open, shifted_Hz(Hz, even(dice, kReading_cents)), kReading_cents, 20.0);
        };
        for (const double foot_m : {0.380, 0.365}) {
            truth.saw(foot_m), log.foot(foot_m);
            hear({});
        }
        truth.drill(0.300, 6e-3), log.hole(5, 0.300, 6e-3);
        hear({5});
        truth.drill(0.275, 5e-3), log.hole(4, 0.275, 5e-3);  // not heard
        const Estimate known = plan.known();
        REQUIRE(known.converged);
        for (std::size_t n = 0; n < notes.size(); ++n) {
            const NoteModel note = note_model(log.history(), log.history().now(), notes[n], 20.0,
                                              known.belief.mean, plan.above_cents(notes[n]));
            const double off =
                cents_between(truth.sounds_Hz(over_made(notes[n], 2)), note.frequency_Hz) /
                sigma_cents(note, known.belief);
            within_68[n] += std::abs(off) < 0.9945;
            within_95[n] += std::abs(off) < 1.9600;
            sum[n] += off;
        }
    }
    for (std::size_t n = 0; n < notes.size(); ++n) {
        const double share_68 = within_68[n] / static_cast<double>(kBuilds);
        const double share_95 = within_95[n] / static_cast<double>(kBuilds);
        CAPTURE(n, share_68, share_95, sum[n] / kBuilds);
        CHECK_THAT(share_68, WithinAbs(0.68, 0.03 + 4.0 * std::sqrt(0.68 * 0.32 / kBuilds)));
        CHECK_THAT(share_95, WithinAbs(0.95, 0.03 + 4.0 * std::sqrt(0.95 * 0.05 / kBuilds)));
        CHECK_THAT(sum[n] / kBuilds, WithinAbs(0.0, 4.0 / std::sqrt(kBuilds) + 0.1));
    }
}

}  // namespace canewright
