// core/jet/full_balance.hpp: what is left of the balance of each harmonic of a vibration. Only
// core/jet/overtones and core/jet/branch include this. Layer: jet.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>
#include <utility>

#include "core/base/units.hpp"
#include "core/jet/overtones.hpp"

namespace canewright {

inline constexpr int kBalanced = static_cast<int>(kOvertones) + 1;
// Unknowns: cents, the first's size, the others' two parts, the steady flow.
inline constexpr int kSteady = 2 * kBalanced;
inline constexpr int kUnknowns = kSteady + 1;
inline constexpr int kMoments = 48;  // of one period
inline constexpr double kOvertoneReach_cents = LocalImpedance::kLocalReach_cents;
inline constexpr double kSlope_cents = 1e-3;  // for the difference quotient

using Unknowns = Eigen::Matrix<double, kUnknowns, 1>;
using Slopes = Eigen::Matrix<double, kUnknowns, kUnknowns>;
// Of slow disturbances: the steady flow, then each harmonic's two parts.
inline constexpr int kSlowUnknowns = 2 * kBalanced + 1;
using SlowSlopes = Eigen::Matrix<double, kSlowUnknowns, kSlowUnknowns>;
using Moments = Eigen::Array<double, kMoments, 1>;

// cos(h x), sin(h x) at the moments of a period, for each harmonic.
struct Waves {
    Eigen::Array<double, kMoments, kBalanced + 1> cosine, sine;
    Waves() {
        for (int h = 0; h <= kBalanced; ++h) {
            for (int i = 0; i < kMoments; ++i) {
                const double angle = 2.0 * kPi * (h * i % kMoments) / kMoments;
                cosine(i, h) = std::cos(angle);
                sine(i, h) = std::sin(angle);
            }
        }
    }
    // The harmonic's part 0, cos(h x), or part 1, -sin(h x), late by an angle of the first.
    Moments part(int h, int part, double late_rad) const {
        const double c = std::cos(h * late_rad), s = std::sin(h * late_rad);
        if (part == 0) return c * cosine.col(h) + s * sine.col(h);
        return s * cosine.col(h) - c * sine.col(h);
    }
    // Peak of harmonic h > 0 in a period.
    Complex share(const Moments& period, int h) const {
        return {2.0 / kMoments * (period * cosine.col(h)).sum(),
                -2.0 / kMoments * (period * sine.col(h)).sum()};
    }
};

inline const Waves& full_waves() {
    static const Waves kWaves;
    return kWaves;
}

// Column of an unknown; the first harmonic has one part alone, which sets the clock.
inline int column_of(int h, int part) { return h == 0 ? kSteady : h == 1 ? 1 : 2 * h - 2 + part; }
inline int parts_of(int h) { return h < 2 ? 1 : 2; }

class FullBalance {
   public:
    FullBalance(const JetTerms& terms, const LocalImpedance& loop, const Overtones& overtones,
                double centre_m_s)
        : terms_(terms), loop_(loop), overtones_(overtones), centre_m_s_(centre_m_s) {}

    // What is left of each harmonic's balance, real and imaginary parts, with a share of what makes
    // harmonics; and how it changes with everything but the cents.
    Unknowns left(const Unknowns& x, double share, Slopes* slopes) const {
        const double w = 2.0 * kPi * shifted_Hz(loop_.resonance_Hz(), x(0));
        const double late_rad = w * terms_.late_m / centre_m_s_;
        const Moments now = flow(x, 0.0), then = flow(x, late_rad);
        Moments jet;
        for (int i = 0; i < kMoments; ++i) jet(i) = jet_at(then(i));
        std::array<Complex, kBalanced + 1> z;
        z[0] = terms_.area_m2 * overtones_.steady;
        for (int h = 1; h <= kBalanced; ++h)
            z[static_cast<std::size_t>(h)] = area_impedance(h, x(0));
        const double source = terms_.source_Pa_s2_m, loss = terms_.loss_Pa_s2_m2;
        const auto put = [&](const Moments& jets, const Moments& lost, Unknowns& r) {
            r(kSteady) = share * loss * lost.mean();
            for (int h = 1; h <= kBalanced; ++h) {
                const Complex one = (h == 1 ? 1.0 : share) *
                                    (loss * full_waves().share(lost, h) -
                                     Complex(0.0, h * w * source) * full_waves().share(jets, h));
                r(2 * h - 2) = one.real();
                r(2 * h - 1) = one.imag();
            }
        };
        Unknowns r;
        put(centre_m_s_ * jet, now * now.abs(), r);
        for (int h = 0; h <= kBalanced; ++h)
            for (int part = 0; part < parts_of(h); ++part)
                add(h, part, z, x(column_of(h, part)), r);
        if (slopes == nullptr) return r;
        const Moments jet_slope = terms_.receptivity * (1.0 - jet * jet);
        const Moments loss_slope = 2.0 * now.abs();
        for (int h = 0; h <= kBalanced; ++h) {
            for (int part = 0; part < parts_of(h); ++part) {
                Unknowns change;
                put(jet_slope * full_waves().part(h, part, late_rad),
                    loss_slope * full_waves().part(h, part, 0.0), change);
                add(h, part, z, 1.0, change);
                slopes->col(column_of(h, part)) = change;
            }
        }
        return r;
    }

    // What a small disturbance of x, whose parts go slowly with time, changes of the balance: of
    // each part as it is, and of how fast it goes, per radian of the vibration.
    void disturbed(const Unknowns& x, SlowSlopes& still, SlowSlopes& slow) const {
        const double w = 2.0 * kPi * shifted_Hz(loop_.resonance_Hz(), x(0));
        const double late_rad = w * terms_.late_m / centre_m_s_;
        const Moments now = flow(x, 0.0), then = flow(x, late_rad);
        Moments jet_slope;
        for (int i = 0; i < kMoments; ++i) {
            const double jet = jet_at(then(i));
            jet_slope(i) = terms_.receptivity * (1.0 - jet * jet);
        }
        const Moments loss_slope = 2.0 * now.abs();
        const double source = w * terms_.source_Pa_s2_m, loss = terms_.loss_Pa_s2_m2;
        for (int h = 0; h <= kBalanced; ++h) {
            for (int part = 0; part < (h == 0 ? 1 : 2); ++part) {
                const int column = h == 0 ? 0 : 2 * h - 1 + part;
                const Moments jets = jet_slope * full_waves().part(h, part, late_rad);
                const Moments lost = loss_slope * full_waves().part(h, part, 0.0);
                still(0, column) = loss * lost.mean();
                slow(0, column) = -source * jets.mean();
                for (int k = 1; k <= kBalanced; ++k) {
                    const Complex jet = source * full_waves().share(jets, k);
                    put(k, column, loss * full_waves().share(lost, k) - Complex(0.0, k) * jet,
                        still);
                    put(k, column, (Complex(0.0, k * late_rad) - 1.0) * jet, slow);
                }
                const Complex turn = part == 0 ? Complex(1.0) : Complex(0.0, 1.0);
                if (h == 0) {
                    still(0, 0) += terms_.area_m2 * overtones_.steady;
                    slow(0, 0) += w * terms_.area_m2 * overtones_.steady_inertance;
                } else {
                    // of the impedance at j (h w + ..): per radian, by the frequency's logarithm
                    const Complex slope = (area_impedance(h, x(0) + kSlope_cents) -
                                           area_impedance(h, x(0) - kSlope_cents)) /
                                          (2.0 * kSlope_cents) * kCentsPerOctave / std::log(2.0);
                    add_to(h, column, turn * area_impedance(h, x(0)), still);
                    add_to(h, column, turn * Complex(0.0, -1.0 / h) * slope, slow);
                }
            }
        }
    }

   private:
    static void put(int h, int column, Complex value, SlowSlopes& to) {
        to(2 * h - 1, column) = value.real();
        to(2 * h, column) = value.imag();
    }
    static void add_to(int h, int column, Complex value, SlowSlopes& to) {
        to(2 * h - 1, column) += value.real();
        to(2 * h, column) += value.imag();
    }
    Moments flow(const Unknowns& x, double late_rad) const {
        Moments sum = Moments::Zero();
        for (int h = 0; h <= kBalanced; ++h)
            for (int part = 0; part < parts_of(h); ++part)
                sum += x(column_of(h, part)) * full_waves().part(h, part, late_rad);
        return sum;
    }
    double jet_at(double then_m_s) const {
        return std::tanh(terms_.receptivity / centre_m_s_ * then_m_s - terms_.offset);
    }
    Complex area_impedance(int h, double cents) const {
        const LocalImpedance& loop =
            h == 1 ? loop_ : overtones_.loops[static_cast<std::size_t>(h - 2)];
        return terms_.area_m2 * loop.at(cents);
    }
    // The resonator's share of a harmonic's balance.
    static void add(int h, int part, const std::array<Complex, kBalanced + 1>& z, double size,
                    Unknowns& r) {
        const Complex one = size * z[static_cast<std::size_t>(h)];
        if (h == 0) {
            r(kSteady) += one.real();
        } else {
            r(2 * h - 2) += part == 0 ? one.real() : -one.imag();
            r(2 * h - 1) += part == 0 ? one.imag() : one.real();
        }
    }

    const JetTerms& terms_;
    const LocalImpedance& loop_;
    const Overtones& overtones_;
    double centre_m_s_;
};

// Gauss's elimination with partial pivoting; nothing that exists where there is no solution.
template <int Size>
Eigen::Matrix<double, Size, 1> solved_unknowns(Eigen::Matrix<double, Size, Size> a,
                                               Eigen::Matrix<double, Size, 1> b) {
    for (int k = 0; k < Size; ++k) {
        int pivot = k;
        for (int i = k + 1; i < Size; ++i)
            if (std::abs(a(i, k)) > std::abs(a(pivot, k))) pivot = i;
        for (int j = k; j < Size; ++j) std::swap(a(k, j), a(pivot, j));
        std::swap(b(k), b(pivot));
        for (int i = k + 1; i < Size; ++i) {
            const double share = a(i, k) / a(k, k);
            for (int j = k; j < Size; ++j) a(i, j) -= share * a(k, j);
            b(i) -= share * b(k);
        }
    }
    for (int k = Size; k-- > 0;) {
        for (int j = k + 1; j < Size; ++j) b(k) -= a(k, j) * b(j);
        b(k) /= a(k, k);
    }
    return b;
}

// To unknowns and back.
inline Unknowns unknowns_of(const Oscillation& one) {
    Unknowns x = Unknowns::Zero();
    x(0) = one.cents;
    x(1) = one.velocity_m_s;
    if (!one.has_overtones) return x;
    x(kSteady) = one.steady_m_s;
    for (int h = 2; h <= kBalanced; ++h) {
        const Complex size = one.overtones_m_s[static_cast<std::size_t>(h - 2)];
        x(column_of(h, 0)) = size.real();
        x(column_of(h, 1)) = size.imag();
    }
    return x;
}

inline Oscillation oscillation_of(const Unknowns& x, const JetTerms& terms,
                                  const LocalImpedance& loop, double centre_m_s) {
    Oscillation found;
    found.sounds = found.has_overtones = true;
    found.cents = x(0);
    found.frequency_Hz = shifted_Hz(loop.resonance_Hz(), x(0));
    found.velocity_m_s = x(1);
    found.swing = x(1) * terms.receptivity / centre_m_s;
    found.steady_m_s = x(kSteady);
    for (int h = 2; h <= kBalanced; ++h)
        found.overtones_m_s[static_cast<std::size_t>(h - 2)] = {x(column_of(h, 0)),
                                                                x(column_of(h, 1))};
    return found;
}

}  // namespace canewright
