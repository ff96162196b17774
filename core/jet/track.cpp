// core/jet/track.cpp: flow in a plane channel with its entrance.
#include "core/jet/track.hpp"

#include <algorithm>
#include <cmath>

#include "core/jet/bracket.hpp"

namespace canewright {
namespace {

// Pressure drop over rho Um^2 / 2, without the flow's own; x+ is l / (4 h Re_h). Numbers: Shah's.
double drop(double x) {
    constexpr double kBoundaryLayer = 13.76, kDeveloped = 96.0, kChange = 0.000029;
    const double layer = kBoundaryLayer * std::sqrt(x);
    return layer + (kDeveloped * x + kDevelopedLoss - layer) / (1.0 + kChange / (x * x));
}

double centre_speed(double bernoulli_m_s, double mean_m_s) {
    const double developed_m_s = 1.5 * mean_m_s;
    const double ratio =
        std::min(bernoulli_m_s, developed_m_s) / std::max(bernoulli_m_s, developed_m_s);
    return std::min(bernoulli_m_s, developed_m_s) *
           std::pow(1.0 + std::pow(ratio, kCentreMean), -1.0 / kCentreMean);
}

bool flows(const Track& track) {
    return track.height_m() > 0.0 && track.width_m > 0.0 && track.length_m >= 0.0;
}

constexpr double kNarrow = 1e-10;  // of a root, relative

}  // namespace

double track_pressure_Pa(const Air& air, const Track& track, double mean_m_s) {
    if (!(mean_m_s > 0.0)) return 0.0;
    const double h_m = track.height_m();
    const double own_Pa = 0.5 * air.density_kg_m3 * mean_m_s * mean_m_s;
    const double x =
        track.length_m * air.viscosity_Pa_s / (4.0 * h_m * h_m * air.density_kg_m3 * mean_m_s);
    return own_Pa * (1.0 + (x > 0.0 ? drop(x) : 0.0));
}

TrackFlow track_flow(const Air& air, const Track& track, double pressure_Pa) {
    TrackFlow flow;
    if (!(pressure_Pa > 0.0) || !flows(track)) return flow;
    const double h_m = track.height_m(), rho = air.density_kg_m3;
    const double bernoulli_m_s = std::sqrt(2.0 * pressure_Pa / rho);
    // Between the friction of the developed channel with all of K, and none at all. K stays
    // below kDevelopedLoss, hence the 1.7.
    const double rub = 12.0 * air.viscosity_Pa_s * track.length_m / (h_m * h_m);
    const double low_m_s =
        2.0 * pressure_Pa / (rub + std::sqrt(rub * rub + 2.0 * 1.7 * rho * pressure_Pa));
    const auto excess = [&](double mean_m_s) {
        return track_pressure_Pa(air, track, mean_m_s) / pressure_Pa - 1.0;
    };
    flow.mean_m_s = bracketed_root(excess, low_m_s, bernoulli_m_s, excess(low_m_s),
                                   excess(bernoulli_m_s), kNarrow * bernoulli_m_s);
    flow.centre_m_s = centre_speed(bernoulli_m_s, flow.mean_m_s);
    flow.flow_m3_s = flow.mean_m_s * h_m * track.width_m;
    flow.reynolds = flow.centre_m_s * h_m * rho / air.viscosity_Pa_s;
    return flow;
}

double centre_pressure_Pa(const Air& air, const Track& track, double centre_m_s) {
    if (!(centre_m_s > 0.0) || !flows(track)) return 0.0;
    const auto centre = [&](double mean_m_s) {
        const double p_Pa = track_pressure_Pa(air, track, mean_m_s);
        return centre_speed(std::sqrt(2.0 * p_Pa / air.density_kg_m3), mean_m_s) / centre_m_s - 1.0;
    };
    const double low_m_s = centre_m_s / 1.6, high_m_s = 1.01 * centre_m_s;
    const double mean_m_s = bracketed_root(centre, low_m_s, high_m_s, centre(low_m_s),
                                           centre(high_m_s), kNarrow * centre_m_s);
    return track_pressure_Pa(air, track, mean_m_s);
}

double entrance_length_m(const Air& air, const Track& track, double mean_m_s) {
    const double h_m = track.height_m();
    return kEntrance * mean_m_s * h_m * h_m * air.density_kg_m3 / air.viscosity_Pa_s;
}

}  // namespace canewright
