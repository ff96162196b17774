// core/bench/belief/unknowns.hpp: the few physical things that only a blown flute tells. Layer:
// bench.
#pragma once

#include <Eigen/Core>

#include "core/base/units.hpp"
#include "core/bench/belief/history.hpp"
#include "core/layout/lift.hpp"

namespace canewright {

// The unknowns every flute has, in this order; after them one offset [m] for each cut: of a hole's
// size, of the foot's place. All are relative departures from what was measured or modelled, but
// for the last.
enum Unknown {
    kSoundHole,   // inertance of the voice over the model's, less 1
    kSoundSpeed,  // in the sounding bore over the model's, less 1
    kBore,        // effective diameter over the measured, less 1
    kWall,        // wall over the measured, less 1
    kHoles,       // effective size of all finger holes over the measured, less 1
    kDrift,       // how the player's breath lifts higher notes [cents per octave]
    kCommonUnknowns
};

// A Gaussian belief about the unknowns.
struct Belief {
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;

    double sigma(Eigen::Index n) const { return std::sqrt(covariance(n, n)); }
};

// What is believed before any reading.
//   bore_sigma_m, wall_sigma_m   how well the maker measured [m]; kLeastError_m where less is given
//
// Means are zero but the drift's. Standard deviations, with reasons:
//   sound hole   voice_sigma, from what was measured of the voice (core/task/voice)
//   sound speed  kSpeedSigma: breath's share in the bore, 0.1 of it (core/air) is 0.2 %, and a
//                thermometer off by 1 degree another 0.17 %
//   holes        kHolesSigma: edges torn or rounded by knife and rod (judgement)
//   drift        kDriftMean, kDriftSigma: players blow high notes harder; 0 to 15 cents over a
//                scale (common practice, no source)
Belief prior(double bore_m, double bore_sigma_m, double wall_m, double wall_sigma_m,
             double voice_sigma);

// Nothing in a workshop is measured or cut truer: the hundredth of a millimetre that a good caliper
// reads (common practice, no source). A belief that leaves a length no room at all has no inverse,
// and says nothing of the flute.
inline constexpr double kLeastError_m = 1e-5;
// Of the bore, what a hole may have there (the format's bound), undercut or as believed.
inline constexpr double kMostHole = 0.95;
// How far a hole can be undercut: as far as the bore is wide, over its own size.
double widest_flare(const Flute& blank, const HoleNow& hole);

inline constexpr double kSpeedSigma = 0.003;
inline constexpr double kHolesSigma = 0.03;
inline constexpr double kDriftMean_cents = 5.0;
inline constexpr double kDriftSigma_cents = 6.0;

// The flute and its air as a set of unknowns makes them; offsets of cuts are looked up by their
// number (offset 0 where they have none).
Flute with_unknowns(const History& history, const Stage& stage, const Eigen::VectorXd& unknowns);
Air air_with_unknowns(const History& history, double room_C, const Eigen::VectorXd& unknowns);

// Offset of a cut [m], 0 for none.
inline double cut_offset_m(const Eigen::VectorXd& unknowns, int cutting) {
    const Eigen::Index own = kCommonUnknowns + cutting;
    return cutting >= 0 && own < unknowns.size() ? unknowns(own) : 0.0;
}

// Lift by breath of a note so many cents above the flute's lowest [cents].
inline double drift_cents(const Eigen::VectorXd& unknowns, double above_lowest_cents) {
    return lift_cents(unknowns(kDrift), above_lowest_cents);
}

}  // namespace canewright
