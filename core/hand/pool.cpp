// core/hand/pool.cpp: expectation and maximisation over what the flutes said.
#include "core/hand/pool.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/hand/table.hpp"

namespace canewright {
namespace {

constexpr int kMostPoolTrips = 300;
constexpr double kPoolStill = 1e-5;  // of a stranger's standard deviation
// Of a stranger's precision: what a flute that told nothing says.
constexpr double kToldNothing = 1e-6;
constexpr double kMostApart = 1.0;  // of a change, a standard deviation, in the stranger's
constexpr std::size_t kNoChange = 99;

// A lesson without what was believed before: as if measured with these errors. In the stranger's
// standard deviations, from the stranger's mean.
struct Saying {
    Table value, errors;
    bool later = false;       // after the change that is tried
    bool learns = true;       // false: left out, to be asked against the others
    std::vector<double> odd;  // chances of being odd that are settled; empty: not settled
    double chance = 0.0;      // of being odd, against the others
    std::size_t unknown = 0;  // in which, most likely
};

// What a belief says, as a precision and the pull of its mean.
void say_belief(const Eigen::VectorXd& mean, const Eigen::MatrixXd& covariance,
                const Stranger& stranger, double share, Table& precision, Table& pull) {
    const std::size_t p = precision.rows;
    const auto index = [](std::size_t n) { return static_cast<Eigen::Index>(n); };
    Table scaled = table(p, p), off = table(p, 1);
    for (std::size_t i = 0; i < p; ++i) {
        const double sigma = stranger.sigma(index(i));
        off(i, 0) = (mean(index(i)) - stranger.mean(index(i))) / sigma;
        for (std::size_t j = 0; j < p; ++j)
            scaled(i, j) = covariance(index(i), index(j)) / (sigma * stranger.sigma(index(j)));
    }
    const Table said = inverse(scaled);
    add(precision, said, share);
    add(pull, product(said, off), share);
}

Saying saying_of(const Lesson& lesson, const Stranger& stranger) {
    const std::size_t p = static_cast<std::size_t>(stranger.mean.size());
    Table gained = table(p, p), pull = table(p, 1);
    say_belief(lesson.mean, lesson.covariance, stranger, 1.0, gained, pull);
    say_belief(lesson.before_mean, lesson.before_covariance, stranger, -1.0, gained, pull);
    // Rounding, and a belief that mixes several makers, may take a little more than was there. A
    // direction of which nothing was told has no value of its own.
    const Axes parts = axes(gained);
    Table along = product(turned(parts.vectors), pull), errors = table(p, p);
    for (std::size_t n = 0; n < p; ++n) {
        const double kept = std::max(parts.values[n], kToldNothing);
        errors(n, n) = 1.0 / kept;
        along(n, 0) = parts.values[n] > kToldNothing ? along(n, 0) / kept : 0.0;
    }
    Saying t;
    t.value = product(parts.vectors, along);
    t.errors = product(parts.vectors, product(errors, turned(parts.vectors)));
    return t;
}

// mu, with what a change added to it behind, and T.
struct PoolFit {
    Table mu, covariance, between;  // covariance: of mu
    bool converged = false;
};

class Pooling {
   public:
    // `changed`: the unknown that is another one in the later lessons.
    Pooling(const std::vector<Saying>& all, double own, std::size_t changed = kNoChange)
        : all_(all), own_(own * own), p_(all.front().value.rows), changed_(changed) {
        const std::size_t q = changed_ == kNoChange ? p_ : p_ + 1;
        prior_ = table(q, q, 1.0 / (1.0 - own_));
        if (q > p_) prior_(p_, p_) = 1.0 / (kMostApart * kMostApart);
        f_ = {table(q, 1), inverse(prior_), table(p_, p_, own_), false};
    }

    PoolFit fit() {
        for (int trip = 0; trip < kMostPoolTrips && !f_.converged; ++trip) {
            const Table mu = f_.mu, between = f_.between;
            step();
            f_.converged =
                most_apart(f_.mu, mu) < kPoolStill && most_apart(f_.between, between) < kPoolStill;
        }
        return f_;
    }

    // Of a lesson that is not settled: none odd, odd in each unknown.
    std::vector<double> chances(const Saying& t) const {
        const Table off = off_of(t);
        std::vector<double> share(p_ + 1);
        for (std::size_t c = 0; c <= p_; ++c) {
            Table v = spread_of(t, c);
            if (!t.learns) add(v, errors_of_mu(t));
            double log_determinant = 0.0;
            const Table said = inverse(v, &log_determinant);
            const double chance =
                c == 0 ? 1.0 - 1.0 / kOddOneIn : 1.0 / (kOddOneIn * static_cast<double>(p_));
            share[c] = std::log(chance) - 0.5 * (quadratic(off, said) + log_determinant);
        }
        const double most = *std::max_element(share.begin(), share.end());
        double all = 0.0;
        for (double& each : share) all += each = std::exp(each - most);
        for (double& each : share) each /= all;
        return share;
    }

   private:
    Table design(const Saying& t) const {
        Table d = table(p_, f_.mu.rows, 1.0);
        if (changed_ != kNoChange && t.later) d(changed_, p_) = 1.0;
        return d;
    }

    Table off_of(const Saying& t) const {
        Table off = t.value;
        add(off, product(design(t), f_.mu), -1.0);
        return off;
    }

    Table errors_of_mu(const Saying& t) const {
        const Table d = design(t);
        return product(d, product(f_.covariance, turned(d)));
    }

    // Of a lesson's value round mu, where unknown `odd` - 1 is odd; 0: none is.
    Table spread_of(const Saying& t, std::size_t odd) const {
        Table v = f_.between;
        if (odd > 0) v(odd - 1, odd - 1) *= kOddScatter * kOddScatter;
        add(v, t.errors);
        return v;
    }

    void step() {
        Table precision = prior_, pull = table(f_.mu.rows, 1);
        Table scatter = table(p_, p_, kShrunk * own_);
        double count = kShrunk;
        for (const Saying& t : all_) {
            if (!t.learns) continue;
            count += 1.0;
            const Table d = design(t), to_mu = turned(d), off = off_of(t);
            // what is not known of mu scatters too
            Table squares = product(off, turned(off));
            add(squares, errors_of_mu(t));
            const std::vector<double> share = t.odd.empty() ? chances(t) : t.odd;
            for (std::size_t c = 0; c <= p_; ++c) {
                if (!(share[c] > 0.0)) continue;
                const Table said = inverse(spread_of(t, c));
                add(precision, product(to_mu, product(said, d)), share[c]);
                add(pull, product(to_mu, product(said, t.value)), share[c]);
                const Table gain = product(f_.between, said);
                add(scatter, product(gain, product(squares, turned(gain))), share[c]);
                add(scatter, f_.between, share[c]);
                add(scatter, product(gain, f_.between), -share[c]);
            }
        }
        f_.covariance = inverse(precision);
        f_.mu = product(f_.covariance, pull);
        const Table other = turned(scatter);  // the same but for rounding
        for (std::size_t n = 0; n < scatter.cells.size(); ++n)
            f_.between.cells[n] = 0.5 * (scatter.cells[n] + other.cells[n]) / count;
    }

    const std::vector<Saying>& all_;
    double own_;
    std::size_t p_, changed_;
    Table prior_;
    PoolFit f_;
};

// The unknown that is likeliest to be odd.
std::size_t likeliest_of(const std::vector<double>& chances) {
    const auto from = chances.begin() + 1;
    return static_cast<std::size_t>(std::max_element(from, chances.end()) - from);
}

// One odd flute widens T until it is odd no more, so each is asked against a fit without it; the
// oddest first, then the others again.
PoolFit fit_with_odd(std::vector<Saying>& all, double own) {
    for (std::size_t found = 0; 3 * (found + 1) <= all.size(); ++found) {
        std::size_t oddest = all.size();
        std::vector<double> chances{0.5};
        for (std::size_t l = 0; l < all.size(); ++l) {
            if (!all[l].odd.empty()) continue;
            all[l].learns = false;
            Pooling others(all, own);
            others.fit();
            const std::vector<double> these = others.chances(all[l]);
            all[l].learns = true;
            all[l].chance = 1.0 - these[0];
            all[l].unknown = likeliest_of(these);
            if (these[0] > chances[0]) continue;
            oddest = l;
            chances = these;
        }
        if (oddest == all.size()) break;
        // once it is taken to be odd, it is so wholly: half an odd flute still pulls
        all[oddest].odd.assign(chances.size(), 0.0);
        all[oddest].odd[all[oddest].unknown + 1] = 1.0;
    }
    return Pooling(all, own).fit();
}

std::vector<OddFlute> odd_ones(const std::vector<Saying>& all, const PoolFit& f,
                               const Eigen::VectorXd& sigma) {
    std::vector<OddFlute> odd;
    for (std::size_t l = 0; l < all.size(); ++l) {
        if (all[l].chance < kOddTold) continue;
        const std::size_t which = all[l].unknown;
        // where it most likely lies, with its scatter as an odd one's
        Table loose = f.between, off = all[l].value;
        loose(which, which) *= kOddScatter * kOddScatter;
        Table spread = loose;
        add(spread, all[l].errors);
        add(off, f.mu, -1.0);
        const double by = product(loose, product(inverse(spread), off))(which, 0);
        const Eigen::Index unknown = static_cast<Eigen::Index>(which);
        odd.push_back({l, unknown, by * sigma(unknown), all[l].chance});
    }
    return odd;
}

// Each place and unknown by the density at no change, before and after (J.M. Dickey, Ann. Math.
// Stat. 42 (1971) 204-223, from memory), and the mean of them all.
std::vector<HabitChange> changes_in(std::vector<Saying> all, double own,
                                    const Eigen::VectorXd& sigma) {
    std::vector<HabitChange> found;
    const std::size_t p = static_cast<std::size_t>(sigma.size());
    double most = 0.0, sum = 0.0, count = 0.0;  // likelihoods over that of no change
    for (Saying& each : all) each.odd.clear();
    for (std::size_t after = kLeastSide; after + kLeastSide <= all.size(); ++after) {
        for (std::size_t l = 0; l < all.size(); ++l) all[l].later = l >= after;
        for (std::size_t n = 0; n < p; ++n) {
            const PoolFit with = Pooling(all, own, n).fit();
            const double apart = with.mu(p, 0), error = std::sqrt(with.covariance(p, p));
            const double said = error / kMostApart * std::exp(0.5 * apart * apart / error / error);
            sum += said;
            count += 1.0;
            if (!(said > most)) continue;
            most = said;
            const Eigen::Index unknown = static_cast<Eigen::Index>(n);
            found = {{after, unknown, apart * sigma(unknown), error * sigma(unknown)}};
        }
    }
    if (!(sum > kChanged * count)) found.clear();
    return found;
}

}  // namespace

Hand pooled(const std::vector<Lesson>& lessons, const Stranger& stranger) {
    std::vector<Saying> all;
    for (const Lesson& lesson : lessons) all.push_back(saying_of(lesson, stranger));
    const PoolFit f = fit_with_odd(all, stranger.own);
    const Eigen::Index p = stranger.mean.size();
    Hand hand{stranger.mean, Eigen::MatrixXd(p, p), Eigen::MatrixXd(p, p), {}, {}, f.converged};
    for (Eigen::Index i = 0; i < p; ++i) {
        const std::size_t row = static_cast<std::size_t>(i);
        hand.mean(i) += stranger.sigma(i) * f.mu(row, 0);
        for (Eigen::Index j = 0; j < p; ++j) {
            const std::size_t col = static_cast<std::size_t>(j);
            const double scale = stranger.sigma(i) * stranger.sigma(j);
            hand.covariance(i, j) = scale * f.covariance(row, col);
            hand.between(i, j) = scale * f.between(row, col);
        }
    }
    hand.odd = odd_ones(all, f, stranger.sigma);
    hand.change = changes_in(all, stranger.own, stranger.sigma);
    return hand;
}

}  // namespace canewright
