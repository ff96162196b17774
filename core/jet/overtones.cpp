// core/jet/overtones.cpp: harmonic balance of jet and resonator with more than one harmonic.
#include "core/jet/overtones.hpp"

#include <algorithm>
#include <cmath>

#include "core/jet/full_balance.hpp"

namespace canewright {
namespace {

constexpr int kMostOvertoneRounds = 12, kMostFromNear = 6;
constexpr int kStages = 4;  // of letting the harmonics in, where all at once does not end
constexpr double kDone_cents = 1e-7;
constexpr double kMostStep_cents = 15.0;

bool settled_balance(const FullBalance& balance, double share, int rounds, Unknowns& x) {
    for (int round = 0; round < rounds; ++round) {
        Slopes slopes;
        const Unknowns left = balance.left(x, share, &slopes);
        Unknowns beside = x;
        beside(0) += kSlope_cents;
        slopes.col(0) = (balance.left(beside, share, nullptr) - left) / kSlope_cents;
        const Unknowns step = solved_unknowns<kUnknowns>(slopes, -left);
        if (!step.allFinite()) return false;
        const double shorter = std::min(
            {1.0, kMostStep_cents / std::abs(step(0)), 0.5 * std::abs(x(1)) / std::abs(step(1))});
        x += shorter * step;
        if (std::abs(step(0)) < kDone_cents)
            return std::abs(x(0)) <= kOvertoneReach_cents && x(1) > 0.0;
    }
    return false;
}

}  // namespace

Oscillation with_overtones(const JetTerms& terms, const LocalImpedance& loop,
                           const Overtones& overtones, const Oscillation& near, double centre_m_s) {
    Oscillation found = near;
    found.has_overtones = false;
    if (!near.sounds || !overtones.exist()) return found;
    const FullBalance balance(terms, loop, overtones, centre_m_s);
    const Unknowns begin = unknowns_of(near);
    Unknowns x = begin;
    bool done =
        settled_balance(balance, 1.0, near.has_overtones ? kMostFromNear : kMostOvertoneRounds, x);
    if (!done && !near.has_overtones) {
        x = begin;
        done = true;
        for (int stage = 1; stage <= kStages && done; ++stage)
            done = settled_balance(balance, static_cast<double>(stage) / kStages,
                                   kMostOvertoneRounds, x);
    }
    if (!done) return found;
    return oscillation_of(x, terms, loop, centre_m_s);
}

}  // namespace canewright
