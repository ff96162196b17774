// core/jet/octave.cpp: reads off a note's two regimes how its octave speaks.
#include "core/jet/octave.hpp"

#include <cmath>
#include <limits>
#include <string_view>

#include "core/base/units.hpp"

namespace canewright {

PitchReach pitch_reach(const Regime& regime) {
    if (regime.hard_Pa < regime.at_pitch_Pa)
        return std::isfinite(regime.jumps_up_Pa) ? PitchReach::jumps_before
                                                 : PitchReach::dies_before;
    return regime.soft_Pa > regime.at_pitch_Pa ? PitchReach::begins_above : PitchReach::held;
}

OctaveJudgement judge_octave(const NoteLoops& loops, const Regime& first, const Regime& second) {
    constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
    if (!is_told(second)) return {OctaveFlaw::not_told, kNaN, kNaN};
    if (!second.found && std::string_view(second.why) == "never_holds")
        return {OctaveFlaw::never_holds, kNaN, kNaN};
    if (!second.found) return {OctaveFlaw::no_gain, second.gain, 1.0};
    if (second.gain < kCleanGain) return {OctaveFlaw::weak, second.gain, kCleanGain};
    if (loops.of(1).exists() && loops.of(3).exists()) {
        const double octave_Hz = 2.0 * loops.of(1).resonance_Hz();
        const double off = std::abs(cents_between(loops.of(2).resonance_Hz(), octave_Hz));
        const double other = std::abs(cents_between(loops.of(3).resonance_Hz(), octave_Hz));
        if (other < off) return {OctaveFlaw::another_nearer, other, off};
    }
    const PitchReach reach = pitch_reach(second);
    if (reach != PitchReach::held)
        return {OctaveFlaw::not_held,
                reach == PitchReach::begins_above ? second.soft_Pa : second.hard_Pa,
                second.at_pitch_Pa};
    if (second.soft_Pa > kJumpHigh * first.hard_Pa)
        return {OctaveFlaw::not_where_it_jumps, second.soft_Pa, first.hard_Pa};
    return {};
}

}  // namespace canewright
