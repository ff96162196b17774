// tests/core/base/digits_test.cpp -- significant digits against the C library's printf and strtod
// (ISO C 7.21.6.1).
#include "core/base/digits.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <random>

using canewright::kDigitsMiddle;
using canewright::to_digits;

namespace {

double printed(double value, int digits) {
    char text[40];
    std::snprintf(text, sizeof text, "%.*g", digits, value);
    return std::strtod(text, nullptr);
}

}  // namespace

TEST_CASE("digits: as printf writes them and strtod reads them") {
    std::mt19937_64 draw(28);
    std::uniform_real_distribution<double> mantissa(1.0, 10.0);
    std::uniform_int_distribution<int> exponent(-300, 300), near_one(-6, 6), few(1, 15);
    int others = 0;
    for (int i = 0; i < 20000; ++i) {
        const double power = std::pow(10.0, i % 2 == 0 ? near_one(draw) : exponent(draw));
        const double value = (i % 3 == 0 ? -1.0 : 1.0) * mantissa(draw) * power;
        const int digits = few(draw);
        const double got = to_digits(value, digits), wanted = printed(value, digits);
        if (got == wanted) continue;
        // The other one of two between which the value is in the middle, but for its last bits.
        ++others;
        INFO(value << " to " << digits << ": " << got << ", " << wanted);
        const double middle = 0.5 * (got + wanted);
        const double far = std::abs(std::log10(std::abs(value))) / 40.0;
        REQUIRE(std::abs(value - middle) <= (1.0 + far) * kDigitsMiddle * std::abs(value));
    }
    CHECK(others < 200);
}

TEST_CASE("digits: a number that was typed comes back from a conversion there and back") {
    std::mt19937_64 draw(29);
    std::uniform_int_distribution<long long> whole(1, 999999999999999);
    std::uniform_int_distribution<int> decimals(0, 14);
    for (int i = 0; i < 20000; ++i) {
        char text[40];
        std::snprintf(text, sizeof text, "%llde-%d", whole(draw), decimals(draw));
        const double typed = std::strtod(text, nullptr);
        INFO(text);
        REQUIRE(to_digits(typed / 1000.0 * 1000.0, 15) == typed);
    }
}

TEST_CASE("digits: zero, the extremes and what is not finite") {
    const double infinite = std::numeric_limits<double>::infinity();
    CHECK(to_digits(0.0, 15) == 0.0);
    CHECK(std::signbit(to_digits(-0.0, 15)));
    CHECK(to_digits(infinite, 5) == infinite);
    CHECK(std::isnan(to_digits(std::nan(""), 5)));
    for (const double value :
         {std::numeric_limits<double>::max(), -1e308, 5e-324, 2.2250738585072014e-308,
          9.9999999999999995, 999999.99999999999, 0.99999999999999989})
        for (const int digits : {1, 5, 15}) {
            INFO(value << " to " << digits);
            CHECK(to_digits(value, digits) == printed(value, digits));
        }
}
