// core/jet/saturation.hpp: what a jet of some width does at an edge it swings across. Layer: jet.
#pragma once

#include <array>
#include <cstddef>

namespace canewright {

// Describing functions of Q = tanh(a sin x - y): the share of a jet's flow that enters the bore, a
// the swing and y the edge's offset from the jet's middle, both in half widths b.
//
// Model    to_itself(a) = (2/a) <tanh(a sin x - y) sin x>: the fundamental over the swing, what the
//          vibration feels. to_others(a) = <sech^2(a sin x - y)>: what a faint vibration at a
//          frequency with no simple ratio to the first feels in its presence. Both are sech^2 y at
//          a = 0; far out 4/(pi a) and 2/(pi a).
// Valid    |y| up to kMostOffset, held beyond.
// Error    kSaturationError, relative.
// Source   definition (A. Gelb & W.E. Vander Velde, Multiple-Input Describing Functions, 1968);
//          Chebyshev series in a / (1 + a), asymptotic series beyond kDeep.
class Saturation {
   public:
    explicit Saturation(double offset);
    double to_itself(double swing) const;
    double to_others(double swing) const;
    // Where to_itself() is greatest: 0 for an offset up to 0.658, about the offset beyond.
    double most_at() const { return most_at_; }

    static constexpr double kMostOffset = 2.0;
    static constexpr double kDeep = 40.0;

   private:
    static constexpr std::size_t kTerms = 48;
    double sum(const std::array<double, kTerms>& terms, double swing) const;
    double offset_ = 0.0, most_at_ = 0.0;
    std::size_t used_ = kTerms;  // the rest is nothing
    std::array<double, kTerms> itself_{}, others_{};
};

inline constexpr double kSaturationError = 1e-5;

}  // namespace canewright
