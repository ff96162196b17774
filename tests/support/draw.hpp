// tests/support/draw.hpp: values drawn at random, plainly or from the ends of their ranges.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "core/base/noise.hpp"

namespace canewright::testing {

// How a document is drawn: sizes as makers meet them, sizes up to what the format allows, or each
// value with a chance of kBound at one of its bounds.
enum class Kind { plain, wide, extreme };

class Draw {
   public:
    Draw(std::uint64_t seed, std::uint64_t index) : noise_(seed, index) {
        const double u = noise_.uniform();
        kind_ = u < 0.6 ? Kind::plain : u < 0.8 ? Kind::wide : Kind::extreme;
        typed_ = noise_.uniform() < 0.8;
    }

    Kind kind() const { return kind_; }
    bool chance(double share) { return noise_.uniform() < share; }
    int whole(int low, int high) {
        return std::min(high, low + static_cast<int>(noise_.uniform() * (high - low + 1)));
    }
    double normal() { return noise_.normal(); }
    // Of a plain document within the first range, else within the second, which is the format's.
    double between(double low, double high) { return typed(even(low, high), low, high); }
    double size(double low, double high, double least, double most) {
        if (kind_ == Kind::plain) {
            const double from = std::clamp(low, least, most);
            return between(from, std::clamp(high, from, most));
        }
        if (kind_ == Kind::extreme && chance(kBound)) return chance(0.5) ? least : most;
        // half of the others are usual: a document that is odd everywhere is odd in one way
        if (chance(0.5)) {
            const double from = std::clamp(low, least, most);
            return between(from, std::clamp(high, from, most));
        }
        return between(least, most);
    }
    // More often for a document that is not plain.
    bool odd(double share) { return chance(kind_ == Kind::plain ? share : 2.0 * share); }

   private:
    static constexpr double kBound = 0.25;

    double even(double low, double high) { return low + (high - low) * noise_.uniform(); }
    // As a maker types it: hundredths of a millimetre.
    double typed(double value, double low, double high) const {
        if (!typed_) return value;
        return std::clamp(std::round(100.0 * value) / 100.0, low, high);
    }

    Noise noise_;
    Kind kind_ = Kind::plain;
    bool typed_ = true;
};

}  // namespace canewright::testing
