// core/base/digits.cpp -- rounds as a whole number, without printing: printf for doubles would be a
// twentieth of the page's first module.
#include "core/base/digits.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <string>

namespace canewright {
namespace {

constexpr int kMostExact = 22;  // 10^22 is the last power of ten that is a double

// value * 10^decimals, each factor exact.
double scaled(double value, int decimals) {
    while (decimals != 0) {
        const int part = std::min(std::abs(decimals), kMostExact);
        double power = 1.0;
        for (int i = 0; i < part; ++i) power *= 10.0;
        value = decimals > 0 ? value * power : value / power;
        decimals -= decimals > 0 ? part : -part;
    }
    return value;
}

}  // namespace

double to_digits(double value, int digits) {
    if (!std::isfinite(value) || value == 0.0) return value;
    constexpr double kLog10Of2 = 0.30102999566398120;
    int exponent = 0;
    std::frexp(value, &exponent);
    // Of the first digit, or one more.
    int decimals = digits - static_cast<int>(std::floor(exponent * kLog10Of2));
    double whole = std::nearbyint(scaled(value, decimals));
    const double beyond = scaled(1.0, digits);
    while (std::abs(whole) >= beyond) whole = std::nearbyint(scaled(value, --decimals));
    const std::string text =
        std::to_string(static_cast<long long>(whole)) + "e" + std::to_string(-decimals);
    return std::strtod(text.c_str(), nullptr);
}

}  // namespace canewright
