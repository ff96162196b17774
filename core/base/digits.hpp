// core/base/digits.hpp -- numbers to so many significant digits.
#pragma once

namespace canewright {

// The double nearest to `value` written with `digits` (1 to 15) significant digits, as printf's %g
// and reading that again would have it.
// Valid    any double; what is not finite, and zero, stays
// Error    within kDigitsMiddle of itself from the middle between two such numbers the other one
//          may be taken; as much more for every factor of 10^40 between `value` and 1
double to_digits(double value, int digits);

inline constexpr double kDigitsMiddle = 4e-16;

}  // namespace canewright
