// core/jet/stability.cpp: roots of a harmonic balance with slow disturbances.
#include "core/jet/stability.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/jet/eigenvalues.hpp"
#include "core/jet/full_balance.hpp"

namespace canewright {
namespace {

constexpr int kSlowParts = 5;  // steady flow and two harmonics
constexpr int kFollowing = kSlowUnknowns - kSlowParts;
using Following = Eigen::Matrix<double, kFollowing, kFollowing>;
using SlowParts = Eigen::Matrix<double, kSlowParts, kSlowParts>;

}  // namespace

double growth(const JetTerms& terms, const LocalImpedance& loop, const Overtones& overtones,
              const Oscillation& of, double centre_m_s) {
    const FullBalance balance(terms, loop, overtones, centre_m_s);
    SlowSlopes still, slow;
    balance.disturbed(unknowns_of(of), still, slow);
    // still y + slow dy/d(wt) = 0; of the higher parts the first alone, which gives them by the
    // others
    Following higher;
    for (int i = 0; i < kFollowing; ++i)
        for (int j = 0; j < kFollowing; ++j) higher(i, j) = still(kSlowParts + i, kSlowParts + j);
    SlowParts is, goes;
    for (int j = 0; j < kSlowParts; ++j) {
        Eigen::Matrix<double, kFollowing, 1> from;
        for (int i = 0; i < kFollowing; ++i) from(i) = -still(kSlowParts + i, j);
        const auto follow = solved_unknowns<kFollowing>(higher, from);
        for (int i = 0; i < kSlowParts; ++i) {
            is(i, j) = still(i, j);
            goes(i, j) = slow(i, j);
            for (int k = 0; k < kFollowing; ++k) {
                is(i, j) += still(i, kSlowParts + k) * follow(k);
                goes(i, j) += slow(i, kSlowParts + k) * follow(k);
            }
        }
    }
    SlowParts ways;
    for (int j = 0; j < kSlowParts; ++j)
        ways.col(j) = solved_unknowns<kSlowParts>(goes, -is.col(j));
    auto roots = eigenvalues(ways);
    const auto clock = std::min_element(roots.begin(), roots.end(), [](Complex a, Complex b) {
        return std::norm(a) < std::norm(b);
    });
    std::swap(*clock, roots.back());
    double greatest = -std::numeric_limits<double>::infinity();
    for (std::size_t n = 0; n + 1 < roots.size(); ++n)
        if (std::abs(roots[n]) < kSlow) greatest = std::max(greatest, roots[n].real());
    return greatest;
}

}  // namespace canewright
