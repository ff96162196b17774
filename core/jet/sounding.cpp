// core/jet/sounding.cpp: quality of the loop and the jet's delay.
#include "core/jet/sounding.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"

namespace canewright {

double loop_quality(const Network& network, double resonance_Hz) {
    // wide enough for the difference to stand out from rounding, narrow against 1 / Q
    constexpr double kStep = 1e-5;
    const Complex above = network.passing(resonance_Hz * (1.0 + kStep)).impedance;
    const Complex below = network.passing(resonance_Hz * (1.0 - kStep)).impedance;
    const double slope = (above.imag() - below.imag()) / (2.0 * kStep);
    return slope / (above.real() + below.real());
}

double breath_shift_cents(double quality, double relative_breath) {
    const double breath = std::clamp(relative_breath, kLeastBreath, kMostBreath);
    const double lift = std::tan(kPi - kPi / std::sqrt(breath)) / (2.0 * quality);
    return kCentsPerOctave * std::log2(1.0 + lift);
}

double breath_cents(const Network& network, double resonance_Hz, double relative_breath) {
    if (relative_breath == 1.0 || !std::isfinite(resonance_Hz)) return 0.0;
    return breath_shift_cents(loop_quality(network, resonance_Hz), relative_breath);
}

double breath_slope_cents(double quality) {
    // d(pi - pi / sqrt(b)) / db = pi / 2 at b = 1, where the tangent's slope is 1
    return kCentsPerOctave / std::log(2.0) * kPi / (4.0 * quality);
}

}  // namespace canewright
