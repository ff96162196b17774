// core/jet/eigenvalues.hpp: eigenvalues of a small real matrix. Layer: jet.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cmath>
#include <utility>

#include "core/element/two_port.hpp"

namespace canewright {

// Eigenvalues, in no order.
//
// Model    to Hessenberg's form by elimination, then the complex QR method with Wilkinson's shifts
//          and deflation. Eigen's own solver would cost the later-loaded module ten times the
//          bytes.
// Error    as any backward stable method, 1e-12 of the matrix. What has not settled in kTrips stays
//          as it is.
// Source   J.H. Wilkinson, The Algebraic Eigenvalue Problem (1965).
template <int Size>
std::array<Complex, Size> eigenvalues(const Eigen::Matrix<double, Size, Size>& matrix) {
    constexpr int kTrips = 60 * Size;
    std::array<std::array<Complex, Size>, Size> a;
    const auto at = [&](int i, int j) -> Complex& {
        return a[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)];
    };
    for (int i = 0; i < Size; ++i)
        for (int j = 0; j < Size; ++j) at(i, j) = matrix(i, j);
    for (int k = 1; k < Size - 1; ++k) {
        int pivot = k;
        for (int i = k + 1; i < Size; ++i)
            if (std::abs(at(i, k - 1)) > std::abs(at(pivot, k - 1))) pivot = i;
        if (std::abs(at(pivot, k - 1)) == 0.0) continue;
        for (int j = 0; j < Size; ++j) std::swap(at(k, j), at(pivot, j));
        for (int i = 0; i < Size; ++i) std::swap(at(i, k), at(i, pivot));
        for (int i = k + 1; i < Size; ++i) {
            const Complex share = quotient(at(i, k - 1), at(k, k - 1));
            for (int j = 0; j < Size; ++j) at(i, j) -= share * at(k, j);
            for (int j = 0; j < Size; ++j) at(j, k) += share * at(j, i);
        }
    }
    int end = Size - 1;
    for (int trip = 0; trip < kTrips && end > 0; ++trip) {
        int begin = end;
        while (begin > 0 &&
               std::abs(at(begin, begin - 1)) >
                   1e-15 * (std::abs(at(begin, begin)) + std::abs(at(begin - 1, begin - 1))))
            --begin;
        if (begin == end) {
            --end;
            continue;
        }
        // the eigenvalue of the last two rows that is nearer to the last
        const Complex half = 0.5 * (at(end - 1, end - 1) - at(end, end));
        const Complex root = std::sqrt(half * half + at(end, end - 1) * at(end - 1, end));
        const Complex shift =
            at(end, end) + half + (std::abs(half + root) < std::abs(half - root) ? root : -root);
        std::array<std::pair<Complex, Complex>, Size> turns;
        for (int i = begin; i <= end; ++i) at(i, i) -= shift;
        for (int k = begin; k < end; ++k) {
            const double size = std::hypot(std::abs(at(k, k)), std::abs(at(k + 1, k)));
            const Complex c = size > 0.0 ? at(k, k) / size : Complex(1.0);
            const Complex s = size > 0.0 ? at(k + 1, k) / size : Complex(0.0);
            turns[static_cast<std::size_t>(k)] = {c, s};
            for (int j = k; j <= end; ++j) {
                const Complex one = at(k, j), two = at(k + 1, j);
                at(k, j) = std::conj(c) * one + std::conj(s) * two;
                at(k + 1, j) = c * two - s * one;
            }
        }
        for (int k = begin; k < end; ++k) {
            const auto [c, s] = turns[static_cast<std::size_t>(k)];
            for (int i = begin; i <= std::min(k + 1, end); ++i) {
                const Complex one = at(i, k), two = at(i, k + 1);
                at(i, k) = one * c + two * s;
                at(i, k + 1) = two * std::conj(c) - one * std::conj(s);
            }
        }
        for (int i = begin; i <= end; ++i) at(i, i) += shift;
    }
    std::array<Complex, Size> all;
    for (int i = 0; i < Size; ++i) all[static_cast<std::size_t>(i)] = at(i, i);
    return all;
}

}  // namespace canewright
