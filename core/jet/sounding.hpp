// core/jet/sounding.hpp: what the breath does to the pitch of a resonance. Layer: jet.
//
// The passive resonance is core/flute/resonance. Layouts and the bench ask thousands of times how a
// breath near the design's moves it, and for that the jet's delay is enough: this is the balance of
// core/jet/drive near the place where both agree, without the pressures it needs to know the rest.
#pragma once

#include "core/flute/network.hpp"

namespace canewright {

// Quality factor of the loop that the jet drives, at a passive resonance of it [-].
// Model    f / 2 times the slope of the reactance over the resistance, by a difference quotient.
// Valid    at a resonance; a rough or porous wall damps more than the model's smooth one, so a
//          real flute's is lower.
// Error    kQualityError, relative, of the arithmetic (lossy line: tests/core/flute).
// Source   definition; any text on resonators.
double loop_quality(const Network& network, double resonance_Hz);

inline constexpr double kQualityError = 1e-3;

// Shift of the blown pitch from the passive resonance [cents].
//   quality           of the loop, > 0
//   relative_breath   blowing pressure over the one at which the note sounds at its resonance; 1 is
//                     the design breath and gives 0
//
// Model    the delay picture: the jet's wave takes f W / (0.4 U) of a period to cross the sound
//          hole, half a period at the design breath (U = 5 f W); U goes with the root of the
//          pressure (Bernoulli); the loop makes up for the rest of the phase,
//          df / f = tan(pi - pi / sqrt(relative_breath)) / (2 Q).
// Valid    kLeastBreath to kMostBreath, where the phase stays within pi/4; held beyond. Softer
//          notes die, harder ones overblow; neither is in it.
// Error    kBreathShiftError, relative: the wave's speed is quoted as 0.3 to 0.5 U, and published
//          work disagrees on the delay at which a jet drives best.
// Source   physics of the mouth as in A.W. Nolle, J. Acoust. Soc. Am. 103 (1998) 3690 and R.
//          Auvray et al., J. Acoust. Soc. Am. 131 (2012) 1574-1585 (speed and delay from memory).
//          30 to 60 cents from soft to loud on recorders (N. Bak, Acustica 22 (1969/70) 295, from
//          memory) is what it gives for Q = 25.
double breath_shift_cents(double quality, double relative_breath);

// The same of a network at its resonance; exactly 0 at the design breath.
double breath_cents(const Network& network, double resonance_Hz, double relative_breath);

// Its slope at the design breath [cents per unit of relative breath].
double breath_slope_cents(double quality);

inline constexpr double kLeastBreath = 0.64;  // 1 / (1 + 1/4)^2
inline constexpr double kMostBreath = 1.77;   // 1 / (1 - 1/4)^2, rounded down
inline constexpr double kBreathShiftError = 0.5;

}  // namespace canewright
