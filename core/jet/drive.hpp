// core/jet/drive.hpp: what a jet of one speed makes of a resonance. Layer: jet.
#pragma once

#include <array>
#include <cstddef>

#include "core/air/air.hpp"
#include "core/jet/jet.hpp"
#include "core/jet/local_impedance.hpp"
#include "core/jet/saturation.hpp"

namespace canewright {

inline constexpr std::size_t kOvertones = 5;

// A vibration that keeps itself going, or none.
struct Oscillation {
    bool sounds = false;
    double cents = 0.0;         // from the passive resonance
    double frequency_Hz = 0.0;  // NaN unless it sounds
    double velocity_m_s = 0.0;  // peak, in the window
    double swing = 0.0;         // of the jet at the edge, peak, in half widths b
    // Where they were asked for (core/jet/overtones): the harmonics from the second up, against the
    // first as cosine, and what flows steadily.
    bool has_overtones = false;
    std::array<Complex, kOvertones> overtones_m_s{};
    double steady_m_s = 0.0;
};

// The equations of Drive before they are balanced, for stepping through time (core/tone): with v
// the flow's speed in the window and U the jet's,
//     swing(t) = receptivity v(t - late_m / U) / U                           in half widths
//     pressure = source_Pa_s2_m d/dt [U tanh(swing - offset)] - loss_Pa_s2_m2 v |v|
struct JetTerms {
    double late_m = 0.0;
    double receptivity = 0.0;
    double offset = 0.0;
    double source_Pa_s2_m = 0.0;
    double loss_Pa_s2_m2 = 0.0;
    double area_m2 = 0.0;  // of the window
};

// Jet, edge and window of a voice: everything but the resonator and the pressure.
//   height_m, offset_m   the track's h; how far the edge lies off the jet's middle, y0
//   window_m, width_m    W and H of the sound hole
//
// Model    the flow v in the window moves the jet at the track's end, the wave grows and arrives
//          late, the jet's flow into the bore (b H U [1 + tanh]) works as a dipole across the
//          window, and the edge sheds vortices that cost 1/2 rho (v / 0.6)^2. In harmonic balance,
//          with Z = loop impedance times W H the pressure over v:
//              Z + 4 rho |v| / (3 pi 0.36) = j w (rho d b h / W) e^(growth W/h) N(A) e^(-j w tau)
//          d = (4 / pi) sqrt(2 h W), tau = W / (c_v U), A = (h/U) e^(growth W/h) |v|, N as in
//          core/jet/saturation. The phase decides nearly all: at U = 4 f W / c_v the note sounds at
//          its passive resonance, whatever the gain. Only the first hydrodynamic mode is in it
//          (w tau < pi): faint notes at a third of that speed and below are not.
// Valid    core/jet/band; one frequency at a time. Against the same equations stepped through time,
//          three harmonic modes of Q = 40: velocity 5 % too great, slope of the pitch 10 to 20 %
//          too steep, as the third harmonic rubs at the edge too.
// Error    kDriveError, of solving the balance; the physics' own in core/jet/regime.
// Source   M.-P. Verge, B. Fabre, A. Hirschberg, A.P.J. Wijnands, J. Acoust. Soc. Am. 101 (1997)
//          2914-2924 and M.-P. Verge, R. Causse, A. Hirschberg (1997, d) from memory; S. Terrien,
//          C. Vergez, B. Fabre, arXiv 1403.7487 (delay, growth, loss). The balance is derived.
class Drive {
   public:
    Drive(const Air& air, double height_m, double offset_m, double window_m, double width_m,
          const JetWave& wave = {});

    // The vibration of a resonance in a jet of a speed; one at most, the greatest.
    Oscillation oscillation(const LocalImpedance& loop, double centre_m_s) const;

    // Gain of a faint vibration of `other` in the presence of one that sounds (or of silence, for
    // an Oscillation that does not): it grows from nothing where this exceeds 1. 0 where the jet
    // comes too late for it.
    //
    // Model    the jet's slope averaged over the greater vibration; the edge's loss for the faint
    //          one, rho (2 / pi) |v| / 0.36, is 1.5 times that of the greater. No locking: the two
    //          frequencies have no simple ratio, or lie apart by more than they pull.
    // Error    taken as the place of a jump: in time, with the pressure held, registers change
    //          between kJumpLow and kJumpHigh of that pressure (three harmonic modes, Q 25 and 40).
    double rival_gain(const LocalImpedance& other, const Oscillation& present,
                      double centre_m_s) const;

    // The same with another speed of the wave.
    Drive with_convection(double convection) const {
        Drive other = *this;
        other.wave_.convection = convection;
        return other;
    }
    const JetWave& wave() const { return wave_; }
    JetTerms terms() const;

    // Speed at which a frequency is driven in phase, 4 f W / c_v.
    double speed_in_phase_m_s(double frequency_Hz) const {
        return 4.0 * frequency_Hz * window_m_ / wave_.convection;
    }

   private:
    // Share of the balance that the jet's lateness turns away: pi / 2 - w tau.
    double phase_rad(double angular_Hz, double centre_m_s) const;
    double swing(double resistance, double loss, double drive) const;

    double window_m_, area_m2_, density_kg_m3_;
    double offset_;  // of the edge, in half widths b
    JetWave wave_;
    double receptivity_;   // (h / b) e^(growth W / h): swing per v / U
    double drive_Pa_s2_m;  // (rho d h / W) e^(growth W / h), of the right side
    Saturation saturation_;
};

inline constexpr double kDriveError = 1e-6;
inline constexpr double kPitchError_cents = 0.8;  // against time, at the design breath
inline constexpr double kVelocityError = 0.07;    // against the equations in time, relative
inline constexpr double kSlopeError = 0.2;        // the same; always too steep
inline constexpr double kJumpLow = 0.9, kJumpHigh = 1.2;

}  // namespace canewright
