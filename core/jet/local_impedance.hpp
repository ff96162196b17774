// core/jet/local_impedance.hpp: the loop's impedance near one resonance, in closed form.
// Layer: jet.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>

#include "core/base/units.hpp"
#include "core/element/two_port.hpp"

namespace canewright {

// Impedance of a loop round its resonance [Pa s/m^3].
//
// Model    continued fraction (a quotient of two quadratics in the frequency's logarithm) through
//          five places kLocalStep_cents apart, the middle one the resonance: five questions to the
//          network, then none. A quotient, since above open holes the impedance has poles near the
//          second register, of which a polynomial makes nothing (tried: 100 % off there).
// Valid    kLocalReach_cents either way.
// Error    kLocalError of the impedance at the resonance or at the place, whichever is greater.
// Source   T.N. Thiele (1909): inverse differences, any text on interpolation.
class LocalImpedance {
   public:
    // Nothing: it is never asked.
    LocalImpedance() = default;
    // `impedance(frequency_Hz)` gives the loop's impedance.
    template <class Impedance>
    LocalImpedance(const Impedance& impedance, double resonance_Hz) : resonance_Hz_(resonance_Hz) {
        for (std::size_t n = 0; n < kPlaces.size(); ++n)
            terms_[n] = impedance(shifted_Hz(resonance_Hz, kPlaces[n] * kLocalStep_cents));
        for (used_ = 1; used_ < kPlaces.size(); ++used_) {
            const std::size_t last = used_ - 1;
            for (std::size_t n = used_; n < kPlaces.size(); ++n) {
                const Complex change = terms_[n] - terms_[last];
                // what goes on is a constant: the fraction is complete
                if (!(std::abs(change) > kRounding * std::abs(terms_[last]))) return;
                terms_[n] = (kPlaces[n] - kPlaces[last]) / change;
            }
        }
    }

    Complex at(double cents) const {
        const double x = cents / kLocalStep_cents;
        Complex sum = terms_[used_ - 1];
        for (std::size_t n = used_ - 1; n-- > 0;) {
            const double size = std::norm(sum);
            sum = terms_[n] + (size > 0.0 ? (x - kPlaces[n]) / size : 0.0) * std::conj(sum);
        }
        return sum;
    }
    double resonance_Hz() const { return resonance_Hz_; }
    bool exists() const { return resonance_Hz_ > 0.0; }

    static constexpr double kLocalStep_cents = 75.0;
    static constexpr double kLocalReach_cents = 150.0;

   private:
    static constexpr std::array<double, 5> kPlaces{0.0, 2.0, -2.0, 1.0, -1.0};
    static constexpr double kRounding = 1e-13;
    double resonance_Hz_ = 0.0;
    std::array<Complex, 5> terms_{};
    std::size_t used_ = 1;
};

inline constexpr double kLocalError = 0.01;

}  // namespace canewright
