// core/bench/belief/evidence.cpp: Gauss-Newton with a prior; readings that do not fit are left out.
#include "core/bench/belief/evidence.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/bench/belief/note_model.hpp"
#include "core/bench/belief/readings.hpp"
#include "core/bench/weigh.hpp"

namespace canewright {
namespace {

constexpr int kMostTrips = 6;    // of linearising anew
constexpr double kStill = 0.02;  // of a standard deviation

// The offsets that a reading has besides the flute's: of its fingering, and of its sitting where
// that has more than one; -1 for none.
struct Offsets {
    std::vector<Eigen::Index> fingering, sitting;
};

Offsets offsets_of(const History& history, Prior& prior) {
    const std::vector<Heard>& heard = history.heard;
    const std::vector<int> sitting = sittings(history);
    Offsets own;
    for (std::size_t i = 0; i < heard.size(); ++i) {
        std::size_t same = 0;
        while (heard[same].open != heard[i].open) ++same;
        own.fingering.push_back(same < i ? own.fingering[same] : prior.fingerings++);
        const bool second = i > 0 && sitting[i - 1] == sitting[i];
        const bool first = i + 1 < heard.size() && sitting[i + 1] == sitting[i];
        own.sitting.push_back(second ? own.sitting.back() : first ? prior.sittings++ : -1);
    }
    return own;
}

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
void linearise(const History& history, const Eigen::VectorXd& all_u, const Offsets& offsets,
               std::vector<Shared>& shared, std::vector<Modelled>& all) {
    const Eigen::VectorXd u = all_u.head(kCommonUnknowns + history.cuttings);
    const Eigen::Index at_sittings =
        offsets.fingering.empty()
            ? 0
            : u.size() + 1 + *std::max_element(offsets.fingering.begin(), offsets.fingering.end());
    const bool first = all.empty();
    std::vector<bool> fresh(shared.size(), first);
    all.resize(history.heard.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        const Heard& heard = history.heard[i];
        Modelled& m = all[i];
        m.noted_variance = reading_variance(heard);
        m.alone = offsets.sitting[i] < 0;
        if (first) m.slope = Eigen::VectorXd::Zero(all_u.size());
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
        const Eigen::Index own = u.size() + offsets.fingering[i];
        const Eigen::Index moment = offsets.sitting[i] < 0 ? -1 : at_sittings + offsets.sitting[i];
        if (first) m.slope.head(u.size()) = s.note.slope;
        m.slope(own) = 1.0;
        if (moment >= 0) m.slope(moment) = 1.0;
        m.slope(kDrift) = heard.above_cents / kCentsPerOctave;
        m.off_cents =
            cents_between(heard.frequency_Hz, s.note.frequency_Hz * c / s.sound_speed_m_s) -
            drift_cents(u, heard.above_cents) - all_u(own) - (moment >= 0 ? all_u(moment) : 0.0);
    }
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

// What is left of a bore, a wall, a hole or the speed of sound, whatever a step of the fit
// proposes: a fifth.
constexpr double kLeastPart = -0.8;

}  // namespace

std::vector<Habit> known_maker() { return {Habit{}}; }

std::vector<Habit> unknown_maker() {
    std::vector<Habit> makers;
    for (const double m : {-2.0, -1.0, 0.0, 1.0, 2.0})
        for (const double h : {-1.0, 0.0, 1.0, 2.0})
            makers.push_back({kMoment_cents * std::exp(m * kMomentSpread),
                              kHands * std::exp(h * kHandsSpread),
                              std::exp(-0.5 * (m * m + h * h))});
    return makers;
}

Wider wider(const Estimate& estimate) {
    if (estimate.habit.moment_cents > kWider * estimate.usual.moment_cents) return Wider::moment;
    return estimate.habit.hands > kWider * estimate.usual.hands ? Wider::hands : Wider::none;
}

Estimate estimate(const History& history, const Belief& before, const std::vector<Habit>& makers) {
    const Eigen::Index count = kCommonUnknowns + history.cuttings;
    Prior prior{before.covariance.inverse(), cut_sigmas_m(history)};
    const Offsets offsets = offsets_of(history, prior);
    Eigen::VectorXd start = Eigen::VectorXd::Zero(prior.size());
    start.head(kCommonUnknowns) = before.mean;

    Estimate e;
    e.before = before;
    e.usual = e.habit = usual_of(makers);
    Eigen::VectorXd u = start;
    std::vector<Shared> shared;
    std::vector<Modelled> readings;
    for (int trip = 0; trip < kMostTrips && !e.converged; ++trip) {
        linearise(history, u, offsets, shared, readings);
        const Eigen::VectorXd from_prior = u - start;
        const Eigen::VectorXd weight = trusted(readings, prior, from_prior, makers, e.habit);
        const Weighed all = weigh(readings, weight, prior, from_prior, makers);
        e.habit = all.habit;
        take_moment(readings, e.habit.moment_cents);
        // the mixture's mean and covariance
        Fit f{Eigen::VectorXd::Zero(u.size()), Eigen::MatrixXd::Zero(u.size(), u.size()), 0.0};
        for (std::size_t k = 0; k < makers.size(); ++k) f.step += all.share[k] * all.fits[k].step;
        for (std::size_t k = 0; k < makers.size(); ++k) {
            const Eigen::VectorXd apart = all.fits[k].step - f.step;
            f.covariance += all.share[k] * (all.fits[k].covariance + apart * apart.transpose());
        }
        e.verdicts.clear();
        for (std::size_t i = 0; i < readings.size(); ++i) {
            const double w = weight(static_cast<Eigen::Index>(i));
            Verdict v;
            if (readings[i].counts) v = verdict(readings[i], w, f);
            v.trusted = readings[i].counts && w > 0.0;
            e.verdicts.push_back(v);
        }
        u += f.step;
        for (const Eigen::Index part : {kSoundHole, kSoundSpeed, kBore, kWall, kHoles})
            u(part) = std::max(u(part), kLeastPart);
        e.belief.covariance = f.covariance.topLeftCorner(count, count);
        // standing still: no unknown moves by a fiftieth of what is still not known of it
        e.converged =
            (f.step.cwiseAbs2().array() < kStill * kStill * f.covariance.diagonal().array()).all();
    }
    e.belief.mean = u.head(count);
    return e;
}

}  // namespace canewright
