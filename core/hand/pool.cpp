// core/hand/pool.cpp: expectation and maximisation over what the flutes said.
#include "core/hand/pool.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <cmath>
#include <utility>

namespace canewright {
namespace {

constexpr int kMostPoolTrips = 300;
constexpr double kPoolStill = 1e-5;  // of a stranger's standard deviation
constexpr double kToldNothing =
    1e-6;  // of a stranger's precision: what a flute that told nothing says
constexpr double kMostApart = 1.0;  // of a change, a standard deviation, in the stranger's

// A lesson without what was believed before: as if measured with these errors. In the stranger's
// standard deviations, from the stranger's mean.
struct Saying {
    Eigen::VectorXd value;
    Eigen::MatrixXd errors;
    bool later = false;   // after the change that is tried
    bool learns = true;   // false: left out, to be asked against the others
    Eigen::VectorXd odd;  // chances of being odd that are settled; empty: not settled
    double chance = 0.0;  // of being odd, when it was settled
};

Saying saying_of(const Lesson& lesson, const Stranger& stranger) {
    const Eigen::Index p = stranger.mean.size();
    const Eigen::MatrixXd scale = stranger.sigma.asDiagonal();
    const Eigen::MatrixXd after = (scale * lesson.covariance.inverse() * scale).eval();
    const Eigen::MatrixXd before = (scale * lesson.before_covariance.inverse() * scale).eval();
    const auto scaled = [&](const Eigen::VectorXd& mean) {
        return Eigen::VectorXd((mean - stranger.mean).cwiseQuotient(stranger.sigma));
    };
    // Rounding, and a belief that mixes several makers, may take a little more than was there.
    const Eigen::MatrixXd gained = 0.5 * ((after - before) + (after - before).transpose());
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> parts(gained);
    const Eigen::VectorXd kept = parts.eigenvalues().cwiseMax(kToldNothing);
    const Eigen::VectorXd pull = after * scaled(lesson.mean) - before * scaled(lesson.before_mean);
    const Eigen::VectorXd along = parts.eigenvectors().transpose() * pull;
    Saying t;
    t.errors =
        parts.eigenvectors() * kept.cwiseInverse().asDiagonal() * parts.eigenvectors().transpose();
    // a direction of which nothing was told has no value of its own
    Eigen::VectorXd value(p);
    for (Eigen::Index n = 0; n < p; ++n)
        value(n) = parts.eigenvalues()(n) > kToldNothing ? along(n) / kept(n) : 0.0;
    t.value = parts.eigenvectors() * value;
    return t;
}

// mu, with what a change added to it behind, and T; with each lesson's chances of being odd.
struct PoolFit {
    Eigen::VectorXd mu;
    Eigen::MatrixXd covariance;  // of mu
    Eigen::MatrixXd between;
    Eigen::MatrixXd chances;  // a row a lesson: not odd, odd in each unknown
    bool converged = false;
};

PoolFit pool_begun(const std::vector<Saying>& all, double own) {
    const Eigen::Index p = all.front().value.size();
    return {Eigen::VectorXd::Zero(p), (1.0 - own * own) * Eigen::MatrixXd::Identity(p, p),
            own * own * Eigen::MatrixXd::Identity(p, p),
            Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(all.size()), p + 1), false};
}

class Pooling {
   public:
    // `changed`: the unknown that is another one in the later lessons; -1 for none.
    Pooling(const std::vector<Saying>& all, double own, PoolFit start, Eigen::Index changed = -1)
        : all_(all), own_(own * own), p_(all.front().value.size()), changed_(changed) {
        f_ = std::move(start);
        prior_ = Eigen::MatrixXd::Identity(p_, p_) / (1.0 - own_);
        if (changed_ < 0) return;
        prior_.conservativeResizeLike(Eigen::MatrixXd::Zero(p_ + 1, p_ + 1));
        f_.covariance.conservativeResizeLike(Eigen::MatrixXd::Zero(p_ + 1, p_ + 1));
        f_.mu.conservativeResizeLike(Eigen::VectorXd::Zero(p_ + 1));
        prior_(p_, p_) = 1.0 / (kMostApart * kMostApart);
    }

    PoolFit fit() {
        f_.converged = false;
        for (int trip = 0; trip < kMostPoolTrips && !f_.converged; ++trip) {
            const Eigen::VectorXd mu = f_.mu;
            const Eigen::MatrixXd between = f_.between;
            step();
            f_.converged = (f_.mu - mu).cwiseAbs().maxCoeff() < kPoolStill &&
                           (f_.between - between).cwiseAbs().maxCoeff() < kPoolStill;
        }
        return f_;
    }

    // Of a lesson, what is not fixed: chances of being odd by the present fit.
    Eigen::VectorXd chances(const Saying& t) const {
        const double p = static_cast<double>(p_);
        Eigen::VectorXd logs(p_ + 1);
        const Eigen::VectorXd off = t.value - design(t) * f_.mu;
        const Eigen::MatrixXd mu_errors =
            t.learns ? Eigen::MatrixXd::Zero(p_, p_).eval() : errors_of_mu(t);
        for (Eigen::Index c = 0; c <= p_; ++c) {
            const Eigen::LLT<Eigen::MatrixXd> root(spread(t, c) + mu_errors);
            const double chance = c == 0 ? 1.0 - 1.0 / kOddOneIn : 1.0 / (kOddOneIn * p);
            logs(c) = std::log(chance) - 0.5 * off.dot(root.solve(off)) -
                      root.matrixLLT().diagonal().array().log().sum();
        }
        const Eigen::VectorXd share = (logs.array() - logs.maxCoeff()).exp();
        return share / share.sum();
    }

   private:
    Eigen::MatrixXd design(const Saying& t) const {
        Eigen::MatrixXd d = Eigen::MatrixXd::Zero(p_, f_.mu.size());
        d.leftCols(p_).setIdentity();
        if (changed_ >= 0 && t.later) d(changed_, p_) = 1.0;
        return d;
    }

    Eigen::MatrixXd errors_of_mu(const Saying& t) const {
        const Eigen::MatrixXd d = design(t);
        return d * f_.covariance * d.transpose();
    }

    // Of a lesson's value round mu, where unknown `odd` - 1 is odd; 0: none is.
    Eigen::MatrixXd spread(const Saying& t, Eigen::Index odd) const {
        Eigen::MatrixXd v = f_.between + t.errors;
        if (odd > 0)
            v(odd - 1, odd - 1) += (kOddScatter * kOddScatter - 1.0) * f_.between(odd - 1, odd - 1);
        return v;
    }

    void step() {
        Eigen::MatrixXd precision = prior_;
        Eigen::VectorXd pull = Eigen::VectorXd::Zero(f_.mu.size());
        Eigen::MatrixXd scatter = kShrunk * own_ * Eigen::MatrixXd::Identity(p_, p_);
        double count = kShrunk;
        for (std::size_t l = 0; l < all_.size(); ++l) {
            const Saying& t = all_[l];
            if (!t.learns) continue;
            count += 1.0;
            const Eigen::MatrixXd d = design(t);
            const Eigen::VectorXd off = t.value - d * f_.mu;
            const Eigen::MatrixXd mu_errors = errors_of_mu(t);
            const Eigen::VectorXd share = t.odd.size() > 0 ? t.odd : chances(t);
            f_.chances.row(static_cast<Eigen::Index>(l)) = share.transpose();
            for (Eigen::Index c = 0; c <= p_; ++c) {
                if (!(share(c) > 0.0)) continue;
                const Eigen::MatrixXd inverse =
                    spread(t, c).llt().solve(Eigen::MatrixXd::Identity(p_, p_));
                precision += share(c) * d.transpose() * inverse * d;
                pull += share(c) * d.transpose() * inverse * t.value;
                const Eigen::MatrixXd gain = f_.between * inverse;
                const Eigen::VectorXd own = gain * off;
                scatter += share(c) * (own * own.transpose() + f_.between - gain * f_.between +
                                       gain * mu_errors * gain.transpose());
            }
        }
        f_.covariance = precision.inverse();
        f_.mu = f_.covariance * pull;
        f_.between = scatter / count;
        f_.between = 0.5 * (f_.between + f_.between.transpose()).eval();
    }

    const std::vector<Saying>& all_;
    double own_;
    Eigen::Index p_, changed_;
    Eigen::MatrixXd prior_;
    PoolFit f_;
};

// One odd flute widens T until it is odd no more, so each is asked against a fit without it; the
// oddest first, then the others again.
PoolFit fit_with_odd(std::vector<Saying>& all, double own) {
    PoolFit f = Pooling(all, own, pool_begun(all, own)).fit();
    for (std::size_t found = 0; 3 * (found + 1) <= all.size(); ++found) {
        std::size_t oddest = all.size();
        Eigen::VectorXd chances;
        for (std::size_t l = 0; l < all.size(); ++l) {
            if (all[l].odd.size() > 0) continue;
            all[l].learns = false;
            Pooling others(all, own, f);
            others.fit();
            const Eigen::VectorXd these = others.chances(all[l]);
            all[l].learns = true;
            if (these(0) > 0.5) continue;
            if (oddest < all.size() && these(0) > chances(0)) continue;
            oddest = l;
            chances = these;
        }
        if (oddest == all.size()) break;
        // once it is taken to be odd, it is so wholly: half an odd flute still pulls
        Eigen::Index which = 0;
        chances.tail(chances.size() - 1).maxCoeff(&which);
        all[oddest].odd = Eigen::VectorXd::Unit(chances.size(), which + 1);
        all[oddest].chance = 1.0 - chances(0);
        f = Pooling(all, own, f).fit();
    }
    return f;
}

std::vector<OddFlute> odd_ones(const std::vector<Saying>& all, const PoolFit& f,
                               const Eigen::VectorXd& sigma) {
    std::vector<OddFlute> odd;
    for (std::size_t l = 0; l < all.size(); ++l) {
        if (all[l].odd.size() == 0 || all[l].chance < kOddNamed) continue;
        Eigen::Index which = 0;
        all[l].odd.tail(sigma.size()).maxCoeff(&which);
        // where it most likely lies, with its scatter as an odd one's
        Eigen::MatrixXd loose = f.between;
        loose(which, which) *= kOddScatter * kOddScatter;
        const Eigen::VectorXd off =
            loose * (loose + all[l].errors).llt().solve(all[l].value - f.mu);
        odd.push_back({l, which, off(which) * sigma(which), all[l].chance});
    }
    return odd;
}

// By the density at no change, before and after (J.M. Dickey, Ann. Math. Stat. 42 (1971) 204-223,
// from memory).
std::vector<HabitChange> changes_in(std::vector<Saying> all, double own, const PoolFit& f,
                                    const Eigen::VectorXd& sigma) {
    std::vector<HabitChange> found;
    const Eigen::Index p = sigma.size();
    double most = std::log(kChanged * static_cast<double>(all.size()) * static_cast<double>(p));
    for (std::size_t after = kLeastSide; after + kLeastSide <= all.size(); ++after) {
        for (std::size_t l = 0; l < all.size(); ++l) {
            all[l].later = l >= after;
            all[l].odd.resize(0);
        }
        for (Eigen::Index n = 0; n < p; ++n) {
            const PoolFit with = Pooling(all, own, f, n).fit();
            const double apart = with.mu(p), error = std::sqrt(with.covariance(p, p));
            const double said = std::log(error / kMostApart) + 0.5 * apart * apart / error / error;
            if (!(said > most)) continue;
            most = said;
            found = {{after, n, apart * sigma(n), error * sigma(n)}};
        }
    }
    return found;
}

}  // namespace

Hand pooled(const std::vector<Lesson>& lessons, const Stranger& stranger) {
    std::vector<Saying> all;
    for (const Lesson& lesson : lessons) all.push_back(saying_of(lesson, stranger));
    const PoolFit f = fit_with_odd(all, stranger.own);
    const Eigen::MatrixXd scale = stranger.sigma.asDiagonal();
    Hand hand;
    hand.mean = stranger.mean + scale * f.mu;
    hand.covariance = scale * f.covariance * scale;
    hand.between = scale * f.between * scale;
    hand.odd = odd_ones(all, f, stranger.sigma);
    hand.change = changes_in(all, stranger.own, f, stranger.sigma);
    hand.converged = f.converged;
    return hand;
}

}  // namespace canewright
