// core/base/fraction.hpp -- lengths as makers write them, read and written.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "core/base/violation.hpp"

namespace canewright {

// The two rulers. A text in centimetres is read too and counts as the metric one.
enum class LengthUnit { mm, inch };

struct ParsedLength {
    bool ok;
    double value_m;   // NaN when not ok
    LengthUnit unit;  // the ruler in which it was written, or the assumed one
    Code error;       // not_a_length or too_long; meaningless when ok
};

// Reads one length. Does not judge whether it is a sensible one; negative values are lengths.
//
//   text      UTF-8. Forms, all with an optional sign directly in front:
//             53   53.3   53,3   .5   ,5   53.   15/32   2 1/8   2-1/8   2½   ½
//             then, if any, a unit in any case: mm cm in in. inch inches " ″ ” '' ′′ ’’
//             Spaces (also no-break and thin ones) may stand around it and before the unit; any
//             dash (also the minus sign) is a sign or the hyphen of 2-1/8; ⁄ is a slash.
//   assumed   the ruler meant where the text names none. A fraction without a unit is always in
//             inches: nobody reads 15/32 off a millimetre rule.
//   returns   the length [m], or why it is none
//
// Refused and not guessed at: both '.' and ',' in one number, or either twice (grouping); digits
// grouped by spaces; exponents; "nan", "inf"; a denominator of 0; an improper fraction after a
// whole number (2 9/8); feet; digits other than 0-9 and the Arabic decimal separator '٫' (U+066B);
// anything left over; more than kLongestLength_bytes or kMostDigits (that is `too_long`).
//
// Error    none to 15 digits (the double nearest to what is written, before the unit conversion);
//          one unit in the last place to kMostDigits.
// Checked  tests/core/base/fraction_test.cpp, fraction_write_test.cpp
ParsedLength read_length(std::string_view text, LengthUnit assumed);

inline constexpr std::size_t kLongestLength_bytes = 64;
inline constexpr std::size_t kMostDigits = 18;  // 10^18 still fits the 64-bit integer in between

// "53.3 mm". Always a point (a page that wants a comma replaces it), never "-0.0"; the sign of a
// negative length is U+2212.
//
//   decimals  0 to 6, clamped
//   returns   rounded, half away from zero; empty when not finite or above 10^15 last digits
std::string write_mm(double value_m, int decimals = 1);

// "5 7/32″": the nearest 1/denominator, reduced; whole inches without a fraction, "0″" for zero.
//
//   denominator  1 to 1024, clamped; 16, 32 and 64 are what rulers carry
//   returns      as write_mm
std::string write_inch(double value_m, int denominator = 32);

// Either of them. `fineness` is the decimals of a metric length, the denominator of one in inches.
std::string write_length(double value_m, LengthUnit unit, int fineness);

// With the default fineness of the unit: 1 decimal, 1/32 in.
std::string write_length(double value_m, LengthUnit unit);

}  // namespace canewright
