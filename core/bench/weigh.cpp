// core/bench/weigh.cpp: Gaussian fits with a prior, their evidence, and which readings are trusted.
#include "core/bench/weigh.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <limits>

namespace canewright {
namespace {

constexpr int kMostWeighings = 30;  // of weighing, on one linearisation
constexpr double kTailFreedom = 3.0;

double varied(const Modelled& m, double moment_cents) {
    return m.noted_variance + (m.alone ? moment_cents * moment_cents : 0.0);
}

bool fits(const Verdict& v) {
    return std::abs(v.off_cents) <= kSuspicious_cents ||
           std::abs(v.off_cents) <= kSuspicious * v.sigma_cents;
}

}  // namespace

Eigen::MatrixXd Prior::precision(const Habit& habit) const {
    constexpr double kLeastNote_cents = 0.01;  // nothing at all has no inverse
    Eigen::MatrixXd all = Eigen::MatrixXd::Zero(size(), size());
    all.topLeftCorner(common.rows(), common.rows()) = common;
    all.diagonal().segment(common.rows(), cut_m.size()) =
        (habit.hands * cut_m).cwiseAbs2().cwiseInverse();
    const double moment_cents = std::max(habit.moment_cents, kLeastNote_cents);
    const double note_cents = std::max(kNoteShare * habit.moment_cents, kLeastNote_cents);
    all.diagonal()
        .segment(common.rows() + cut_m.size(), fingerings)
        .setConstant(1.0 / (note_cents * note_cents));
    all.diagonal().tail(sittings).setConstant(1.0 / (moment_cents * moment_cents));
    return all;
}

Fit fit(const std::vector<Modelled>& readings, const Eigen::VectorXd& weight,
        const Eigen::MatrixXd& prior_precision, const Eigen::VectorXd& from_prior,
        double moment_cents) {
    Eigen::MatrixXd precision = prior_precision;
    Eigen::VectorXd pull = -prior_precision * from_prior;
    double misfit = -from_prior.dot(pull), log_variances = 0.0;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const Modelled& m = readings[i];
        const double share = weight(static_cast<Eigen::Index>(i));
        if (!m.counts || share == 0.0) continue;
        const double variance = varied(m, moment_cents);
        const double w = share / variance;
        precision.selfadjointView<Eigen::Lower>().rankUpdate(m.slope, w);
        pull += w * m.off_cents * m.slope;
        misfit += w * m.off_cents * m.off_cents;
        log_variances += std::log(variance);
    }
    precision.triangularView<Eigen::StrictlyUpper>() = precision.transpose();
    const Eigen::LLT<Eigen::MatrixXd> root(precision);
    Fit f;
    f.covariance = root.solve(Eigen::MatrixXd::Identity(precision.rows(), precision.cols()));
    f.step = f.covariance * pull;
    const auto log_determinant = [](const Eigen::LLT<Eigen::MatrixXd>& of) {
        return 2.0 * of.matrixLLT().diagonal().array().log().sum();
    };
    f.log_evidence = 0.5 * (pull.dot(f.step) - misfit - log_variances - log_determinant(root) +
                            log_determinant(Eigen::LLT<Eigen::MatrixXd>(prior_precision)));
    return f;
}

Verdict verdict(const Modelled& m, double weight, const Fit& f) {
    const double known = m.slope.dot(f.covariance * m.slope);
    const double leverage = std::min(weight * known / m.variance, 0.999);
    Verdict v;
    v.off_cents = (m.off_cents - m.slope.dot(f.step)) / (1.0 - leverage);
    v.sigma_cents = std::sqrt(m.variance + known / (1.0 - leverage));
    return v;
}

Weighed weigh(const std::vector<Modelled>& readings, const Eigen::VectorXd& weight,
              const Prior& prior, const Eigen::VectorXd& from_prior,
              const std::vector<Habit>& makers) {
    Weighed all;
    double most = -std::numeric_limits<double>::infinity();
    for (const Habit& maker : makers) {
        all.fits.push_back(
            fit(readings, weight, prior.precision(maker), from_prior, maker.moment_cents));
        all.fits.back().log_evidence += std::log(maker.weight);
        most = std::max(most, all.fits.back().log_evidence);
    }
    double sum = 0.0;
    for (const Fit& f : all.fits) {
        all.share.push_back(std::exp(f.log_evidence - most));
        sum += all.share.back();
    }
    double moment = 0.0, hands = 0.0;
    for (std::size_t k = 0; k < makers.size(); ++k) {
        all.share[k] /= sum;
        moment += all.share[k] * makers[k].moment_cents * makers[k].moment_cents;
        hands += all.share[k] * makers[k].hands * makers[k].hands;
    }
    all.habit = {std::sqrt(moment), std::sqrt(hands), 1.0};
    return all;
}

void take_moment(std::vector<Modelled>& readings, double moment_cents) {
    for (Modelled& m : readings) m.variance = varied(m, moment_cents);
}

Eigen::VectorXd trusted(std::vector<Modelled>& readings, const Prior& prior,
                        const Eigen::VectorXd& from_prior, const std::vector<Habit>& makers,
                        Habit habit) {
    constexpr double kFarOut = 0.25;  // such a weight in the heavy-tailed fit says: of another kind
    const Eigen::Index count = static_cast<Eigen::Index>(readings.size());
    Eigen::VectorXd weight = Eigen::VectorXd::Ones(count);
    if (count == 0) return weight;
    const auto fit_now = [&](const Eigen::VectorXd& w) {
        return fit(readings, w, prior.precision(habit), from_prior, habit.moment_cents);
    };
    take_moment(readings, habit.moment_cents);
    for (int round = 0; round < kMostWeighings; ++round) {
        const Fit f = fit_now(weight);
        Eigen::VectorXd next(count);
        for (Eigen::Index i = 0; i < count; ++i) {
            const Modelled& m = readings[static_cast<std::size_t>(i)];
            const double rest = m.off_cents - m.slope.dot(f.step);
            next(i) = (kTailFreedom + 1.0) / (kTailFreedom + rest * rest / m.variance);
        }
        const bool still = (next - weight).cwiseAbs().maxCoeff() < 1e-3;
        weight = next;
        if (still) break;
    }
    if (makers.size() > 1) {
        const Eigen::VectorXd near = (weight.array() > kFarOut).cast<double>();
        habit = weigh(readings, near, prior, from_prior, makers).habit;
        take_moment(readings, habit.moment_cents);
    }
    const Fit tolerant = fit_now(weight);
    for (Eigen::Index i = 0; i < count; ++i)
        weight(i) =
            fits(verdict(readings[static_cast<std::size_t>(i)], weight(i), tolerant)) ? 1.0 : 0.0;
    for (int round = 0; round < kMostWeighings;
         ++round) {  // one change a round, the clearest first
        const Fit f = fit_now(weight);
        Eigen::Index change = -1;
        double clearest = 0.0;
        for (Eigen::Index i = 0; i < count; ++i) {
            const Modelled& m = readings[static_cast<std::size_t>(i)];
            if (!m.counts) continue;
            const Verdict v = verdict(m, weight(i), f);
            const double ratio = std::abs(v.off_cents) / v.sigma_cents;
            const bool in = weight(i) > 0.0;
            const double clear = in ? ratio - kSuspicious : kSuspicious - ratio;
            if (fits(v) != in && clear > clearest) change = i, clearest = clear;
        }
        if (change < 0) break;
        weight(change) = 1.0 - weight(change);
    }
    return weight;
}

Habit usual_of(const std::vector<Habit>& makers) {
    double sum = 0.0, moment = 0.0, hands = 0.0;
    for (const Habit& maker : makers) {
        sum += maker.weight;
        moment += maker.weight * maker.moment_cents * maker.moment_cents;
        hands += maker.weight * maker.hands * maker.hands;
    }
    return {std::sqrt(moment / sum), std::sqrt(hands / sum), 1.0};
}

}  // namespace canewright
