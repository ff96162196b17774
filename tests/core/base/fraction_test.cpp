// tests/core/base/fraction_test.cpp -- reading lengths: forms that must be read, and refused.
#include "core/base/fraction.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <string>
#include <vector>

using namespace canewright;
using Catch::WithinAbs;

namespace {

constexpr double kRounding_m = 1e-15;  // two roundings of a length below a few metres

double read_mm(std::string_view text, LengthUnit assumed = LengthUnit::mm) {
    const ParsedLength read = read_length(text, assumed);
    CAPTURE(std::string(text));
    CHECK(read.ok);
    return read.value_m * 1000.0;
}

void check_refused(const std::string& text, Code error = Code::not_a_length) {
    for (const LengthUnit assumed : {LengthUnit::mm, LengthUnit::inch}) {
        const ParsedLength read = read_length(text, assumed);
        CAPTURE(text);
        CHECK_FALSE(read.ok);
        CHECK(std::isnan(read.value_m));
        CHECK(std::string(name(read.error)) == name(error));
    }
}

}  // namespace

// Source  decimal notation itself; the literal on the right is the compiler's reading of it.
TEST_CASE("millimetres with a point or a comma", "[fraction][analytic]") {
    CHECK(read_length("53", LengthUnit::mm).value_m == 0.053);
    CHECK(read_length("53.3", LengthUnit::mm).value_m == 0.0533);
    CHECK(read_length("53,3", LengthUnit::mm).value_m == 0.0533);
    CHECK(read_length(" 53.3 mm", LengthUnit::mm).value_m == 0.0533);
    CHECK(read_length("53.3MM\n", LengthUnit::inch).value_m == 0.0533);
    CHECK(read_length(".5", LengthUnit::mm).value_m == 0.0005);
    CHECK(read_length(",5", LengthUnit::mm).value_m == 0.0005);
    CHECK(read_length("53.", LengthUnit::mm).value_m == 0.053);
    CHECK(read_length("5 cm", LengthUnit::inch).value_m == 0.05);
    CHECK(read_length("007", LengthUnit::mm).value_m == 0.007);
    CHECK(read_length("18.437519", LengthUnit::mm).value_m == 18.437519 / 1000.0);
    CHECK(read_length("1,234", LengthUnit::mm).value_m == 1.234 / 1000.0);  // a decimal comma
}

// Source  millimetre equivalents of fractional inches as printed in machinists' tables (from
//         memory; they are exact: 25.4 mm times the fraction).
TEST_CASE("inches in fractions", "[fraction][published]") {
    CHECK_THAT(read_mm("1/64"), WithinAbs(0.396875, 1e3 * kRounding_m));
    CHECK_THAT(read_mm("7/64"), WithinAbs(2.778125, 1e3 * kRounding_m));
    CHECK_THAT(read_mm("15/32"), WithinAbs(11.90625, 1e3 * kRounding_m));
    CHECK_THAT(read_mm("15/32", LengthUnit::inch), WithinAbs(11.90625, 1e3 * kRounding_m));
    CHECK_THAT(read_mm("1 15/32 in"), WithinAbs(37.30625, 1e3 * kRounding_m));
    for (const char* text :
         {"2 1/8",  "2-1/8\"", "2 1/8 in.", "2-1/8 Inch", "2  1/8 inches",
          "2⅛",     "2 ⅛",     "2-⅛",       "2.125 in",   "2,125\"",
          "2 1/8″", "2 1/8”",  "2 1/8''",   "2 1/8’’",    "2 1/8′′",
          "2–1/8",  "2‑1/8",   "2 1⁄8",     "17/8",       "\u00A02\u20091/8\u202F″\u3000"}) {
        CHECK_THAT(read_mm(text), WithinAbs(53.975, 1e3 * kRounding_m));
    }
    CHECK_THAT(read_mm("2", LengthUnit::inch), WithinAbs(50.8, 1e3 * kRounding_m));
    CHECK_THAT(read_mm("1/2 mm"), WithinAbs(0.5, 1e3 * kRounding_m));  // named: no inch
}

TEST_CASE("one-character fractions", "[fraction][analytic]") {
    const std::vector<std::pair<const char*, double>> eighths = {
        {"⅛", 1}, {"¼", 2}, {"⅜", 3}, {"½", 4}, {"⅝", 5}, {"¾", 6}, {"⅞", 7}};
    for (const auto& [text, count] : eighths) {
        CHECK_THAT(read_mm(text), WithinAbs(25.4 * count / 8.0, 1e3 * kRounding_m));
        CHECK_THAT(read_mm(std::string("12") + text + "\""),
                   WithinAbs(25.4 * (12.0 + count / 8.0), 1e3 * kRounding_m));
    }
}

TEST_CASE("signs, and no negative zero", "[fraction][analytic]") {
    for (const char* text : {"-4.5", "−4.5", "–4,5 mm", " -4.5mm"}) {
        CHECK(read_length(text, LengthUnit::mm).value_m == -0.0045);
    }
    CHECK_THAT(read_mm("-2-1/8"), WithinAbs(-53.975, 1e3 * kRounding_m));
    CHECK_THAT(read_mm("−½"), WithinAbs(-12.7, 1e3 * kRounding_m));
    CHECK(read_length("+3", LengthUnit::mm).value_m == 0.003);
    const ParsedLength zero = read_length("-0", LengthUnit::mm);
    CHECK(zero.ok);
    CHECK_FALSE(std::signbit(zero.value_m));
}

TEST_CASE("the unit that was written is reported", "[fraction]") {
    CHECK(read_length("5", LengthUnit::mm).unit == LengthUnit::mm);
    CHECK(read_length("5", LengthUnit::inch).unit == LengthUnit::inch);
    CHECK(read_length("5 cm", LengthUnit::inch).unit == LengthUnit::mm);
    CHECK(read_length("5\"", LengthUnit::mm).unit == LengthUnit::inch);
    CHECK(read_length("1/4", LengthUnit::mm).unit == LengthUnit::inch);
    CHECK(read_length("0.25", LengthUnit::mm).unit == LengthUnit::mm);
}

TEST_CASE("what is no length is refused", "[fraction]") {
    for (const char* text :
         {"",     " ",      "\u00A0",   "-",    "+",    "--5",    "-+5",    "- 5",     "mm",
          "\"",   ".",      ",",        "-.",   "abc",  "five",   "5 x",    "5 mm mm", "5 mm 3",
          "5 3",  "5 3 mm", "53.3 1/8", "3..5", "3.,5", "5 feet", "5'",     "5' 3\"",  "5 m",
          "5mm.", "#5",     "5%",       "0x10", "5;",   "(5)",    "5\"1/8", "¹",       "５"}) {
        check_refused(text);
    }
    check_refused(std::string("5\0", 2));
    check_refused(std::string("5\0mm", 4));
    check_refused("5\xC0\x80");  // not UTF-8
    check_refused("5\xE2\x80");
}

TEST_CASE("grouping, both marks, exponents and words are not guessed at", "[fraction]") {
    for (const char* text :
         {"1,234.5", "1.234,5", "1.234.567", "1,234,567", "1 234", "1 234,5", "1\u202F234", "1'234",
          "1’234",   "1_234",   "1e3",       "1E3",       "5e-3",  "5.0e1",   "nan",        "NaN",
          "inf",     "-inf",    "infinity",  "5٫3",       "٥٫٣",   "٥"}) {
        check_refused(text);
    }
}

TEST_CASE("broken fractions are refused", "[fraction]") {
    for (const char* text :
         {"1/0",    "2 1/0",   "0/0",    "1/",  "/8",     "1//8",  "1/8/2", "1/-8",    "1/8 1/8",
          "2 -1/8", "2 - 1/8", "2--1/8", "2-1", "2- 1/8", "2 9/8", "2 8/8", "1.5/8",   "1/8.5",
          "1/ 8",   "1 /8",    "½½",     "½/2", "½3",     "1/½",   "1.½",   "2 1 1/8", "½ ½"}) {
        check_refused(text);
    }
}

TEST_CASE("endless texts and numbers are too long", "[fraction]") {
    check_refused(std::string(400, '9'), Code::too_long);
    check_refused("0." + std::string(400, '3'), Code::too_long);
    check_refused("1/" + std::string(400, '1'), Code::too_long);
    check_refused(std::string(5000, ' ') + "5", Code::too_long);
    check_refused(std::string(kLongestLength_bytes + 1, ' '), Code::too_long);
    check_refused(std::string(kMostDigits + 1, '1'), Code::too_long);  // short enough as a text
    check_refused("1." + std::string(kMostDigits, '1'), Code::too_long);
    check_refused("1/" + std::string(kMostDigits + 1, '1'), Code::too_long);
    check_refused(std::string(kMostDigits + 1, '1') + "/2", Code::too_long);
    CHECK(read_length(std::string(kLongestLength_bytes - 1, ' ') + "5", LengthUnit::mm).ok);
    CHECK(read_length(std::string(kMostDigits, '1'), LengthUnit::mm).ok);
    CHECK(read_length("53.2999999999999972", LengthUnit::mm).value_m == 0.0533);
}

// Property: whatever the bytes, the answer is a finite length or a refusal. Half of the texts are
// made of the characters of lengths, so that many are nearly right.
TEST_CASE("any bytes give a finite length or a refusal", "[fraction][property]") {
    std::mt19937 random(20240613);
    const std::vector<std::string> pieces = {"1", "23", "0",  "/", "-", ".", ",", " ",    "\"",
                                             "'", "mm", "in", "½", "″", "−", "e", "\xE2", "\x80"};
    int read_well = 0;
    for (int round = 0; round < 20000; ++round) {
        std::string text;
        const std::size_t length = random() % 8;
        for (std::size_t i = 0; i < length; ++i) {
            if (round % 2 == 0) {
                text += pieces[random() % pieces.size()];
            } else {
                text += static_cast<char>(random() % 256);
            }
        }
        const ParsedLength read = read_length(text, LengthUnit::mm);
        if (read.ok != std::isfinite(read.value_m)) FAIL("neither read nor refused: " << text);
        if (read.ok) ++read_well;
    }
    CHECK(read_well > 100);  // else the texts test nothing
}
