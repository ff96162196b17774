// core/jet/overtones.hpp: the harmonics that ride on a vibration, and what they do to its pitch.
// Layer: jet.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>

#include "core/base/units.hpp"
#include "core/jet/drive.hpp"
#include "core/jet/local_impedance.hpp"

namespace canewright {

// The loop's impedance round the harmonics of one register, from the second up.
struct Overtones {
    std::array<LocalImpedance, kOvertones> loops;
    // Of what flows steadily through the whole tube [Pa s/m^3]: unlike halves of a period let some.
    double steady = 0.0;
    double steady_inertance = 0.0;  // the same over angular frequency, of what flows slowly
    bool exist() const { return loops.front().exists(); }
};

// `impedance(frequency_Hz)` gives the loop's impedance.
template <class Impedance>
Overtones overtones(const Impedance& impedance, double resonance_Hz) {
    Overtones all;
    for (std::size_t n = 0; n < all.loops.size(); ++n)
        all.loops[n] = LocalImpedance(impedance, resonance_Hz * static_cast<double>(n + 2));
    constexpr double kSteady_Hz = 1.0;
    const Complex steady = impedance(kSteady_Hz);
    all.steady = std::abs(steady);
    // what is closed has none, and lets nothing flow
    all.steady_inertance = std::max(steady.imag(), 0.0) / (2.0 * kPi * kSteady_Hz);
    return all;
}

// A vibration with its harmonics.
//
// Model    the equations of JetTerms for a flow of kOvertones harmonics beside the first, each in
//          balance with its own impedance, by Newton's method from `near`: the balance of the first
//          alone (core/jet/drive), or what was found at a pressure a little off. The jet's and the
//          edge's shape make the harmonics, which swing the jet too: one near a resonance of the
//          tube pulls the pitch by up to 8 cents, and grows until the first cannot go on with it.
// Valid    as core/jet/drive. Whether another register grows is not asked here.
// Error    kOvertonesError_cents of the pitch, of the harmonics left out. Where the steps do not
//          end, `near` comes back without overtones: there is no such vibration, or none near.
// Source   harmonic balance: J. Gilbert, J. Kergomard, E. Ngoya, J. Acoust. Soc. Am. 86 (1989)
//          35-41 for wind instruments, from memory.
Oscillation with_overtones(const JetTerms& terms, const LocalImpedance& loop,
                           const Overtones& overtones, const Oscillation& near, double centre_m_s);

inline constexpr double kOvertonesError_cents = 0.5;

}  // namespace canewright
