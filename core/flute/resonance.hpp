// core/flute/resonance.hpp: the frequencies at which a flute can sound. Layer: flute.
#pragma once

#include "core/flute/network.hpp"

namespace canewright {

struct Resonance {
    double frequency_Hz = 0.0;  // NaN unless found
    bool found = false;
    bool converged = false;
    // Why not found: "no_resonance" (outside kLowest_Hz to kHighest_Hz), "faint_register" (whether
    // the tube below the open holes has a register of its own there is not clear).
    const char* why = "";
    int evaluations = 0;  // of the network
    // Where the network was asked a hair from the resonance, and its turn there (modulo pi): the
    // slope between the two is to be had for nothing. 0: none.
    double beside_Hz = 0.0, beside_turn = 0.0;
    double turn = 0.0;  // counted, a hair from here, where followed_resonance() was asked to; or 0
};

// The passive resonance of register n (1: lowest, 2: overblown), where the driven loop's impedance
// is real and small. The blown pitch is near it.
//   start_Hz   a guess within kNearest_cents, or 0 for none; a worse one only costs time
//
// Model    the n-th passage of the turn of core/flute/network through a multiple of pi at which
//          the impedance is real, counted from below in steps of kBracketStep, each by TOMS 748
//          (Boost.Math); with a guess, the passage next to it. Passages where the impedance is not
//          real are slips of the count: a resonance behind an open hole that the hole hides.
//          Holes that grow hide a resonance step by step, not at one size. So the second register
//          is counted over clear passages (kClear, kLeastDip); one at which a seventh of the wave
//          or less comes back (kFaint) is left out; and with a passage between the two on the way,
//          or a first register that is not clear, it has no number: "faint_register".
// Valid    where the loop reflects; with openings so wide that hardly anything comes back, several
//          passages lie close together and the answer may depend on the guess.
// Error    converged: bracket narrower than kResonanceError, relative. Not converged is said, the
//          last guess is not returned as an answer.
// Source   G.E. Alefeld, F.A. Potra, Y. Shi, ACM Trans. Math. Softw. 21 (1995) 327-344.
Resonance resonance(const Network& network, int register_number, double start_Hz = 0.0);
Resonance resonance(const Flute& flute, const Air& air, const Fingering& open, int register_number);

// The first of them, counted from below like any other; if it is at `known_Hz` (0: not known),
// where it has been followed to, its digits are not sought again. Error    there, kNearError_cents.
Resonance first_resonance(const Network& network, double known_Hz);
// The second, where the first was found from below: counted on from there.
Resonance second_resonance(const Network& network, double first_Hz);

// The same from a good guess: two or three evaluations, for many flutes that differ little.
//   guess_Hz        within kNearest_cents of the answer
//   cents_per_rad   how fast the resonance moves with the turn, of a similar flute (Slope)
//   counted         Resonance::turn is wanted too: the last steps are taken with the count
//
// Model    secant steps, the first with the slope given; falls back on resonance() when the steps
//          do not shrink. followed_resonance() does not: a register that is not there any more is
//          not looked for elsewhere, and not found.
// Error    converged: kNearError_cents. A guess further off may find another register.
Resonance resonance_near(const Network& network, int register_number, double guess_Hz,
                         double cents_per_rad);
Resonance followed_resonance(const Network& network, int register_number, double guess_Hz,
                             double cents_per_rad, bool counted = false);

inline constexpr double kNearError_cents = 1e-5;
inline constexpr double kNearest_cents = 200.0;

// Resistance of the loop over the bore's own impedance, (1 - |r|) / (1 + |r|); judgement. What a
// first register sounds at has 0.02 to 0.1, a second one through five open holes up to a third.
inline constexpr double kClear = 0.45;
inline constexpr double kFaint = 0.75;
// And how far the reactance lies below zero in the 4 % under a passage, and above it over one: a
// register that is nearly hidden touches zero and turns back. A clear one falls by 0.3 and more.
inline constexpr double kLeastDip = 0.1;

inline constexpr double kResonanceError = 1e-12;
inline constexpr double kLowest_Hz = 20.0;
inline constexpr double kHighest_Hz = 12000.0;
inline constexpr double kBracketStep = 1.05;

}  // namespace canewright
