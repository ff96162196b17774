// core/jet/track.hpp: the air that flows through the track, and how fast it leaves. Layer: jet.
#pragma once

#include "core/air/air.hpp"

namespace canewright {

// The flat channel that leads the breath to the sound hole [m].
struct Track {
    double depth_m = 0.0;
    double width_m = 0.0;
    double length_m = 0.0;
    // How far the block stands above its seat: added to the depth all along.
    double block_gap_m = 0.0;

    double height_m() const { return depth_m + block_gap_m; }
};

// What flows at one pressure.
struct TrackFlow {
    double mean_m_s = 0.0;    // speed over the section
    double centre_m_s = 0.0;  // U, of the jet at the track's end: 1 to 1.5 times the mean
    double flow_m3_s = 0.0;
    double reynolds = 0.0;  // Re_c, of the height and the centre's speed [-]
};

// Pressure that drives a mean speed through a track [Pa].
//
// Model    p = rho Um^2 / 2 (1 + K) + 12 mu l Um / h^2: the flow's own pressure, and friction. K is
//          what the profile costs to form and the entrance rubs more, 0 for a short track and 0.674
//          beyond the entrance length (entrance_length_m()).
// Valid    laminar (Re_h below about 1300), a width of ten depths or more (side walls left out: at
//          ten the friction is 6 % more), an inlet that does not contract: a sharp one leaves 0.6
//          to 0.65 of the height (from memory) and is not in it.
// Error    kTrackError of the pressure, against the channel's own equations.
// Source   R.K. Shah's correlation in R.K. Shah & A.L. London, Laminar Flow Forced Convection in
//          Ducts (1978), from memory; checked by tools/reference/track_entrance.py, which fits
//          nothing. Developed part exact (plane Poiseuille flow).
double track_pressure_Pa(const Air& air, const Track& track, double mean_m_s);

// What a pressure drives: the root of the above (it rises with the speed), and the centre's speed.
//
// Model    the core loses nothing until the walls' layers meet, so its speed is Bernoulli's,
//          sqrt(2 p / rho); after that it is 1.5 Um. Between the two a power mean (kCentreMean),
//          less than either.
// Error    kCentreError of the centre's speed at a given mean speed and pressure drop; where the
//          drop is 2 % off so is half of it here.
// Source   as above; the power is ours, from the same script.
// Requires a positive pressure and track; nothing flows otherwise.
TrackFlow track_flow(const Air& air, const Track& track, double pressure_Pa);

// The pressure at which the centre has a speed [Pa].
double centre_pressure_Pa(const Air& air, const Track& track, double centre_m_s);

// Where the centre has come to 0.99 of its last speed, 0.044 Re_h h [m].
// Source   Shah & London (1978), from memory; tools/reference/track_entrance.py has 0.9905 there.
double entrance_length_m(const Air& air, const Track& track, double mean_m_s);

inline constexpr double kTrackError = 0.025;
inline constexpr double kCentreError = 0.005;
inline constexpr double kCentreMean = 19.0;
inline constexpr double kEntrance = 0.044;
inline constexpr double kDevelopedLoss = 0.674;  // K far from the inlet

// How long a breath lasts at a flow [s].
// Source   common practice, no source: kBreathVolume_m3 of air, about what is let out at ease
//          before the next breath is wanted.
inline double breath_s(double flow_m3_s) {
    constexpr double kBreathVolume_m3 = 0.003;
    return kBreathVolume_m3 / flow_m3_s;
}

}  // namespace canewright
