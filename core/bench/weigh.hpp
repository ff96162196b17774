// core/bench/weigh.hpp: linear algebra of the evidence: fits, and how likely a maker is.
// Layer: bench.
#pragma once

#include "core/bench/belief/evidence.hpp"

namespace canewright {

// A reading's model: cents above what the unknowns give, and the slope to every unknown.
struct Modelled {
    double off_cents = 0.0;       // heard above modelled
    double noted_variance = 1.0;  // of the reading and the model
    bool alone = true;            // in its sitting: what the moment adds is in its variance
    double variance = 1.0;        // the same, with what the moment adds
    Eigen::VectorXd slope;        // d modelled / d unknown
    bool counts = false;          // of this voice, and it speaks
};

// A fit on one linearisation, as a step away from where that was made.
struct Fit {
    Eigen::VectorXd step;
    Eigen::MatrixXd covariance;
    double log_evidence = 0.0;  // of the readings that count, but for a constant
};

// What is believed before any reading, by the maker's errors.
struct Prior {
    Eigen::MatrixXd common;  // precision of the common unknowns
    Eigen::VectorXd cut_m;   // standard deviations of the cuts' offsets as noted
    // Each with an offset of its own [cents]: fingerings, then sittings of more than one reading.
    Eigen::Index fingerings = 0, sittings = 0;

    Eigen::Index size() const { return common.rows() + cut_m.size() + fingerings + sittings; }
    Eigen::MatrixXd precision(const Habit& habit) const;
};

// How likely each maker is, the readings that count given.
struct Weighed {
    std::vector<double> share;  // sums to 1
    std::vector<Fit> fits;
    Habit habit;  // root mean squares
};

// One step of Gauss-Newton.
//   weight       of each reading: 1 counts, 0 is left out
//   from_prior   where the linearisation stands, from the prior's mean
Fit fit(const std::vector<Modelled>& readings, const Eigen::VectorXd& weight,
        const Eigen::MatrixXd& prior_precision, const Eigen::VectorXd& from_prior,
        double moment_cents);

// A reading against all the others: its own weight in the fit is taken back.
Verdict verdict(const Modelled& reading, double weight, const Fit& fit);

// The moment's share goes into the variance of every reading.
void take_moment(std::vector<Modelled>& readings, double moment_cents);

Weighed weigh(const std::vector<Modelled>& readings, const Eigen::VectorXd& weight,
              const Prior& prior, const Eigen::VectorXd& from_prior,
              const std::vector<Habit>& makers);

// Weights 1 and 0: which readings belong together, for a maker who errs about like `habit`. First
// a fit in which far ones hardly pull, so that the many outvote the one; then a plain one in which
// whoever fits all others is let in.
Eigen::VectorXd trusted(std::vector<Modelled>& readings, const Prior& prior,
                        const Eigen::VectorXd& from_prior, const std::vector<Habit>& makers,
                        Habit habit);

// Root mean squares over makers, before any reading.
Habit usual_of(const std::vector<Habit>& makers);

}  // namespace canewright
