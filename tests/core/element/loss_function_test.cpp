// tests/core/element/loss_function_test.cpp: the Bessel ratio against a general library.
#include "core/element/loss_function.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <complex>

#include "tests/support/figures.hpp"
#include "tests/support/table.hpp"

using namespace canewright;
using namespace canewright::testing;

namespace loss_function_test {  // its own where tests are compiled together
using Complex = std::complex<double>;

// Source     scipy.special.jve (Amos's routines) by tools/reference/bessel_ratio.py.
// Tolerance  the promise in loss_function.hpp, relative.
TEST_CASE("the loss function agrees with a general library's Bessel functions",
          "[loss][published]") {
    CHECK(kLossFunctionError == figure("bessel_relative").value);
    int below = 0, above = 0;
    for (const Row& row : table("published/bessel_ratio.csv")) {
        const double s = row.number("s");
        const Complex expected(row.number("real"), row.number("imaginary"));
        CAPTURE(s, expected);
        CHECK(std::abs(loss_function(s) - expected) <= kLossFunctionError * std::abs(expected));
        ++(s < kSeriesFrom ? below : above);
    }
    CHECK(below > 20);  // both methods are in the table
    CHECK(above > 20);
}

// The claim of loss_functions(): no digit is another one.
TEST_CASE("two loss functions at once are each what it is alone", "[loss][property]") {
    for (const double s : {0.0, 0.02, 3.0, 17.0, 24.9, 25.0, 27.0, 80.0})
        for (const double share : {0.842, 1.0, 1.2}) {
            const Losses both = loss_functions(s, share * s);
            CHECK(both.friction == loss_function(s));
            CHECK(both.heat == loss_function(share * s));
        }
}

// Limits: a plugged capillary, F = 1 - j s^2/8 (from the power series of J0 and J1); a wide tube,
// F = (1 - j) sqrt(2) / s (one layer along the wall). Tolerance  the next term of each series.
TEST_CASE("narrow and wide limits of the loss function", "[loss][analytic]") {
    CHECK(loss_function(0.0) == Complex(1.0));
    const double s = 0.01;
    CHECK(std::abs(loss_function(s) - Complex(1.0, -s * s / 8.0)) < std::pow(s, 4));
    const double wide = 1e4;
    const Complex layer = Complex(1.0, -1.0) * std::sqrt(2.0) / wide;
    CHECK(std::abs(loss_function(wide) - layer) < 2.0 / (wide * wide));
}

// The two methods meet: the function is smooth. Tolerance  promise on either side.
TEST_CASE("the loss function has no step where its method changes", "[loss][property]") {
    const double h = 1e-9;
    const Complex left = loss_function(kSeriesFrom - h), right = loss_function(kSeriesFrom + h);
    const Complex slope =
        (loss_function(kSeriesFrom + 1.0) - loss_function(kSeriesFrom - 1.0)) / 2.0;
    CHECK(std::abs(right - left - 2.0 * h * slope) <= 2.0 * kLossFunctionError * std::abs(left));
}

// |F| falls from 1 as the tube grows: friction holds back less of it.
TEST_CASE("friction holds back a smaller share of a wider tube", "[loss][property]") {
    double before = 1.0;
    for (double s = 0.05; s < 400.0; s *= 1.1) {
        const double now = std::abs(loss_function(s));
        CAPTURE(s);
        CHECK(now < before);
        before = now;
    }
}

}  // namespace loss_function_test
