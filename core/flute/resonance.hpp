// core/flute/resonance.hpp: the frequencies at which a flute can sound. Layer: flute.
#pragma once

#include "core/flute/network.hpp"

namespace canewright {

struct Resonance {
    double frequency_Hz = 0.0;  // NaN unless found
    bool found = false;
    bool converged = false;
    const char* why = "";  // why not found: "no_resonance" (outside kLowest_Hz to kHighest_Hz)
    int evaluations = 0;   // of the network
};

// The passive resonance of register n (1: lowest, 2: overblown), where the driven loop's impedance
// is real and small. The blown pitch is near it.
//   start_Hz   a guess within kNearest_cents, or 0 for none; a worse one only costs time
//
// Model    the n-th passage of the turn of core/flute/network through a multiple of pi at which
//          the impedance is real, counted from below in steps of kBracketStep, each by TOMS 748
//          (Boost.Math); with a guess, the passage next to it. Passages where the impedance is not
//          real are slips of the count: a resonance behind an open hole that the hole hides.
// Valid    where the loop reflects; with openings so wide that hardly anything comes back, several
//          passages lie close together and the answer may depend on the guess.
// Error    converged: bracket narrower than kResonanceError, relative. Not converged is said, the
//          last guess is not returned as an answer.
// Source   G.E. Alefeld, F.A. Potra, Y. Shi, ACM Trans. Math. Softw. 21 (1995) 327-344.
Resonance resonance(const Network& network, int register_number, double start_Hz = 0.0);
Resonance resonance(const Flute& flute, const Air& air, const Fingering& open, int register_number);

// The same from a good guess: two or three evaluations, for many flutes that differ little.
//   guess_Hz        within kNearest_cents of the answer
//   cents_per_rad   how fast the resonance moves with the turn, of a similar flute (Slope)
//
// Model    secant steps, the first with the slope given; falls back on resonance() when the steps
//          do not shrink.
// Error    converged: kNearError_cents. A guess further off may find another register.
Resonance resonance_near(const Network& network, int register_number, double guess_Hz,
                         double cents_per_rad);

inline constexpr double kNearError_cents = 1e-5;
inline constexpr double kNearest_cents = 200.0;

inline constexpr double kResonanceError = 1e-12;
inline constexpr double kLowest_Hz = 20.0;
inline constexpr double kHighest_Hz = 12000.0;
inline constexpr double kBracketStep = 1.05;

}  // namespace canewright
