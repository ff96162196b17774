// core/flute/resonance.cpp: finds the n-th resonance by the turn of the loop's reflection.
#include "core/flute/resonance.hpp"

#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"

namespace canewright {
namespace {

// At a resonance the impedance is real; where the turn slips it is anything.
constexpr double kReal = 1e-6;
constexpr double kNearlyReal = 0.05;  // a thousandth of a cent away, at a Q of some thousands
constexpr int kMostSlips = 2 * kMostHolesOpen;
constexpr int kMostSteps = 160;  // brackets: 1.05^132 spans 20 Hz to 12 kHz

Resonance missing(const char* why, int evaluations) {
    Resonance r;
    r.frequency_Hz = std::numeric_limits<double>::quiet_NaN();
    r.why = why;
    r.evaluations = evaluations;
    return r;
}

// Where the turn passes `half_turns` times pi.
Resonance passage(const Network& network, int half_turns, double start_Hz) {
    int evaluations = 0;
    const auto excess = [&](double f) {
        ++evaluations;
        return network.at(f).turn - kPi * half_turns;
    };
    // Half a wave from the sound hole to the first open hole, with room for both end corrections.
    double low = start_Hz;
    double step = 1.0 + (kBracketStep - 1.0) / 8.0;  // a guess is usually within a tenth of a tone
    if (!(low > 0.0)) {
        low = 0.4 * half_turns * network.air().sound_speed_m_s / network.first_open_m();
        step = kBracketStep;
    }
    low = std::min(std::max(low, kLowest_Hz), kHighest_Hz);
    double at_low = excess(low);
    double high = low, at_high = at_low;
    const bool upwards = at_low < 0.0;
    for (int n = 0; n < kMostSteps && (upwards ? at_high < 0.0 : at_low >= 0.0); ++n) {
        if (upwards) {
            low = high, at_low = at_high;
            high *= step, at_high = excess(high);
        } else {
            high = low, at_high = at_low;
            low /= step, at_low = excess(low);
        }
        step = std::min(step * step, kBracketStep);
        if (high > kHighest_Hz || low < kLowest_Hz) return missing("no_resonance", evaluations);
    }
    // written so that NaN fails
    if (!(at_low < 0.0 && at_high >= 0.0)) return missing("no_resonance", evaluations);

    const auto narrow = [](double a, double b) { return std::abs(b - a) <= kResonanceError * b; };
    std::uintmax_t trips = 60;
    const auto bracket = at_high == 0.0 ? std::make_pair(high, high)
                                        : boost::math::tools::toms748_solve(
                                              excess, low, high, at_low, at_high, narrow, trips);
    Resonance r;
    r.frequency_Hz = 0.5 * (bracket.first + bracket.second);
    r.found = true;
    r.converged = narrow(bracket.first, bracket.second);
    r.evaluations = evaluations;
    return r;
}

}  // namespace

// The tube below an open hole has resonances of its own. Where the hole hides one from the jet the
// turn slips by pi at once, without the impedance being real: no register, and not counted.
Resonance resonance(const Network& network, int register_number, double start_Hz) {
    int evaluations = 0, real = 0;
    for (int half_turns = 1; half_turns <= register_number + kMostSlips; ++half_turns) {
        Resonance r = passage(network, half_turns, start_Hz);
        if (!r.found) return missing(r.why, evaluations + r.evaluations);
        const Complex z = network.at(r.frequency_Hz).impedance;
        evaluations += r.evaluations + 1;
        r.evaluations = evaluations;
        if (std::abs(z.imag()) <= kReal * std::abs(z) && ++real == register_number) return r;
    }
    return missing("no_resonance", evaluations);
}

Resonance resonance_near(const Network& network, int register_number, double guess_Hz,
                         double cents_per_rad) {
    constexpr int kMostTrips = 6;
    // A step this small leaves an error smaller by the slope's own error, which after one secant
    // is below a hundredth (a given slope may be off by more: it never has the last word).
    constexpr double kSmallStep_cents = 1e-3;
    double f = guess_Hz, moved_cents = 0.0, last_excess = 0.0;
    int evaluations = 0;
    for (int trip = 0; trip < kMostTrips; ++trip) {
        const Loop loop = network.at(f);
        const double excess = loop.turn - kPi * register_number;
        ++evaluations;
        if (trip > 0 && excess != last_excess) cents_per_rad = moved_cents / (excess - last_excess);
        const double step_cents = -excess * cents_per_rad;
        if (!(std::abs(step_cents) < kNearest_cents)) break;  // NaN fails
        f = shifted_Hz(f, step_cents);
        const bool real = std::abs(loop.impedance.imag()) <= kNearlyReal * std::abs(loop.impedance);
        if (std::abs(step_cents) < kNearError_cents ||
            (trip > 0 && std::abs(step_cents) < kSmallStep_cents)) {
            Resonance r;
            r.frequency_Hz = f;
            r.found = r.converged = real && f >= kLowest_Hz && f <= kHighest_Hz;
            if (!r.found) break;
            r.evaluations = evaluations;
            return r;
        }
        moved_cents = step_cents;
        last_excess = excess;
    }
    Resonance r = resonance(network, register_number);
    r.evaluations += evaluations;
    return r;
}

Resonance resonance(const Flute& flute, const Air& air, const Fingering& open,
                    int register_number) {
    return resonance(Network(flute, air, open), register_number);
}

}  // namespace canewright
