// core/jet/bracket.hpp: a root between two ends where a function changes sign. Layer: jet.
#pragma once

#include <cmath>

namespace canewright {

// Root of `f` between `low` and `high`, at which it has the values given, of opposite sign or zero.
//
// Model    false position, the end that stays twice halved (Illinois).
// Error    `width` on the root; a bracket that does not shrink in 60 trips gives its last point.
// Source   M. Dowell & P. Jarratt, BIT 11 (1971) 168-174.
template <class Function>
double bracketed_root(const Function& f, double low, double high, double at_low, double at_high,
                      double width) {
    if (at_low == 0.0) return low;
    if (at_high == 0.0) return high;
    int kept = 0;  // which end stayed: -1 low, 1 high
    double root = 0.5 * (low + high);
    for (int trip = 0; trip < 60 && std::abs(high - low) > width; ++trip) {
        const double last = root;
        root = (low * at_high - high * at_low) / (at_high - at_low);
        if (trip > 0 && std::abs(root - last) <= 0.1 * width) break;
        const double at = f(root);
        if (at == 0.0) return root;
        if ((at < 0.0) == (at_low < 0.0)) {
            low = root;
            at_low = at;
            if (kept == 1) at_high *= 0.5;
            kept = 1;
        } else {
            high = root;
            at_high = at;
            if (kept == -1) at_low *= 0.5;
            kept = -1;
        }
    }
    return root;
}

}  // namespace canewright
