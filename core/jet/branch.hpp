// core/jet/branch.hpp: a vibration with its harmonics, followed as the breath changes. Layer: jet.
#pragma once

#include "core/jet/overtones.hpp"

namespace canewright {

// How far a vibration could be followed.
struct Followed {
    double centre_m_s = 0.0;  // of the jet
    Oscillation oscillation;  // there
    bool arrives = false;     // false: it goes on no further
};

// What is watched on the way: whether it goes on at all, or whether a disturbance grows, too.
enum class Watch { ends, slipping };

// From one speed of the jet on to another.
//
// Model    the harmonic balance of core/jet/overtones keeps its solution as the speed changes, so
//          its solutions are curves. The curve is walked by its own length, not by the speed: each
//          step goes along the tangent and is led back at right angles to it by Newton's method; a
//          step that turns too far, turns back in speed or does not settle is halved. So sharp
//          bends are followed, and another vibration that lies close by is not taken for the same.
//          It ends where it dies, where the curve turns back (a fold), or where a disturbance
//          begins to grow (core/jet/stability), sought on the curve by false position.
// Valid    a vibration `from` with its harmonics that stays; within kLocalReach_cents of the
//          resonance, where that ends so does what is followed.
// Error    kFollowedError of the speed of an end, relative.
// Source   H.B. Keller, in P. Rabinowitz (ed.), Applications of Bifurcation Theory (1977): pseudo-
//          arclength continuation, from memory, any text on numerical continuation.
Followed followed(const JetTerms& terms, const LocalImpedance& loop, const Overtones& overtones,
                  const Oscillation& from, double from_m_s, double to_m_s, Watch watch);

inline constexpr double kFollowedError = 2e-4;

}  // namespace canewright
