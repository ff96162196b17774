// tests/core/base/fraction_write_test.cpp -- writing lengths, and reading back what was written.
#include <catch2/catch.hpp>
#include <clocale>
#include <cmath>
#include <limits>
#include <locale>
#include <string>

#include "core/base/fraction.hpp"

using namespace canewright;
using Catch::WithinAbs;

namespace {
constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();
}  // namespace

TEST_CASE("millimetres", "[fraction][analytic]") {
    CHECK(write_mm(0.0533) == "53.3 mm");
    CHECK(write_mm(0.0533, 2) == "53.30 mm");
    CHECK(write_mm(0.0533, 0) == "53 mm");
    CHECK(write_mm(0.0) == "0.0 mm");
    CHECK(write_mm(-0.0) == "0.0 mm");
    CHECK(write_mm(-0.00004) == "0.0 mm");
    CHECK(write_mm(-0.00006) == "−0.1 mm");
    CHECK(write_mm(-0.0045) == "−4.5 mm");
    CHECK(write_mm(0.00996, 1) == "10.0 mm");
    CHECK(write_mm(0.0099996, 3) == "10.000 mm");
    CHECK(write_mm(0.001005, 3) == "1.005 mm");
    CHECK(write_mm(0.05, -3) == "50 mm");
    CHECK(write_mm(0.05, 99) == "50.000000 mm");
    CHECK(write_mm(0.01825) == "18.3 mm");  // half way goes up although the double lies below
    CHECK(write_mm(-0.01835) == "−18.4 mm");
    CHECK(write_length(0.0533, LengthUnit::mm) == "53.3 mm");
    CHECK(write_length(0.0533, LengthUnit::mm, 2) == "53.30 mm");
}

TEST_CASE("inches", "[fraction][analytic]") {
    CHECK(write_inch(0.0254 * 5.21875, 32) == "5 7/32″");
    CHECK(write_inch(0.0254 * 5.21875, 64) == "5 7/32″");  // reduced
    CHECK(write_inch(0.0254 * 5.21875, 16) == "5 1/4″");   // 3.5 sixteenths: away from zero
    CHECK(write_inch(0.0254 * 0.21875, 32) == "7/32″");
    CHECK(write_inch(0.0254 * 3.0, 16) == "3″");
    CHECK(write_inch(0.0254 * 15.999 / 16.0, 16) == "1″");  // carried over
    CHECK(write_inch(0.0254 * (4.0 + 63.9 / 64.0), 64) == "5″");
    CHECK(write_inch(0.0) == "0″");
    CHECK(write_inch(-0.0001, 32) == "0″");
    CHECK(write_inch(-0.0254 * 2.125, 32) == "−2 1/8″");
    CHECK(write_inch(-0.0254 * 0.5, 32) == "−1/2″");
    CHECK(write_inch(0.0254 * 2.4, 1) == "2″");
    CHECK(write_inch(0.0254 * 2.5, 0) == "3″");  // the denominator is clamped to 1
    CHECK(write_length(0.0254 * 5.21875, LengthUnit::inch) == "5 7/32″");
    CHECK(write_length(0.0254 * 5.21875, LengthUnit::inch, 16) == "5 1/4″");
}

TEST_CASE("what is no length is written as nothing", "[fraction]") {
    for (const double value_m : {kNaN, kInfinity, -kInfinity, 1e300, -1e300}) {
        CHECK(write_mm(value_m).empty());
        CHECK(write_inch(value_m).empty());
    }
}

// Property: reading back gives the value to half a last digit, and writing that again the same
// text. Steps of 0.0371 mm hit every remainder.
TEST_CASE("reading undoes writing", "[fraction][property]") {
    int compared = 0;
    for (double value_m = -0.0202; value_m < 0.6; value_m += 0.0000371) {
        for (const int decimals : {0, 1, 2}) {
            const std::string text = write_mm(value_m, decimals);
            const ParsedLength read = read_length(text, LengthUnit::inch);
            const double half_m = 0.0005 * std::pow(10.0, -decimals);
            if (!read.ok || read.unit != LengthUnit::mm ||
                std::fabs(read.value_m - value_m) > half_m * (1.0 + 1e-9) ||
                write_mm(read.value_m, decimals) != text) {
                FAIL("from " << value_m << " m: " << text << " = " << read.value_m << " m");
            }
            ++compared;
        }
        for (const int denominator : {16, 32, 64}) {
            const std::string text = write_inch(value_m, denominator);
            const ParsedLength read = read_length(text, LengthUnit::mm);
            const double half_m = 0.0127 / denominator;
            if (!read.ok || read.unit != LengthUnit::inch ||
                std::fabs(read.value_m - value_m) > half_m * (1.0 + 1e-9) ||
                write_inch(read.value_m, denominator) != text) {
                FAIL("from " << value_m << " m: " << text << " = " << read.value_m << " m");
            }
            ++compared;
        }
    }
    CHECK(compared > 90000);
}

// Reading is exact where the value has few digits: all tenths of a millimetre to one metre become
// the double that the division of two exact numbers gives.
TEST_CASE("tenths of a millimetre are read exactly", "[fraction][property]") {
    for (int tenths = 0; tenths <= 10000; ++tenths) {
        const std::string whole = std::to_string(tenths / 10);
        const std::string text = whole + "," + std::to_string(tenths % 10);
        const double expected_m = static_cast<double>(tenths) / 10.0 / 1000.0;
        if (read_length(text, LengthUnit::mm).value_m != expected_m) FAIL(text);
    }
    SUCCEED();
}

namespace {
struct CommaMarks : std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
};
}  // namespace

// A C++ stream would now write "1.234,5", and with the C locale, where installed, so would printf.
TEST_CASE("the locale does not matter", "[fraction][property]") {
    const std::locale before = std::locale::global(std::locale(std::locale(), new CommaMarks));
    const std::string c_before = std::setlocale(LC_ALL, nullptr);
    for (const char* c_locale : {"de_DE.UTF-8", "C"}) {
        if (std::setlocale(LC_ALL, c_locale) == nullptr) continue;
        CHECK(write_mm(1.2345) == "1234.5 mm");
        CHECK(read_length("1234.5", LengthUnit::mm).value_m == 1.2345);
        CHECK(read_length("1234,5", LengthUnit::mm).value_m == 1.2345);
    }
    std::setlocale(LC_ALL, c_before.c_str());
    std::locale::global(before);
}
