// core/element/strip.hpp: the potential of a rectangle on itself. Layer: element.
#pragma once

#include <cmath>

namespace canewright {

// Self potential of a strip s long and H wide in a flat wall [m^3]: the integral of 1/distance over
// pairs of its points. The mutual one of two strips follows by inclusion and exclusion.
// Model    closed form of the double integral.   Valid    H > 0; 0 where s is not above 0.
// Error    rounding.   Source   integration; /sqrt(area) for squares and 2:1, 3:1, 4:1 is tested.
inline double strip_potential_m3(double s, double H) {
    if (s <= 0.0) return 0.0;
    return 2.0 * (s * s * H * std::asinh(H / s) + s * H * H * std::asinh(s / H)) +
           2.0 / 3.0 * (s * s * s + H * H * H - std::pow(s * s + H * H, 1.5));
}

}  // namespace canewright
