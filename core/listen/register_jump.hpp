// core/listen/register_jump.hpp -- is one pitch the second register of another?
#pragma once

#include <cmath>

#include "core/base/units.hpp"

namespace canewright {

inline constexpr double kJumpOctave_cents = 1200.0;
inline constexpr double kJumpTwelfth_cents = 1901.955;  // 3 : 1
inline constexpr double kJumpWithin_cents = 150.0;      // registers of a real tube are not in tune

// Within kJumpWithin_cents of an octave or a twelfth above. Both > 0.
inline bool is_register_jump(double high_Hz, double low_Hz) {
    const double up_cents = cents_between(high_Hz, low_Hz);
    return std::abs(up_cents - kJumpOctave_cents) <= kJumpWithin_cents ||
           std::abs(up_cents - kJumpTwelfth_cents) <= kJumpWithin_cents;
}

}  // namespace canewright
