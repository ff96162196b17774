// core/jet/drive.cpp: harmonic balance of jet and resonator.
#include "core/jet/drive.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/jet/bracket.hpp"

namespace canewright {
namespace {

constexpr double kContraction = 0.6;  // of the flow past the edge
constexpr double kReach_cents = LocalImpedance::kLocalReach_cents;
constexpr double kNear_cents = 1e-5;
// Fundamental of v|v| is 8/(3 pi) |v| v; a faint other one feels 2 <|v|> = 4/pi |v|.
constexpr double kToItself = 4.0 / (3.0 * kPi * kContraction * kContraction);
constexpr double kToOthers = 2.0 / (kPi * kContraction * kContraction);

}  // namespace

Drive::Drive(const Air& air, double height_m, double offset_m, double window_m, double width_m,
             const JetWave& wave)
    : window_m_(window_m),
      area_m2_(window_m * width_m),
      density_kg_m3_(air.density_kg_m3),
      offset_(offset_m / (kHalfWidth * height_m)),
      wave_(wave),
      saturation_(offset_) {
    const double grown = std::exp(wave.growth * window_m / height_m);
    const double dipole_m = 4.0 / kPi * std::sqrt(2.0 * height_m * window_m);
    receptivity_ = grown / kHalfWidth;
    drive_Pa_s2_m = density_kg_m3_ * dipole_m * height_m / window_m * grown;
}

JetTerms Drive::terms() const {
    // of Q = b H U [1 + tanh], b = drive / receptivity; the steady half of it drives nothing
    return {window_m_ / wave_.convection,
            receptivity_,
            offset_,
            drive_Pa_s2_m / receptivity_,
            0.5 * density_kg_m3_ / (kContraction * kContraction),
            area_m2_};
}

double Drive::phase_rad(double angular_Hz, double centre_m_s) const {
    return 0.5 * kPi - angular_Hz * window_m_ / (wave_.convection * centre_m_s);
}

// The greatest swing at which `drive` to_itself(swing) meets resistance + loss swing; 0 for none.
double Drive::swing(double resistance, double loss, double drive) const {
    if (!(drive > 0.0)) return 0.0;
    const auto excess = [&](double a) {
        return drive * saturation_.to_itself(a) - resistance - loss * a;
    };
    // to_itself() is at most 4 / (pi a)
    const double most = 4.0 / kPi * drive;
    const double high =
        2.0 * most / (resistance + std::sqrt(resistance * resistance + 4.0 * loss * most));
    const double at_high = excess(high);
    // Where it falls all the way one bracket will do. With the edge far off it rises first, and a
    // vibration may live that would not start: then down from above, until there is enough.
    double low = 0.0, at_low = excess(low);
    if (saturation_.most_at() > 0.0) {
        constexpr int kTrips = 40;
        for (int n = kTrips - 1; n >= 0; --n) {
            low = high * n / kTrips;
            at_low = excess(low);
            if (at_low > 0.0) break;
        }
    }
    if (!(at_low > 0.0) || at_high > 0.0) return 0.0;
    return bracketed_root(excess, low, high, at_low, at_high, 1e-9 * high);
}

Oscillation Drive::oscillation(const LocalImpedance& loop, double centre_m_s) const {
    Oscillation found;
    found.frequency_Hz = std::numeric_limits<double>::quiet_NaN();
    if (!loop.exists() || !(centre_m_s > 0.0)) return found;
    double at_swing = 0.0;
    const double loss = density_kg_m3_ * kToItself * centre_m_s / receptivity_;
    // Imaginary part of the balance, turned by the jet's phase: it rises with frequency
    const auto excess = [&](double cents) {
        const double w = 2.0 * kPi * shifted_Hz(loop.resonance_Hz(), cents);
        const double phase = phase_rad(w, centre_m_s);
        const Complex z = area_m2_ * loop.at(cents);
        at_swing = swing(z.real(), loss, drive_Pa_s2_m * w * std::cos(phase));
        return z.imag() * std::cos(phase) - (z.real() + loss * at_swing) * std::sin(phase);
    };
    const double at_low = excess(-kReach_cents);
    if (!(at_low < 0.0)) return found;
    const double at_high = excess(kReach_cents);
    if (!(at_high > 0.0)) return found;
    found.cents = bracketed_root(excess, -kReach_cents, kReach_cents, at_low, at_high, kNear_cents);
    excess(found.cents);
    found.sounds = at_swing > 0.0;
    if (!found.sounds) return found;
    found.frequency_Hz = shifted_Hz(loop.resonance_Hz(), found.cents);
    found.swing = at_swing;
    found.velocity_m_s = at_swing * centre_m_s / receptivity_;
    return found;
}

double Drive::rival_gain(const LocalImpedance& other, const Oscillation& present,
                         double centre_m_s) const {
    if (!other.exists() || !(centre_m_s > 0.0)) return 0.0;
    const double loss = density_kg_m3_ * kToOthers * present.velocity_m_s;
    const auto balance = [&](double cents, double& gain) {
        const double w = 2.0 * kPi * shifted_Hz(other.resonance_Hz(), cents);
        const double phase = phase_rad(w, centre_m_s);
        const Complex z = area_m2_ * other.at(cents);
        gain = drive_Pa_s2_m * w * saturation_.to_others(present.swing) * std::cos(phase) /
               (z.real() + loss);
        return z.imag() * std::cos(phase) - (z.real() + loss) * std::sin(phase);
    };
    double gain = 0.0;
    const auto excess = [&](double cents) { return balance(cents, gain); };
    const double at_low = excess(-kReach_cents), at_high = excess(kReach_cents);
    if (!(at_low < 0.0) || !(at_high > 0.0)) return 0.0;
    const double cents = bracketed_root(excess, -kReach_cents, kReach_cents, at_low, at_high, 0.01);
    excess(cents);
    return std::max(gain, 0.0);
}

}  // namespace canewright
