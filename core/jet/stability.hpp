// core/jet/stability.hpp: whether a vibration with its harmonics stays. Layer: jet.
#pragma once

#include "core/jet/overtones.hpp"

namespace canewright {

// How fast the liveliest small disturbance of a vibration grows, per radian of the vibration;
// below 0 it dies away, and the vibration stays.
//
// Model    the first two harmonics and the steady flow are given slow ways of their own, exp(s t),
//          in the harmonic balance: the impedance at j h w + s, the jet's lateness and the source's
//          derivative to first order in s; the higher harmonics follow at once. The roots s of what
//          comes of it, without the one that only shifts the clock, and without those further than
//          kSlow from 0, of which the first order knows nothing. So a second harmonic that begins
//          to slip against the first is seen: the second register taking over. The balance itself
//          mostly goes on there, bent, without a fold.
// Valid    a vibration that has_overtones. Resonances near no harmonic, and those below the first,
//          are asked by Drive::rival_gain.
// Error    the place of the change, kStayError of the pressure, against the equations in time.
// Source   Hill's determinant of a periodic solution (G.W. Hill, Acta Math. 8 (1886) 1-36, any text
//          on the stability of harmonic balance), to first order; derived here.
double growth(const JetTerms& terms, const LocalImpedance& loop, const Overtones& overtones,
              const Oscillation& of, double centre_m_s);

inline constexpr double kSlow = 0.12;  // of the vibration's angular frequency
inline constexpr double kStayError = 0.15;

}  // namespace canewright
