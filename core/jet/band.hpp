// core/jet/band.hpp: how far the jet's model may be trusted for a voice. Layer: jet.
#pragma once

namespace canewright {

// Good: pressures within kGoodShare either way, uncalibrated. Rough: within a factor kRoughFactor,
// and how far the jump up lies over the jump down is not said. Out: resonances only.
enum class Band { good, rough, out };

// The number that decided a band.
enum class BandReason { none, reynolds, short_window, long_window, fast_jet };

struct Judgement {
    Band band = Band::good;
    BandReason reason = BandReason::none;
    double value = 0.0;  // of the number that decided
    double limit = 0.0;  // of the next better band, which it misses
};

// Judges a voice at one pressure.
//   reynolds       Re_c = U h / nu, of the track's height and the jet's centre speed [-]
//   window_ratio   W / h [-]
//   speed_m_s      U
//
// Model    each number has a band, the worst is the answer; of two as bad, the first of the
//          enumeration. No worse with a greater Reynolds number, a slower jet, or a ratio nearer to
//          the good range.
//              good    Re_c >= 125 W/h   W/h 3 to 8    U <= 35 m/s
//              rough   Re_c >= 40 W/h    W/h 2 to 12   U <= 70 m/s
//          The first limit is where a steady jet has widened by a fifth at the edge (W = 0.3 x0 of
//          spread_jet()), the second by a half (0.94 x0).
// Valid    Below W/h = 2 jets are thick and want another model. Of tracks lower than 0.2 mm no
//          flute is published; they fail by their Reynolds number.
// Error    judgement, not published: nothing happens at these very limits. A number that does not
//          exist is out.
Judgement judge(double reynolds, double window_ratio, double speed_m_s);

inline constexpr double kGoodShare = 0.4;
inline constexpr double kRoughFactor = 2.0;

inline constexpr double kGoodReynolds = 125.0, kRoughReynolds = 40.0;  // each times W/h
inline constexpr double kGoodLeastRatio = 3.0, kGoodMostRatio = 8.0;
inline constexpr double kRoughLeastRatio = 2.0, kRoughMostRatio = 12.0;
inline constexpr double kGoodSpeed_m_s = 35.0, kRoughSpeed_m_s = 70.0;

}  // namespace canewright
