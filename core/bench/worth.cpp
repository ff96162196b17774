// core/bench/worth.cpp: loss of a Gaussian belief, and one step ahead.
#include "core/bench/worth.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

#include "core/base/units.hpp"

namespace canewright {
namespace {

// Nodes and weights of Gauss and Hermite for a standard normal (tables).
constexpr std::array<double, 5> kNodes = {-2.856970013872806, -1.355626179974266, 0.0,
                                          1.355626179974266, 2.856970013872806};
constexpr std::array<double, 5> kWeights = {0.011257411327721, 0.222075922005613, 0.533333333333333,
                                            0.222075922005613, 0.011257411327721};

// Of a normal variable the mean square of what lies above a limit.
double square_above(double mean, double sigma, double limit) {
    const double over = mean - limit;
    if (!(sigma > 1e-9)) return over > 0.0 ? over * over : 0.0;
    const double z = over / sigma;
    const double chance = 0.5 * std::erfc(-z / std::sqrt(2.0));
    const double density = std::exp(-0.5 * z * z) / std::sqrt(2.0 * kPi);
    return std::max(0.0, (over * over + sigma * sigma) * chance + over * sigma * density);
}

// How many notes lie beyond a tolerance, either way, on average: little more than the chance of
// one.
double notes_beyond(const NotesNow& notes, double cents) {
    double sum = 0.0;
    for (Eigen::Index n = 0; n < notes.mean.size(); ++n) {
        const double root = std::sqrt(2.0 * std::max(notes.covariance(n, n), 1e-18));
        sum += 0.5 * (std::erfc((cents - notes.mean(n)) / root) +
                      std::erfc((cents + notes.mean(n)) / root));
    }
    return sum;
}

double minute_worth(double good_enough_cents) {
    const double ratio = good_enough_cents / kUsualFinish_cents;
    return kWorthOfMinute * ratio * ratio;
}

// The least loss that an opening or leaving it comes to, minutes included.
double best_without_reading(const NotesNow& notes, const Work& work, double minute) {
    double least = loss(notes);
    for (std::size_t n = 0; n < work.may_open.size(); ++n) {
        if (!work.may_open[n] || notes.mean(static_cast<Eigen::Index>(n)) > -kUnnoticed_cents)
            continue;
        least = std::min(least, loss(after_opening(notes, n, work)) + kOpenMinutes * minute);
    }
    return least;
}

// The worst note of each draw, [cents].
std::vector<double> worst_of_draws(const NotesNow& notes) {
    const Eigen::Index count = notes.mean.size();
    const Eigen::MatrixXd jitter = 1e-9 * Eigen::MatrixXd::Identity(count, count);
    const Eigen::MatrixXd root = Eigen::LLT<Eigen::MatrixXd>(notes.covariance + jitter).matrixL();
    // a linear congruential generator (D.E. Knuth's constants) and Box & Muller 1958
    std::uint64_t state = 1;
    const auto uniform = [&state] {
        state = state * 6364136223846793005ULL + 1442695040888963407ULL;
        return (static_cast<double>(state >> 11) + 0.5) / 9007199254740992.0;
    };
    std::vector<double> worst(kDraws);
    Eigen::VectorXd draw(count);
    for (double& each : worst) {
        for (Eigen::Index n = 0; n < count; ++n)
            draw(n) = std::sqrt(-2.0 * std::log(uniform())) * std::cos(2.0 * kPi * uniform());
        each = (notes.mean + root * draw).cwiseAbs().maxCoeff();
    }
    return worst;
}

double share_within(const std::vector<double>& worst, double cents) {
    const auto inside =
        std::count_if(worst.begin(), worst.end(), [cents](double each) { return each <= cents; });
    return static_cast<double>(inside) / kDraws;
}

}  // namespace

double shared_error(double known_cents, double moment_cents) {
    const double both = std::hypot(known_cents, moment_cents);
    return both > 0.0 ? known_cents * moment_cents / both : 0.0;
}

double loss(const NotesNow& notes) {
    const Eigen::Index count = notes.mean.size();
    // each note less a part of what all share
    const Eigen::MatrixXd part =
        Eigen::MatrixXd::Identity(count, count) -
        Eigen::MatrixXd::Constant(count, count, (1.0 - kSharedShare) / static_cast<double>(count));
    const Eigen::VectorXd mean = part * notes.mean;
    const Eigen::MatrixXd spread = part * notes.covariance;
    double sum = 0.0;
    for (Eigen::Index n = 0; n < count; ++n) {
        const double sigma = std::sqrt(std::max(0.0, spread.row(n).dot(part.row(n))));
        sum += square_above(mean(n), sigma, kUnnoticed_cents) +
               square_above(-mean(n), sigma, kUnnoticed_cents);
    }
    return sum;
}

NotesNow after_opening(NotesNow notes, std::size_t note, const Work& work) {
    const Eigen::Index n = static_cast<Eigen::Index>(note);
    const double sigma = std::hypot(
        work.stop_sigma, shared_error(std::sqrt(notes.covariance(n, n)), work.moment_cents));
    notes.mean(n) = work.stop_cents[note];
    notes.covariance.row(n).setZero();
    notes.covariance.col(n).setZero();
    notes.covariance(n, n) = sigma * sigma;
    return notes;
}

NotesNow after_reading(NotesNow notes, std::size_t note, const Work& work) {
    const Eigen::Index n = static_cast<Eigen::Index>(note);
    const Eigen::VectorXd with = notes.covariance.col(n);
    notes.covariance -= with * with.transpose() / (with(n) + work.read_sigma * work.read_sigma);
    return notes;
}

std::optional<Deed> best_deed(const NotesNow& notes, const Work& work, double good_enough_cents) {
    const double minute = minute_worth(good_enough_cents);
    const double as_it_is = loss(notes);
    const double without = best_without_reading(notes, work, minute);
    std::optional<Deed> best;
    const auto offer = [&best](Deed::What what, std::size_t note, double gain) {
        if (gain > 0.0 && (!best || gain > best->gain)) best = Deed{what, note, gain};
    };
    for (std::size_t n = 0; n < work.may_read.size(); ++n) {
        if (!work.may_read[n]) continue;
        NotesNow after = after_reading(notes, n, work);
        const Eigen::VectorXd with = notes.covariance.col(static_cast<Eigen::Index>(n));
        const Eigen::VectorXd moved = with / std::sqrt(with(static_cast<Eigen::Index>(n)) +
                                                       work.read_sigma * work.read_sigma);
        double expected = 0.0;
        for (std::size_t k = 0; k < kNodes.size(); ++k) {
            after.mean = notes.mean + kNodes[k] * moved;
            expected += kWeights[k] * best_without_reading(after, work, minute);
        }
        // what it gains over the best that can be chosen now
        offer(Deed::What::read, n, without - expected - kReadMinutes * minute);
    }
    for (std::size_t n = 0; n < work.may_open.size(); ++n) {
        if (!work.may_open[n] || notes.mean(static_cast<Eigen::Index>(n)) > -kUnnoticed_cents)
            continue;
        offer(Deed::What::open, n,
              as_it_is - loss(after_opening(notes, n, work)) - kOpenMinutes * minute);
    }
    return best;
}

double probably_within_cents(const NotesNow& notes) {
    std::vector<double> worst = worst_of_draws(notes);
    const auto at = worst.begin() + static_cast<std::ptrdiff_t>(kProbably * kDraws);
    std::nth_element(worst.begin(), at, worst.end());
    return *at;
}

double chance_within(const NotesNow& notes, double cents) {
    return share_within(worst_of_draws(notes), cents);
}

std::optional<Deed> next_deed(const NotesNow& notes, const Work& work, const Finish& finish) {
    const double tolerance_cents = std::max(finish.tolerance_cents, finish.good_enough_cents);
    const std::vector<double> worst = worst_of_draws(notes);
    const bool safe = share_within(worst, tolerance_cents) >= 1.0 - finish.risk;
    if (safe && share_within(worst, finish.good_enough_cents) >= kProbably) return std::nullopt;
    if (const auto deed = best_deed(notes, work, finish.good_enough_cents)) return deed;
    if (safe) return std::nullopt;
    const double as_it_is = notes_beyond(notes, tolerance_cents);
    std::optional<Deed> best;
    double most = kReadMinutes / kFluteMinutes;
    const auto offer = [&](Deed::What what, std::size_t note, const NotesNow& after) {
        const double fewer = as_it_is - notes_beyond(after, tolerance_cents);
        if (fewer > most) most = fewer, best = Deed{what, note};
    };
    for (std::size_t n = 0; n < work.checks_left.size(); ++n)
        if (work.may_read[n] && work.checks_left[n] > 0)
            offer(Deed::What::read, n, after_reading(notes, n, work));
    if (best) return best;
    most = kNarrowMinutes / kFluteMinutes;
    for (std::size_t n = 0; n < work.may_narrow.size(); ++n)
        if (work.may_narrow[n] && notes.mean(static_cast<Eigen::Index>(n)) > 0.0)
            offer(Deed::What::narrow, n, after_opening(notes, n, work));
    return best;
}

int deeds_left(NotesNow notes, Work work, const Finish& finish) {
    int steps = 0;
    for (int count = 0; count < kMostDeeds; ++count) {
        const std::optional<Deed> deed = next_deed(notes, work, finish);
        if (!deed) break;
        const bool read = deed->what == Deed::What::read;
        steps += deed->what == Deed::What::narrow ? kStepsOfNarrowing : 1;
        notes =
            read ? after_reading(notes, deed->note, work) : after_opening(notes, deed->note, work);
        if (read && !work.checks_left.empty()) --work.checks_left[deed->note];
    }
    return steps;
}

}  // namespace canewright
