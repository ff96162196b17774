// core/element/loss_function.cpp: F(s) by recurrence or by Hankel's expansion.
#include "core/element/loss_function.hpp"

#include <cmath>

namespace canewright {
namespace {

using Complex = std::complex<double>;

// J1/J0 from r_n = J_n / J_(n-1) = 1 / (2n/z - r_(n+1)), started far above |z| where r is 0.
Complex ratio_by_recurrence(Complex z, double size) {
    const int start = 16 + static_cast<int>(1.5 * size);
    const Complex two_over_z = 2.0 / z;
    Complex r = 0.0;
    for (int n = start; n >= 1; --n) r = 1.0 / (static_cast<double>(n) * two_over_z - r);
    return r;
}

// J1/J0 where Im z < 0 is large: both are the growing Hankel function H^(1), and
// H^(1)_n ~ exp(j(z - n pi/2 - pi/4)) sum_k j^k a_k(n) / z^k,
// a_k(n) = (4n^2 - 1)(4n^2 - 9)...(4n^2 - (2k-1)^2) / (k! 8^k)   (A&S 9.2.7, 9.2.9).
Complex ratio_by_hankel(Complex z) {
    const Complex step = Complex(0.0, 1.0) / (8.0 * z);
    Complex term0 = 1.0, term1 = 1.0, sum0 = 1.0, sum1 = 1.0;
    for (int k = 1; k <= 40; ++k) {  // the terms fall until k ~ 2|z| = 50
        const double odd = 2.0 * k - 1.0;
        term0 *= step * ((0.0 - odd * odd) / k);
        term1 *= step * ((4.0 - odd * odd) / k);
        sum0 += term0;
        sum1 += term1;
        if (std::norm(term0) + std::norm(term1) < 1e-34) break;
    }
    return Complex(0.0, -1.0) * sum1 / sum0;
}

}  // namespace

std::complex<double> loss_function(double s) {
    if (s == 0.0) return 1.0;
    const Complex z = s * Complex(std::sqrt(0.5), -std::sqrt(0.5));
    return 2.0 / z * (s < kHankelFrom ? ratio_by_recurrence(z, s) : ratio_by_hankel(z));
}

}  // namespace canewright
