// core/tone/blown.hpp: what a blown flute radiates, stepped through time. Layer: tone.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "core/air/air.hpp"
#include "core/jet/drive.hpp"
#include "core/jet/track.hpp"
#include "core/tone/modes.hpp"

namespace canewright {

// Pressure at the track's inlet over time: it rises within kRise_s, goes evenly in its logarithm
// from one to the other, and falls within kFall_s.
struct Breath {
    double from_Pa = 0.0, to_Pa = 0.0;
    double seconds = 0.0;  // from the first rise to the end of the fall
    // What sounds already when it begins, in a higher register for one: a player has ways to make a
    // note speak where it does not grow by itself. Then the breath is there at once, and what is
    // heard swells.
    Oscillation already{};
};

inline constexpr double kRise_s = 0.04, kFall_s = 0.03;  // common practice, no source

// What blows, and on what.
struct Player {
    Air air;
    Track track;
    Drive drive;
};

// Sound pressure kHeardFrom_m away [Pa], kToneRate_Hz samples a second; a moment of ringing after
// the breath.
//
// Model    the equations of core/jet/drive, with ModalLoop for the resonator: each mode is stepped
//          exactly for a pressure that goes straight from one sample to the next, the edge's loss
//          is solved for within the step (a quadratic), the jet's lateness is a third-order
//          Lagrange fraction of a sample, at kInner times the rate. Turbulence is a pressure beside
//          the jet's, white below kNoiseStrouhal U / h, of kNoise rho U^2 / 2 over the root of the
//          patches H / h that act apart. What is heard is the change of all the flows out of
//          openings, as they come together in free air.
// Valid    as core/jet/drive and its bands; a steady mouth. Above ModalLoop::top_Hz the resonator
// is
//          a mass. No room, no reflections, no directivity.
// Error    kToneError_cents of the steady pitch against the balance (core/jet/drive) at the design
//          breath, kToneFar_cents between the softest and the hardest breath. Loudness and noise
//          are orders of size: the noise's two numbers are judgement, no source.
// Source   equations as core/jet/drive; steps: hold of first order, any text on digital control;
//          T.I. Laakso et al., IEEE Signal Proc. Mag. 13 (1996) 30-60 for the fraction. Turbulence
//          that goes with the jet's dynamic pressure: M.-P. Verge's thesis (1995), from memory.
std::vector<float> blown(const ModalLoop& loop, const Player& player, const Breath& breath,
                         std::uint64_t seed = 1);

inline constexpr double kToneRate_Hz = 48000.0;
inline constexpr int kInner = 2;
inline constexpr double kRinging_s = 0.12;
inline constexpr double kNoise = 0.05;
inline constexpr double kNoiseStrouhal = 0.2;

inline constexpr double kToneError_cents = 1.0;
inline constexpr double kToneFar_cents = 3.0;

}  // namespace canewright
