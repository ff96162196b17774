// core/element/loss_function.hpp: the Bessel ratio of oscillating flow in a tube. Layer: element.
#pragma once

#include <complex>

namespace canewright {

// F(s) = 2 J1(z) / (z J0(z)), z = s sqrt(-j): the share of a round tube's cross-section that
// friction (or heat conduction) holds back.
//   shear_number   s = a sqrt(rho w / eta) for friction, times sqrt(Pr) for heat [-], s >= 0
//
// Model    exact: backward recurrence of J_n / J_(n-1) below kSeriesFrom, the asymptotic series of
//          I1 / I0 above (the neglected wave is exp(-s sqrt 2) there).
// Valid    every s >= 0. F(0) = 1; F -> 2 sqrt(-j) / s... towards 0 for wide tubes.
// Error    kLossFunctionError, relative.
// Source   Zwikker & Kosten 1949; Abramowitz & Stegun 9.1.73 (recurrence), 9.7.1
//          (I_n for large x; the ratio's coefficients follow from Bessel's equation).
std::complex<double> loss_function(double shear_number);

struct Losses {
    std::complex<double> friction, heat;
};
// Two of them to the same digits, sooner: where both recur neither waits for its own divisions.
// Model    as loss_function().          Valid    as loss_function().
// Error    as loss_function().          Source   as loss_function().
Losses loss_functions(double of_friction, double of_heat);

inline constexpr double kLossFunctionError = 1e-12;
inline constexpr double kSeriesFrom = 25.0;

}  // namespace canewright
