// core/bench/evidence.cpp: Gauss-Newton with a prior, leaving out what does not fit.
#include "core/bench/evidence.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/bench/note_model.hpp"

namespace canewright {
namespace {

constexpr int kMostTrips = 12;
constexpr double kLeastCutSigma_m = 1e-6;  // nothing is cut truer than this
// A reading's model: cents above a fixed reference, and its slope to every unknown.
struct Modelled {
    double off_cents = 0.0;  // heard above modelled
    Eigen::VectorXd slope;   // d modelled / d unknown
    bool speaks = false;
};

// Cents of a reading's note above the lowest note of a tube of the present foot, for the drift.
double above_lowest_cents(const History& history, const Heard& heard) {
    double lowest_Hz = heard.frequency_Hz;
    for (const Heard& other : history.heard)
        if (other.open.empty()) lowest_Hz = std::min(lowest_Hz, other.frequency_Hz);
    return std::clamp(cents_between(heard.frequency_Hz, lowest_Hz), 0.0, 1500.0);
}

Modelled model(const History& history, const Heard& heard, const Eigen::VectorXd& u) {
    const NoteModel note = note_model(history, history.stages[heard.stage], heard.open,
                                      heard.room_C, u, above_lowest_cents(history, heard));
    Modelled m;
    m.slope = note.slope;
    m.speaks = note.speaks;
    if (note.speaks) m.off_cents = cents_between(heard.frequency_Hz, note.frequency_Hz);
    return m;
}

double reading_variance(const Heard& heard) {
    return heard.sigma_cents * heard.sigma_cents + kModelSigma_cents * kModelSigma_cents;
}

// Standard deviation of each cut's offset before any reading [m].
Eigen::VectorXd cut_sigmas_m(const History& history) {
    Eigen::VectorXd sigma = Eigen::VectorXd::Constant(history.cuttings, kLeastCutSigma_m);
    const auto know = [&sigma](int cutting, double sigma_m) {
        if (cutting >= 0 && cutting < sigma.size())
            sigma(cutting) = std::max(sigma(cutting), sigma_m);
    };
    for (const Stage& stage : history.stages) {
        know(stage.foot_cutting, stage.foot_sigma_m);
        for (const HoleNow& hole : stage.holes)
            if (hole.cut) know(hole.cutting, hole.size_sigma_m);
    }
    return sigma;
}

}  // namespace

Estimate estimate(const History& history, const Belief& before) {
    const Eigen::Index count = kCommonUnknowns + history.cuttings;
    Belief start;
    start.mean = Eigen::VectorXd::Zero(count);
    start.mean.head(kCommonUnknowns) = before.mean;
    start.covariance = Eigen::MatrixXd::Zero(count, count);
    start.covariance.topLeftCorner(kCommonUnknowns, kCommonUnknowns) = before.covariance;
    start.covariance.diagonal().tail(history.cuttings) = cut_sigmas_m(history).cwiseAbs2();
    const Eigen::MatrixXd prior_precision = start.covariance.inverse();

    Estimate e;
    e.verdicts.resize(history.heard.size());
    for (std::size_t i = 0; i < history.heard.size(); ++i)
        e.verdicts[i].trusted = !history.heard[i].voice_moved_since;

    // Fit the trusted; leave out the one that fits worst; again, until all that are left fit.
    Eigen::VectorXd u = start.mean;
    for (std::size_t round = 0; round <= history.heard.size(); ++round) {
        std::vector<Modelled> modelled(history.heard.size());
        Eigen::MatrixXd precision;
        for (int trip = 0; trip < kMostTrips; ++trip) {
            precision = prior_precision;
            Eigen::VectorXd pull = prior_precision * (start.mean - u);
            for (std::size_t i = 0; i < history.heard.size(); ++i) {
                if (history.heard[i].voice_moved_since) continue;
                modelled[i] = model(history, history.heard[i], u);
                if (!e.verdicts[i].trusted || !modelled[i].speaks) continue;
                const double weight = 1.0 / reading_variance(history.heard[i]);
                precision += weight * modelled[i].slope * modelled[i].slope.transpose();
                pull += weight * modelled[i].off_cents * modelled[i].slope;
            }
            const Eigen::VectorXd step = precision.ldlt().solve(pull);
            u += step;
            // standing still: no unknown moves by a hundredth of its own uncertainty
            e.converged =
                ((step.cwiseAbs2().array() * prior_precision.diagonal().array()) < 1e-8).all();
            if (e.converged) break;
        }
        e.belief.mean = u;
        e.belief.covariance = precision.inverse();

        std::size_t worst = history.heard.size();
        double worst_ratio = kSuspicious;
        for (std::size_t i = 0; i < history.heard.size(); ++i) {
            const Modelled& m = modelled[i];
            Verdict& v = e.verdicts[i];
            if (history.heard[i].voice_moved_since || !m.speaks) continue;
            const double own = reading_variance(history.heard[i]);
            const double known = m.slope.dot(e.belief.covariance * m.slope);
            // left out of the fit: its own weight is taken back (leverage known / own)
            const double leverage = v.trusted ? std::min(known / own, 0.999) : 0.0;
            v.off_cents = m.off_cents / (1.0 - leverage);
            v.sigma_cents = v.trusted ? std::sqrt(own / (1.0 - leverage)) : std::sqrt(own + known);
            const double ratio = std::abs(v.off_cents) / v.sigma_cents;
            if (v.trusted && ratio > worst_ratio && std::abs(v.off_cents) > kSuspicious_cents)
                worst = i, worst_ratio = ratio;
        }
        if (worst == history.heard.size()) break;
        e.verdicts[worst].trusted = false;
        u = start.mean;
    }
    return e;
}

}  // namespace canewright
