// core/layout/octaves.cpp: octaves and their slopes, and the damped walk towards true ones.
#include "core/layout/octaves.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/flute/slope.hpp"
#include "core/layout/step_program.hpp"

namespace canewright {
namespace {

constexpr double kOctaveNudge = 3e-5;        // of a scaled number, as for the notes' slopes
constexpr double kFirstDamping_cents = 0.3;  // of a scaled number, against draw_to's 0.2
constexpr double kMostDamping_cents = 1e3;   // then no step helps that could be seen

// What draws home, the octaves as they are seen from x, and x itself by the damping. Plain loops,
// as in step_program.cpp.
Pull pull_at(const Pull& home, const Eigen::VectorXd& x, const Octaves& octaves, double weight,
             double damping_cents) {
    const Eigen::Index n = x.size(), notes = octaves.cents.size(), all = 2 * n + notes;
    Pull pull{Eigen::MatrixXd::Zero(all, n), Eigen::VectorXd::Zero(all)};
    double* const targets = pull.targets.data();
    for (Eigen::Index k = 0; k < notes; ++k) targets[2 * n + k] = -weight * octaves.cents.data()[k];
    for (Eigen::Index i = 0; i < n; ++i) {
        double* const column = pull.rows.data() + i * all;
        column[i] = home.rows(i, i);
        targets[i] = home.targets(i);
        column[n + i] = damping_cents;
        targets[n + i] = damping_cents * x(i);
        for (Eigen::Index k = 0; k < notes; ++k) {
            column[2 * n + k] = weight * octaves.slopes(k, i);
            targets[2 * n + k] += column[2 * n + k] * x(i);
        }
    }
    return pull;
}

}  // namespace

Octaves Problem::octaves(const Eigen::VectorXd& x, const Sound& sound) {
    const Eigen::Index notes = static_cast<Eigen::Index>(task_.notes.size());
    Octaves octaves{Eigen::VectorXd::Zero(notes), Eigen::MatrixXd::Zero(notes, size())};
    Network here(flute(x), air_);
    std::vector<Network> beside = either_way(x);
    for (Eigen::Index k = 0; k < notes; ++k) {
        const std::size_t note = static_cast<std::size_t>(k);
        const Fingering& open = task_.notes[note].open;
        const double first_Hz = sound.passive_Hz[note];
        here.finger(open);
        here.measure();
        const Resonance second = second_resonance(here, first_Hz);
        evaluations_ += second.evaluations;
        if (!second.found || !second.converged) continue;
        ++octaves.there;
        octaves.cents(k) = cents_between(second.frequency_Hz, 2.0 * first_Hz);
        const Slope low(here, first_Hz), high(here, second.frequency_Hz);
        for (Eigen::Index n = 0; n < size(); ++n) {
            Network& less = beside[static_cast<std::size_t>(2 * n)];
            Network& more = beside[static_cast<std::size_t>(2 * n + 1)];
            less.finger(open);
            more.finger(open);
            octaves.slopes(k, n) =
                (high.cents_between(less, more) - low.cents_between(less, more)) / (2.0 * kNudge);
        }
        evaluations_ += low.evaluations() + high.evaluations();
    }
    return octaves;
}

OctavesWalk octaves_for(const LayoutTask& task) {
    return task.octaves_weight > 0.0 ? walk_by_octaves : nullptr;
}

LayoutTask with_octaves(LayoutTask task) {
    task.octaves = octaves_for(task);
    return task;
}

Walk walk_by_octaves(Problem& problem, const Walk& from, const Flute& home, double weight) {
    const Pull to_home = problem.draw_to(problem.numbers(home));
    Walk w = walk(problem, from.x, to_home, kMostDescents, from);
    if (weight == 0.0 || !w.feasible || !w.sound.speaks || !w.converged) return w;
    const double counts = weight * kOctave;
    const auto cost = [&](const Walk& at, const Octaves& octaves) {
        double sum = counted(at.sound.errors_cents);
        for (const double off : pulled(pull_at(to_home, at.x, octaves, counts, 0.0), at.x))
            sum += off * off;
        return sum;
    };
    Octaves octaves = problem.octaves(w.x, w.sound);
    double now = cost(w, octaves);
    double damping_cents = kFirstDamping_cents;
    for (int turn = 0; turn < kMostTurns && damping_cents < kMostDamping_cents; ++turn) {
        const Walk next = walk(problem, w.x, pull_at(to_home, w.x, octaves, counts, damping_cents),
                               kMostDescents, w);
        double damped = 4.0;  // where it did not help
        if (next.sound.speaks && next.converged) {
            double moved = 0.0;
            for (Eigen::Index i = 0; i < w.x.size(); ++i)
                moved = std::max(moved, std::abs(next.x(i) - w.x(i)));
            if (moved < kOctavesStill) return w;
            const Octaves there = problem.octaves(next.x, next.sound);
            const double then = cost(next, there);
            // one octave less is none the truer
            if (then < now && there.there >= octaves.there) {
                w = next;
                octaves = there;
                now = then;
                damped = 0.3;
            }
        }
        damping_cents *= damped;
    }
    w.converged = damping_cents >= kMostDamping_cents;
    return w;
}

}  // namespace canewright
