// core/jet/jet.cpp: growth, spreading and Ising's number of the jet.
#include "core/jet/jet.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace canewright {
namespace {

struct Row {
    double strouhal, growth, phase_speed;
};

// tools/reference/jet_growth.py
constexpr Row kRows[] = {{0.02, 0.0742, 0.3037},
                         {0.04, 0.1176, 0.3391},
                         {0.06, 0.1527, 0.3555},
                         {0.10, 0.2065, 0.3697},
                         {0.12, 0.2265, 0.3735},
                         {0.15, 0.2490, 0.3782},
                         {0.20, 0.2700, 0.3869},
                         {0.25, 0.2762, 0.3981},
                         {0.32, 0.2703, 0.4168},
                         {0.40, 0.2531, 0.4402},
                         {0.50, 0.2250, 0.4698},
                         {0.60, 0.1945, 0.4986},
                         {0.75, 0.1489, 0.5391},
                         {0.90, 0.1056, 0.5762},
                         {1.04, 0.0683, 0.6080},
                         {1.20, 0.0293, 0.6412},
                         {kNeutralStrouhal, 0.0, 2.0 / 3.0}};

}  // namespace

WaveGrowth wave_growth(double strouhal) {
    const Row* const last = std::end(kRows) - 1;
    const double s = std::clamp(strouhal, kRows[0].strouhal, last->strouhal);
    const Row* above = std::upper_bound(
        kRows + 1, last, s, [](double at, const Row& row) { return at < row.strouhal; });
    const Row* below = above - 1;
    const double share = (s - below->strouhal) / (above->strouhal - below->strouhal);
    return {below->growth + share * (above->growth - below->growth),
            below->phase_speed + share * (above->phase_speed - below->phase_speed)};
}

SpreadJet spread_jet(const Air& air, double height_m, double centre_m_s, double way_m) {
    const double reynolds = centre_m_s * height_m * air.density_kg_m3 / air.viscosity_Pa_s;
    const double origin_m = 2.0 / 75.0 * height_m * reynolds;
    const double wider = std::cbrt(1.0 + way_m / origin_m);
    return {centre_m_s / wider, kHalfWidth * height_m * wider * wider};
}

double ising_number(const Air& air, double pressure_Pa, double height_m, double window_m,
                    double frequency_Hz) {
    return std::sqrt(2.0 * pressure_Pa * height_m / air.density_kg_m3) /
           (frequency_Hz * window_m * std::sqrt(window_m));
}

double ising_pressure_Pa(const Air& air, double ising, double height_m, double window_m,
                         double frequency_Hz) {
    const double speed = ising * frequency_Hz * window_m;
    return 0.5 * air.density_kg_m3 * speed * speed * window_m / height_m;
}

}  // namespace canewright
