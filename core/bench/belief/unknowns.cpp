// core/bench/belief/unknowns.cpp: priors, and flutes made of a set of unknowns.
#include "core/bench/belief/unknowns.hpp"

#include <algorithm>
#include <cmath>

namespace canewright {

Belief prior(double bore_m, double bore_sigma_m, double wall_m, double wall_sigma_m,
             double voice_sigma) {
    Belief belief;
    belief.mean = Eigen::VectorXd::Zero(kCommonUnknowns);
    belief.mean(kDrift) = kDriftMean_cents;
    Eigen::VectorXd sigma(kCommonUnknowns);
    sigma << voice_sigma, kSpeedSigma, std::max(bore_sigma_m, kLeastError_m) / bore_m,
        std::max(wall_sigma_m, kLeastError_m) / wall_m, kHolesSigma, kDriftSigma_cents;
    belief.covariance = sigma.cwiseAbs2().asDiagonal();
    return belief;
}

double widest_flare(const Flute& blank, const HoleNow& hole) {
    return std::max(1.0, kMostHole * bore_diameter_m(blank, hole.at_m) / hole.diameter_m);
}

Flute with_unknowns(const History& history, const Stage& stage, const Eigen::VectorXd& u) {
    Flute flute = flute_at(history, stage);
    for (BoreStation& station : flute.bore) {
        station.diameter_m *= 1.0 + u(kBore);
        station.across_m *= 1.0 + u(kBore);
    }
    flute.wall_m *= 1.0 + u(kWall);
    flute.foot_m += cut_offset_m(u, stage.foot_cutting);
    flute.sound_hole.inertance_factor *= 1.0 + u(kSoundHole);
    std::size_t made = 0;
    for (const HoleNow& hole : stage.holes) {
        if (!hole.cut) continue;
        FingerHole& f = flute.holes[made++];
        const double diameter_m =
            hole.diameter_m * (1.0 + u(kHoles)) + cut_offset_m(u, hole.cutting);
        // a hole stays a hole, whatever a step of the fit proposes
        const double bore_m = bore_diameter_m(history.blank, hole.at_m);
        const double least_m = std::min(0.05 * bore_m, 0.5 * hole.diameter_m);
        f.diameter_m = std::clamp(diameter_m, least_m, kMostHole * bore_m);
        f.inner_diameter_m = f.diameter_m * hole.flare;
        f.wall_m *= 1.0 + u(kWall);
    }
    return flute;
}

Air air_with_unknowns(const History& history, double room_C, const Eigen::VectorXd& u) {
    AirState room = history.room;
    room.temperature_C = room_C;
    Air air = history.given_air ? *history.given_air : moist_air(sounding_air(room));
    air.sound_speed_m_s *= 1.0 + u(kSoundSpeed);
    return air;
}

}  // namespace canewright
