// core/jet/branch.cpp: pseudo-arclength continuation of the harmonic balance.
#include "core/jet/branch.hpp"

#include <algorithm>
#include <cmath>

#include "core/jet/bracket.hpp"
#include "core/jet/full_balance.hpp"
#include "core/jet/stability.hpp"

namespace canewright {
namespace {

// Place on the curve: the unknowns, each in its own scale, and the logarithm of the jet's speed.
constexpr int kPlace = kUnknowns + 1, kSpeed = kUnknowns;
using Place = Eigen::Matrix<double, kPlace, 1>;
using PlaceSlopes = Eigen::Matrix<double, kPlace, kPlace>;

constexpr double kCentsScale = 50.0;  // weighs about as much as all of the first harmonic
constexpr double kFirstStep = 0.05, kLongestStep = 0.25, kShortestStep = 2e-4;
constexpr double kLeastCosine = 0.95;  // between the tangents of two places
constexpr double kWideCosine = 0.99;   // so straight that the next step may be longer
constexpr double kSettled = 1e-8;
constexpr int kMostRounds = 6, kEasyRounds = 3, kMostWays = 400;
constexpr double kSlopeSpeed = 1e-6;  // for the difference quotient

double along(const Place& a, const Place& b) {
    double sum = 0.0;
    for (int i = 0; i < kPlace; ++i) sum += a(i) * b(i);
    return sum;
}

class Curve {
   public:
    Curve(const JetTerms& terms, const LocalImpedance& loop, const Overtones& overtones,
          const Oscillation& from)
        : terms_(terms), loop_(loop), overtones_(overtones) {
        scale_ = Unknowns::Constant(from.velocity_m_s);
        scale_(0) = kCentsScale;
    }

    Place place(const Oscillation& one, double centre_m_s) const {
        const Unknowns x = unknowns_of(one);
        Place y;
        for (int i = 0; i < kUnknowns; ++i) y(i) = x(i) / scale_(i);
        y(kSpeed) = std::log(centre_m_s);
        return y;
    }
    double growth_at(const Place& y) const {
        const double centre_m_s = std::exp(y(kSpeed));
        return growth(terms_, loop_, overtones_,
                      oscillation_of(unknowns(y), terms_, loop_, centre_m_s), centre_m_s);
    }
    Followed told(const Place& y, bool arrives) const {
        const double centre_m_s = std::exp(y(kSpeed));
        return {centre_m_s, oscillation_of(unknowns(y), terms_, loop_, centre_m_s), arrives};
    }

    // Newton's method on the plane through `y` across `across`; the tangent there, of length 1 and
    // on the side of `across`. Rounds it took; 0: it does not settle.
    int settled(Place& y, const Place& across, Place& tangent) const {
        const Place begin = y;
        for (int round = 1; round <= kMostRounds; ++round) {
            PlaceSlopes slopes;
            Place left;
            equations(y, across, slopes, left);
            left(kSpeed) = along(across, y - begin);
            const Place step = solved_unknowns<kPlace>(slopes, -left);
            if (!step.allFinite()) return 0;
            y += step;
            if (!(along(step, step) < kSettled * kSettled)) continue;
            if (!(std::abs(y(0)) * kCentsScale <= kOvertoneReach_cents && y(1) > 0.0)) return 0;
            // the slopes of a settled place a step ago are its own
            tangent = solved_unknowns<kPlace>(slopes, Place::Unit(kSpeed));
            if (!tangent.allFinite()) return 0;
            tangent /= std::sqrt(along(tangent, tangent));
            return round;
        }
        return 0;
    }

   private:
    Unknowns unknowns(const Place& y) const {
        Unknowns x;
        for (int i = 0; i < kUnknowns; ++i) x(i) = y(i) * scale_(i);
        return x;
    }
    // What is left of the balance, and its slopes with `across` for the last row.
    void equations(const Place& y, const Place& across, PlaceSlopes& slopes, Place& left) const {
        const Unknowns x = unknowns(y);
        const double centre_m_s = std::exp(y(kSpeed));
        const FullBalance balance(terms_, loop_, overtones_, centre_m_s);
        Slopes each;
        const Unknowns here = balance.left(x, 1.0, &each);
        Unknowns beside = x;
        beside(0) += kSlope_cents;
        each.col(0) = (balance.left(beside, 1.0, nullptr) - here) / kSlope_cents;
        const FullBalance faster(terms_, loop_, overtones_, centre_m_s * std::exp(kSlopeSpeed));
        const Unknowns speed = (faster.left(x, 1.0, nullptr) - here) / kSlopeSpeed;
        for (int i = 0; i < kUnknowns; ++i) {
            left(i) = here(i);
            slopes(i, kSpeed) = speed(i);
            for (int j = 0; j < kUnknowns; ++j) slopes(i, j) = each(i, j) * scale_(j);
        }
        for (int j = 0; j < kPlace; ++j) slopes(kSpeed, j) = across(j);
    }

    const JetTerms& terms_;
    const LocalImpedance& loop_;
    const Overtones& overtones_;
    Unknowns scale_;
};

}  // namespace

Followed followed(const JetTerms& terms, const LocalImpedance& loop, const Overtones& overtones,
                  const Oscillation& from, double from_m_s, double to_m_s, Watch watch) {
    const Curve curve(terms, loop, overtones, from);
    const auto growth_at = [&](const Place& y) {
        return watch == Watch::slipping ? curve.growth_at(y) : -1.0;
    };
    const double to = std::log(to_m_s), way = to_m_s > from_m_s ? 1.0 : -1.0;
    Place here = curve.place(from, from_m_s), tangent;
    const Place at_speed = way * Place::Unit(kSpeed);
    if (curve.settled(here, at_speed, tangent) == 0) return {from_m_s, from, false};
    double length = kFirstStep, grows = growth_at(here);
    if (grows > 0.0) return curve.told(here, false);
    for (int n = 0; n < kMostWays && length > kShortestStep; ++n) {
        Place next = here + length * tangent, next_tangent;
        const int rounds = curve.settled(next, tangent, next_tangent);
        const double cosine = rounds > 0 ? along(tangent, next_tangent) : 0.0;
        // Where the curve turns back in speed its end is as near as the shortest step's square.
        if (rounds == 0 || cosine < kLeastCosine || !(way * next_tangent(kSpeed) > 0.0)) {
            length *= 0.5;
            continue;
        }
        const double next_grows = growth_at(next);
        if (next_grows > 0.0) {
            Place end = next, end_tangent;
            bool settles = true;
            const auto dies = [&](double share) {
                end = here + share * length * tangent;
                settles = settles && curve.settled(end, tangent, end_tangent) > 0;
                return settles ? -growth_at(end) : 0.0;
            };
            dies(bracketed_root(dies, 0.0, 1.0, -grows, -next_grows, 0.002));
            if (!settles) end = here;
            if (way * (end(kSpeed) - to) < 0.0) return curve.told(end, false);
        }
        if (way * (next(kSpeed) - to) >= 0.0) {
            const double share = (to - here(kSpeed)) / (next(kSpeed) - here(kSpeed));
            Place end = here + share * (next - here), end_tangent;
            end(kSpeed) = to;
            if (curve.settled(end, at_speed, end_tangent) > 0) return curve.told(end, true);
            length *= 0.5;
            continue;
        }
        if (rounds <= kEasyRounds && cosine > kWideCosine)
            length = std::min(1.6 * length, kLongestStep);
        here = next;
        tangent = next_tangent;
        grows = next_grows;
    }
    return curve.told(here, false);
}

}  // namespace canewright
