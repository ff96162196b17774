// core/bench/evidence.cpp: Gauss-Newton with a prior; readings that do not fit are left out.
#include "core/bench/evidence.hpp"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/bench/note_model.hpp"

namespace canewright {
namespace {

constexpr int kMostTrips = 6;    // of linearising anew
constexpr int kMostRounds = 30;  // of weighing, on one linearisation
constexpr double kTailFreedom = 3.0;
constexpr double kStill = 0.02;  // of a standard deviation

// A reading's model: cents above what the unknowns give, and the slope to every unknown.
struct Modelled {
    double off_cents = 0.0;  // heard above modelled
    double variance = 1.0;   // of the reading and the model
    Eigen::VectorXd slope;   // d modelled / d unknown
    bool counts = false;     // of this voice, and it speaks
};

// A fit on one linearisation, as a step away from where that was made.
struct Fit {
    Eigen::VectorXd step;
    Eigen::MatrixXd covariance;
};

double reading_variance(const Heard& heard) {
    return heard.sigma_cents * heard.sigma_cents + kModelSigma_cents * kModelSigma_cents;
}

// Readings of the same fingering at the same stage share one model: a frequency goes with the
// speed of sound, so that a room some degrees warmer needs no other (within 0.1 cent).
struct Shared {
    std::size_t stage = 0;
    Fingering open;
    double sound_speed_m_s = 0.0;
    NoteModel note;  // as if it were the lowest: without the breath's lift
};

// Slopes are taken at the first call and kept: they change by a few hundredths over what a belief
// moves, while the distance to be explained is computed anew each time.
void linearise(const History& history, const Eigen::VectorXd& u, std::vector<Shared>& shared,
               std::vector<Modelled>& all) {
    const bool first = all.empty();
    std::vector<bool> fresh(shared.size(), first);
    all.resize(history.heard.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        const Heard& heard = history.heard[i];
        Modelled& m = all[i];
        m.variance = reading_variance(heard);
        if (first) m.slope = Eigen::VectorXd::Zero(u.size());
        if (heard.voice_moved_since) continue;
        const double c = air_with_unknowns(history, heard.room_C, u).sound_speed_m_s;
        auto same = std::find_if(shared.begin(), shared.end(), [&heard](const Shared& s) {
            return s.stage == heard.stage && s.open == heard.open;
        });
        const std::size_t n = static_cast<std::size_t>(same - shared.begin());
        const Stage& stage = history.stages[heard.stage];
        if (same == shared.end()) {
            shared.push_back(
                {heard.stage, heard.open, c,
                 note_model(history, stage, heard.open, heard.room_C, u, 0.0, heard.frequency_Hz)});
            fresh.push_back(true);
        } else if (!fresh[n]) {
            same->sound_speed_m_s = c;
            same->note.frequency_Hz =
                note_Hz(history, stage, heard.open, heard.room_C, u, 0.0, same->note.frequency_Hz);
            fresh[n] = true;
        }
        const Shared& s = shared[n];
        m.counts = s.note.speaks;
        if (!m.counts) continue;
        if (first) m.slope = s.note.slope;
        m.slope(kDrift) = heard.above_cents / kCentsPerOctave;
        m.off_cents =
            cents_between(heard.frequency_Hz, s.note.frequency_Hz * c / s.sound_speed_m_s) -
            drift_cents(u, heard.above_cents);
    }
}

Fit fit(const std::vector<Modelled>& readings, const Eigen::VectorXd& weight,
        const Eigen::MatrixXd& prior_precision, const Eigen::VectorXd& from_prior) {
    Eigen::MatrixXd precision = prior_precision;
    Eigen::VectorXd pull = -prior_precision * from_prior;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const double w = weight(static_cast<Eigen::Index>(i)) / readings[i].variance;
        if (!readings[i].counts || w == 0.0) continue;
        precision += w * readings[i].slope * readings[i].slope.transpose();
        pull += w * readings[i].off_cents * readings[i].slope;
    }
    Fit f;
    f.covariance = precision.inverse();
    f.step = f.covariance * pull;
    return f;
}

// A reading against all the others: its own weight in the fit is taken back.
Verdict verdict(const Modelled& m, double weight, const Fit& f) {
    const double known = m.slope.dot(f.covariance * m.slope);
    const double leverage = std::min(weight * known / m.variance, 0.999);
    Verdict v;
    v.off_cents = (m.off_cents - m.slope.dot(f.step)) / (1.0 - leverage);
    v.sigma_cents = std::sqrt(m.variance + known / (1.0 - leverage));
    return v;
}

bool fits(const Verdict& v) {
    return std::abs(v.off_cents) <= kSuspicious_cents ||
           std::abs(v.off_cents) <= kSuspicious * v.sigma_cents;
}

// Weights 1 and 0: which readings belong together. First a fit in which far ones hardly pull, so
// that the many outvote the one; then a plain one in which whoever fits all others is let in.
Eigen::VectorXd trusted(const std::vector<Modelled>& readings, const Eigen::MatrixXd& precision,
                        const Eigen::VectorXd& from_prior) {
    const Eigen::Index count = static_cast<Eigen::Index>(readings.size());
    Eigen::VectorXd weight = Eigen::VectorXd::Ones(count);
    if (count == 0) return weight;
    for (int round = 0; round < kMostRounds; ++round) {
        const Fit f = fit(readings, weight, precision, from_prior);
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
    const Fit tolerant = fit(readings, weight, precision, from_prior);
    for (Eigen::Index i = 0; i < count; ++i)
        weight(i) =
            fits(verdict(readings[static_cast<std::size_t>(i)], weight(i), tolerant)) ? 1.0 : 0.0;
    for (int round = 0; round < kMostRounds; ++round) {  // one change a round, the clearest first
        const Fit f = fit(readings, weight, precision, from_prior);
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

// Standard deviation of each cut's offset before any reading [m].
Eigen::VectorXd cut_sigmas_m(const History& history) {
    Eigen::VectorXd sigma = Eigen::VectorXd::Constant(history.cuttings, kLeastError_m);
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
    e.before = before;
    Eigen::VectorXd u = start.mean;
    std::vector<Shared> shared;
    std::vector<Modelled> readings;
    for (int trip = 0; trip < kMostTrips && !e.converged; ++trip) {
        linearise(history, u, shared, readings);
        const Eigen::VectorXd from_prior = u - start.mean;
        const Eigen::VectorXd weight = trusted(readings, prior_precision, from_prior);
        const Fit f = fit(readings, weight, prior_precision, from_prior);
        e.verdicts.clear();
        for (std::size_t i = 0; i < readings.size(); ++i) {
            const double w = weight(static_cast<Eigen::Index>(i));
            Verdict v;
            if (readings[i].counts) v = verdict(readings[i], w, f);
            v.trusted = readings[i].counts && w > 0.0;
            e.verdicts.push_back(v);
        }
        u += f.step;
        e.belief.covariance = f.covariance;
        // standing still: no unknown moves by a fiftieth of what is still not known of it
        e.converged =
            (f.step.cwiseAbs2().array() < kStill * kStill * f.covariance.diagonal().array()).all();
    }
    e.belief.mean = u;
    return e;
}

}  // namespace canewright
