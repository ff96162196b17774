// core/bench/evidence.hpp: from readings to what this flute is like, and how sure. Layer: bench.
#pragma once

#include <vector>

#include "core/bench/unknowns.hpp"

namespace canewright {

// One reading against the belief it led to.
struct Verdict {
    double off_cents = 0.0;    // heard above expected, with this reading left out of the fit
    double sigma_cents = 0.0;  // how far it could have been off
    bool trusted = true;       // false: not used; ask for it again
};

struct Estimate {
    Belief before;                  // what was believed of the common unknowns without readings
    Belief belief;                  // common unknowns, then one offset an opening
    std::vector<Verdict> verdicts;  // one a reading
    bool converged = false;
};

// Maximum a posteriori by Gauss-Newton; readings that do not fit the others (an octave jump, a
// cold flute, another flute) are left out and marked, never averaged in.
//
//   before   belief about the common unknowns (prior(), or a pattern's)
//
// Model    heard = passive resonance of the flute as it was then, in the air of its room, plus the
//          breath's drift; errors of reading and kModelSigma_cents of the model's own, independent.
//          A reading is left out when it lies more than kSuspicious standard deviations and
//          kSuspicious_cents from what all the other trusted ones say; the first round of trust is
//          found with a heavy-tailed error (Student's t), in which the many outvote the one.
// Valid    readings of the finished voice: those before the block or sound hole was changed are
//          not used.
// Error    covariance is the Gaussian approximation at the maximum (checked by simulation:
//          tests/core/bench/evidence_test.cpp).
// Source   C.D. Rodgers, Inverse Methods for Atmospheric Sounding (2000), ch. 2 and 5: optimal
//          estimation with a Gaussian prior (textbook, from memory).
Estimate estimate(const History& history, const Belief& before);

inline constexpr double kModelSigma_cents = 1.0;
inline constexpr double kSuspicious = 3.2;
inline constexpr double kSuspicious_cents = 9.0;

}  // namespace canewright
