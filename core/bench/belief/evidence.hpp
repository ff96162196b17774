// core/bench/belief/evidence.hpp: from readings to what this flute is like, and how sure. Layer:
// bench.
#pragma once

#include <vector>

#include "core/bench/belief/unknowns.hpp"

namespace canewright {

// One reading against the belief it led to.
struct Verdict {
    double off_cents = 0.0;    // heard above expected, with this reading left out of the fit
    double sigma_cents = 0.0;  // how far it could have been off
    bool trusted = true;       // false: not used; ask for it again
};

// How a maker errs beyond what is noted with each reading and cut.
struct Habit {
    double moment_cents = 0.0;  // shared by the blows of one reading: the breath of the moment
    double hands = 1.0;         // errors of cuts over what is noted with them
    double weight = 1.0;        // how likely such a maker is before anything was heard
};

// A maker nobody knows: kMoment and kHands on a grid, log-normal.
std::vector<Habit> unknown_maker();
// One who errs just as is noted, and no more: for tests of what follows from that.
std::vector<Habit> known_maker();

struct Estimate {
    Belief before;                  // what was believed of the common unknowns without readings
    Belief belief;                  // common unknowns, then one offset an opening
    std::vector<Verdict> verdicts;  // one a reading
    Habit habit;                    // of this maker, from how well the readings fit each other
    Habit usual;                    // the same before any reading
    bool converged = false;
};

// What of a maker's errors is larger than usual, so that the bands were widened for it.
enum class Wider { none, moment, hands };
Wider wider(const Estimate& estimate);

// Maximum a posteriori by Gauss-Newton; readings that do not fit the others (an octave jump, a
// cold flute, another flute) are left out and marked, never averaged in.
//
//   before   belief about the common unknowns (prior(), or a pattern's)
//   makers   what this maker may be like
//
// Model    heard = passive resonance of the flute as it was then, in the air of its room, plus the
//          breath's drift; errors of reading, of the moment, and kModelSigma_cents of the model's
//          own are independent; a fingering that is always blown harder is an error of its own,
//          kNoteShare of the moment's. How large moment and hands are is weighed by how likely
//          each makes the readings (marginal likelihood); the belief is the mixture's mean and
//          covariance, so residuals too large for it widen it.
//          A reading is left out when it lies more than kSuspicious standard deviations and
//          kSuspicious_cents from what all the other trusted ones say; the first round of trust is
//          found with a heavy-tailed error (Student's t), in which the many outvote the one.
// Valid    readings of the finished voice: those before the block or sound hole was changed are
//          not used.
// Error    covariance is the Gaussian approximation at the maximum (checked by simulation:
//          tests/core/bench/belief/evidence_test.cpp).
// Source   C.D. Rodgers, Inverse Methods for Atmospheric Sounding (2000), ch. 2 and 5: optimal
//          estimation with a Gaussian prior; D.J.C. MacKay, Neural Comput. 4 (1992) 415-447: the
//          evidence for a size of error (both from memory).
Estimate estimate(const History& history, const Belief& before,
                  const std::vector<Habit>& makers = unknown_maker());

// Players blow a note three times alike and another day otherwise: 1 to 4 cents for most, 6 for
// some (common practice, no source); hands as noted, half as good or twice (judgement).
inline constexpr double kMoment_cents = 2.0;
inline constexpr double kMomentSpread = 0.8;  // of the logarithm
inline constexpr double kHands = 1.1;
inline constexpr double kHandsSpread = 0.3;
inline constexpr double kNoteShare = 0.5;
// So much above what is usual, the maker is told.
inline constexpr double kWider = 1.3;

inline constexpr double kModelSigma_cents = 1.0;
inline constexpr double kSuspicious = 3.2;
inline constexpr double kSuspicious_cents = 9.0;

}  // namespace canewright
