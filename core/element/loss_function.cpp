// core/element/loss_function.cpp: F(s) by recurrence or by an asymptotic series.
#include "core/element/loss_function.hpp"

#include <array>
#include <cmath>

#include "core/element/two_port.hpp"

namespace canewright {
namespace {

// J1/J0 from r_n = J_n / J_(n-1) = 1 / (2n/z - r_(n+1)), started far above |z| where r is 0.
class Recurrence {
   public:
    Recurrence(Complex z, double size)
        : n_(16 + static_cast<int>(1.5 * size)), two_over_z_(2.0 * inverse(z)) {}
    int left() const { return n_; }
    void step() {
        const Complex below = static_cast<double>(n_) * two_over_z_ - r_;
        r_ = inverse(below);
        --n_;
    }
    Complex ratio() const { return r_; }

   private:
    int n_;
    Complex two_over_z_, r_ = 0.0;
};

// I1(x) / I0(x) = sum c_k / x^k for large x, from Riccati's equation r' = 1 - r / x - r^2:
// 2 c_k = (k - 2) c_(k-1) - sum_(0<i<k) c_i c_(k-i).  c = 1, -1/2, -1/8, -1/8, -25/128, ...
constexpr int kTerms = 24;           // k! / (2 |x|)^k: the last one is below 1e-17 where |x| = 25
constexpr double kFewerFrom = 50.0;  // there the 16th is
constexpr std::size_t kFewer = 16;

constexpr std::array<double, kTerms> ratio_series() {
    std::array<double, kTerms> c{};
    c[0] = 1.0;
    for (std::size_t k = 1; k < kTerms; ++k) {
        double sum = (static_cast<double>(k) - 2.0) * c[k - 1];
        for (std::size_t i = 1; i < k; ++i) sum -= c[i] * c[k - i];
        c[k] = 0.5 * sum;
    }
    return c;
}
constexpr std::array<double, kTerms> kRatioSeries = ratio_series();

// The series at y = exp(-j pi / 4) / s: y^4 = -1 / s^4 is real, so every fourth term makes a real
// polynomial, and the four of them do not wait for each other.
Complex large_ratio(double s) {
    const double v = 1.0 / s, square = v * v, fourth = -square * square;
    double zeroth = 0.0, first = 0.0, second = 0.0, third = 0.0;
    for (std::size_t k = s < kFewerFrom ? kTerms : kFewer; k > 0;) {
        k -= 4;
        zeroth = kRatioSeries[k] + fourth * zeroth;
        first = kRatioSeries[k + 1] + fourth * first;
        second = kRatioSeries[k + 2] + fourth * second;
        third = kRatioSeries[k + 3] + fourth * third;
    }
    first *= std::sqrt(0.5) * v;
    second *= square;
    third *= std::sqrt(0.5) * v * square;
    return {zeroth + first - third, -first - second - third};
}

Complex argument(double s) { return s * Complex(std::sqrt(0.5), -std::sqrt(0.5)); }

bool recurs(double s) { return s > 0.0 && s < kSeriesFrom; }

}  // namespace

std::complex<double> loss_function(double s) {
    if (s == 0.0) return 1.0;
    if (recurs(s)) {
        const Complex z = argument(s);
        Recurrence down(z, s);
        while (down.left() > 0) down.step();
        return 2.0 * inverse(z) * down.ratio();
    }
    // J1(z) / (z J0(z)) = I1(x) / (x I0(x)) with x = j z = s sqrt(j)
    const Complex y(std::sqrt(0.5) / s, -std::sqrt(0.5) / s);
    return 2.0 * y * large_ratio(s);
}

Losses loss_functions(double s, double t) {
    if (!recurs(s) || !recurs(t)) return {loss_function(s), loss_function(t)};
    const Complex z = argument(s), v = argument(t);
    Recurrence one(z, s), other(v, t);
    while (one.left() > other.left()) one.step();
    while (other.left() > one.left()) other.step();
    while (one.left() > 0) {
        one.step();
        other.step();
    }
    return {2.0 * inverse(z) * one.ratio(), 2.0 * inverse(v) * other.ratio()};
}

}  // namespace canewright
