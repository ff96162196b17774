// core/jet/saturation.cpp: describing functions of the jet at the edge.
#include "core/jet/saturation.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"

namespace canewright {
namespace {

struct Means {
    double itself, others;
};

// Means over a quarter and its mirror; the integrand is periodic, so equal steps converge like a
// geometric series whose ratio is exp(-pi / (2 a)) a step.
Means means(double swing, double offset) {
    const int steps = 16 + static_cast<int>(4.0 * swing);
    Means m{0.0, 0.0};
    for (int n = 0; n < steps; ++n) {
        const double sine = std::sin((n + 0.5) * kPi / (2.0 * steps));
        const double in = std::tanh(swing * sine - offset), out = std::tanh(swing * sine + offset);
        m.itself += (in + out) * sine;
        m.others += 2.0 - in * in - out * out;
    }
    // (2 / a) <...>, and the limit at no swing, where it is the slope
    const double faint = 1.0 - std::tanh(offset) * std::tanh(offset);
    m.itself = swing > 1e-6 ? m.itself / (steps * swing) : faint;
    m.others /= 2.0 * steps;
    return m;
}

}  // namespace

Saturation::Saturation(double offset) : offset_(std::min(std::abs(offset), kMostOffset)) {
    const double widest = kDeep / (1.0 + kDeep);
    std::array<double, kTerms> itself{}, others{};
    for (std::size_t n = 0; n < kTerms; ++n) {
        const double t = std::cos(kPi * (static_cast<double>(n) + 0.5) / kTerms);
        const double share = 0.5 * widest * (1.0 + t), swing = share / (1.0 - share);
        const Means m = means(swing, offset_);
        itself[n] = m.itself * (1.0 + swing);
        others[n] = m.others * (1.0 + swing);
    }
    for (std::size_t k = 0; k < kTerms; ++k) {
        for (std::size_t n = 0; n < kTerms; ++n) {
            const double t =
                std::cos(kPi * static_cast<double>(k) * (static_cast<double>(n) + 0.5) / kTerms);
            itself_[k] += itself[n] * t;
            others_[k] += others[n] * t;
        }
        const double scale = (k == 0 ? 1.0 : 2.0) / kTerms;
        itself_[k] *= scale;
        others_[k] *= scale;
    }
    constexpr double kNothing = 1e-8;  // well below kSaturationError
    while (used_ > 2 && std::abs(itself_[used_ - 1]) < kNothing &&
           std::abs(others_[used_ - 1]) < kNothing)
        --used_;
    double most = to_itself(0.0);
    for (double swing = 0.05; swing < offset_ + 2.0; swing += 0.05) {
        const double here = to_itself(swing);
        if (here <= most * (1.0 + kSaturationError)) continue;
        most = here;
        most_at_ = swing;
    }
}

double Saturation::sum(const std::array<double, kTerms>& terms, double swing) const {
    const double widest = kDeep / (1.0 + kDeep);
    const double t = 2.0 * swing / (1.0 + swing) / widest - 1.0;
    double one = 0.0, two = 0.0;  // Clenshaw
    for (std::size_t k = used_ - 1; k > 0; --k) {
        const double next = 2.0 * t * one - two + terms[k];
        two = one;
        one = next;
    }
    return (t * one - two + terms[0]) / (1.0 + swing);
}

double Saturation::to_itself(double swing) const {
    if (swing < kDeep) return sum(itself_, swing);
    const double square = (offset_ * offset_ + kPi * kPi / 12.0) / (swing * swing);
    return 4.0 / (kPi * swing) * (1.0 - 0.5 * square);
}

double Saturation::to_others(double swing) const {
    if (swing < kDeep) return sum(others_, swing);
    const double square = (offset_ * offset_ + kPi * kPi / 12.0) / (swing * swing);
    return 2.0 / (kPi * swing) * (1.0 + 0.5 * square);
}

}  // namespace canewright
