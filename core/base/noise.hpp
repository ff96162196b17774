// core/base/noise.hpp -- random numbers that are the same natively and in wasm. Layer: base.
//
// std::normal_distribution may differ from one library to the next; these do not.
#pragma once

#include <cstdint>

namespace canewright {

// A stream of its own for each (seed, index), so that work can be cut into pieces anywhere.
//
// Model    a 64-bit counter with a mixing function.
// Source   G.L. Steele, D. Lea, C.H. Flood, Fast splittable pseudorandom number generators,
//          OOPSLA 2014 (SplitMix64; constants of its mix13).
// Checked  tests/core/base/noise_test.cpp
class Noise {
   public:
    Noise(std::uint64_t seed, std::uint64_t index) : state_(mixed(mixed(seed) + index)) {}

    // 0 < u < 1, of 2^52 equally spaced values.
    double uniform() {
        state_ += kGolden;
        return (static_cast<double>(mixed(state_) >> 12U) + 0.5) * kTwoToMinus52;
    }
    // Mean 0, standard deviation 1: the inverse of the normal distribution at uniform().
    double normal();

   private:
    static constexpr std::uint64_t kGolden = 0x9e3779b97f4a7c15U;
    static constexpr double kTwoToMinus52 = 1.0 / 4503599627370496.0;
    static std::uint64_t mixed(std::uint64_t z) {
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31U);
    }

    std::uint64_t state_;
};

}  // namespace canewright
