// core/layout/gauss_newton.cpp: steps of a quadratic program, halved until they help.
#include "core/layout/gauss_newton.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/layout/step_program.hpp"

namespace canewright {
namespace {

constexpr double kLongestStep = 1.0;  // of a scaled number: a bore along, a fifth of it in size
// Of a scaled number (a bore, or a fifth of it): then the answer stands still, to a nanometre.
constexpr double kSmallestStep = 1e-7;
// A step that is no more than this is not looked at: it has come to what rounding makes of it.
constexpr double kNoStep = 1e-8;
// A step that cannot be shortened until it helps is rounding below this; above it the walk has
// come to where notes stop speaking, and has not arrived.
constexpr double kRoundingStep = 1e-5;
constexpr int kMostHalvings = 10;
// Below this step the slopes are as good as they get: the last steps, to the last digit, use them
// again (and cost a tenth).
constexpr double kSlopesKeep = 1e-4;
// Such a step from slopes taken no further off ends a walk, and is not looked at: how the notes
// bend on it (some cents for a whole bore squared) is less than a millionth of a cent.
constexpr double kBySlopes = 1e-3;
constexpr double kDamping = 2e-3;
constexpr double kInValley_cents = 1.0;
constexpr int kMostFailed = 3;  // steps of which not even a thousandth helps
constexpr int kMostIdle = 3;    // such steps that no longer lower the cost

// Where the slopes have the resonances after a step.
std::vector<double> ahead(const Sound& sound, const Eigen::MatrixXd& slopes,
                          const Eigen::VectorXd& step) {
    std::vector<double> near_Hz = sound.passive_Hz;
    for (Eigen::Index k = 0; k < slopes.rows(); ++k) {
        double moved_cents = 0.0;
        for (Eigen::Index i = 0; i < step.size(); ++i) moved_cents += slopes(k, i) * step(i);
        double& f_Hz = near_Hz[static_cast<std::size_t>(k)];
        f_Hz = shifted_Hz(f_Hz, std::clamp(moved_cents, -kNearest_cents, kNearest_cents));
    }
    return near_Hz;
}

// Where a step so small leads, as the slopes have it.
void take_by_slopes(Walk& w, const Eigen::VectorXd& step) {
    Sound& sound = w.sound;
    for (Eigen::Index k = 0; k < w.slopes.rows(); ++k) {
        double moved_cents = 0.0;
        for (Eigen::Index i = 0; i < step.size(); ++i) moved_cents += w.slopes(k, i) * step(i);
        const std::size_t note = static_cast<std::size_t>(k);
        sound.errors_cents(k) += moved_cents;
        sound.frequency_Hz[note] = shifted_Hz(sound.frequency_Hz[note], moved_cents);
        sound.passive_Hz[note] = shifted_Hz(sound.passive_Hz[note], moved_cents);
        sound.beside_Hz[note] = 0.0;  // of the flute before
    }
    w.x += step;
    w.since_slopes += largest(step);
}

bool in_valley(const Walk& w) { return w.errors_cents() < kInValley_cents; }

// But for the rounding of going through metres.
bool same(const Eigen::VectorXd& one, const Eigen::VectorXd& other) {
    return largest(one - other) < 1e-10;
}

// From a flute in tune that some walls leave out, the way in and the first step at once; false
// where that comes to nothing.
bool step_in(Problem& problem, const Eigen::VectorXd& start, const Pull& pull, const Walk& near,
             Walk& w) {
    if (near.slopes.cols() != start.size() || !same(start, near.x) || same(w.x, start) ||
        !in_valley(near))
        return false;
    Sound from = near.sound;  // by this problem's own aims
    from.errors_cents = problem.errors_cents(from.frequency_Hz);
    QuadraticProgram step;
    fill(step, start, from, near.slopes, pull);
    set_bounds(step, problem, start, kLongestStep);
    const QuadraticSolution s = solve(step);
    if (!s.converged) return false;
    Sound sound = problem.sound(start + s.x, ahead(near.sound, near.slopes, s.x), false,
                                near.sound.cents_per_rad, near.sound.counted);
    if (!sound.speaks || sound.errors_cents.norm() > kFarOff_cents) return false;
    w.x = start + s.x;
    w.sound = std::move(sound);
    return true;
}

}  // namespace

double counted_cents(const Eigen::VectorXd& errors_cents) {
    return std::sqrt(counted(errors_cents));
}

double linear_errors_cents(const Problem& problem, const Eigen::VectorXd& x, const Sound& sound,
                           const Eigen::MatrixXd& slopes, double length_m) {
    QuadraticProgram step;
    fill(step, x, sound, slopes, problem.stay_near(x, length_m));
    set_bounds(step, problem, x, 0.0);
    const QuadraticSolution s = solve(step);
    if (!s.feasible) return kNoLimit;
    double squares = 0.0;
    for (Eigen::Index k = 0; k < slopes.rows(); ++k) {
        double left = sound.errors_cents(k);
        for (Eigen::Index i = 0; i < x.size(); ++i) left += slopes(k, i) * s.x(i);
        squares += left * left;
    }
    return std::sqrt(squares);
}

Walk walk(Problem& problem, const Eigen::VectorXd& start, const Pull& pull, int most_steps,
          const Walk& near, double enough) {
    Walk w;
    w.x = start;
    const Eigen::Index n = problem.size();
    const auto cost = [&](const Eigen::VectorXd& x, const Sound& s) {
        return counted(s.errors_cents) + pulled(pull, x).squaredNorm();
    };

    const Eigen::Index walls = problem.wall_rows().rows();
    QuadraticProgram step;
    double reach = kLongestStep;

    // Into the walls first: the nearest numbers that respect them all.
    step.hessian = Eigen::MatrixXd::Identity(n, n);
    step.gradient = Eigen::VectorXd::Zero(n);
    constexpr double kAnywhere = 1e3;
    set_bounds(step, problem, w.x, kAnywhere);
    const QuadraticSolution inside = solve(step);
    if (!inside.feasible) return w;
    w.feasible = true;
    w.x += inside.x;
    if (step_in(problem, start, pull, near, w)) {
        // and on from there
    } else if (n > 0 && near.slopes.cols() == n && w.x == near.x) {
        w.sound = near.sound;
        w.sound.errors_cents = problem.errors_cents(near.sound.frequency_Hz);
        w.slopes = near.slopes;
        w.since_slopes = near.since_slopes;
    } else {
        w.sound = problem.sound(w.x, near.sound.passive_Hz, false, near.sound.cents_per_rad,
                                near.sound.counted);
        // followed, a note that has gone is not looked for
        if (!w.sound.speaks) w.sound = problem.sound(w.x, near.sound.passive_Hz);
    }
    if (!w.sound.speaks) return w;

    double now = cost(w.x, w.sound);
    double damping = 0.0;  // of the mean stiffness
    int idle = 0, failed = 0;
    const Eigen::MatrixXd& slopes = w.slopes;
    for (w.steps = 1; w.steps <= most_steps; ++w.steps) {
        if (problem.spent()) return w;
        const bool was_in_valley = in_valley(w);
        if (w.since_slopes > (was_in_valley ? std::max(enough, kSlopesKeep) : kSlopesKeep)) {
            w.slopes = problem.slopes(w.x, w.sound);
            w.since_slopes = 0.0;
        }
        fill(step, w.x, w.sound, slopes, pull);
        double stiffness = 0.0;
        for (Eigen::Index k = 0; k < n; ++k)
            stiffness += step.hessian(k, k) / static_cast<double>(n);
        for (Eigen::Index k = 0; k < n; ++k) step.hessian(k, k) += damping * stiffness;
        set_bounds(step, problem, w.x, reach);
        const QuadraticSolution s = solve(step);
        if (!s.converged) return w;

        w.active.clear();
        for (int row : s.active)
            if (row < walls) w.active.push_back(row);
        const double size = largest(s.x);
        if (size < kNoStep) {
            w.converged = true;
            return w;
        }
        if (size < kSlopesKeep && w.since_slopes < kBySlopes && w.errors_cents() < kFarOff_cents) {
            take_by_slopes(w, s.x);
            w.converged = true;
            return w;
        }
        if (size < kSlopesKeep && enough > 0.0 && was_in_valley && w.steps > 1) return w;
        bool helped = false, taken = false;
        double share = 1.0;
        for (int halving = 0; halving <= kMostHalvings; ++halving, share *= 0.5) {
            if (problem.spent()) break;
            Eigen::VectorXd x = w.x + share * s.x;
            Sound sound =
                problem.sound(x, ahead(w.sound, slopes, share * s.x), false, w.sound.cents_per_rad);
            if (!sound.speaks) continue;
            sound.cents_per_rad = w.sound.cents_per_rad;
            double then = cost(x, sound);
            if (!(then <= now) && share * size > kSlopesKeep) {
                // Along a bent valley of flutes in tune a straight step leads out of it: back in by
                // the same slopes (a second-order correction), before it is shortened.
                QuadraticProgram back;
                fill(back, x, sound, slopes, {Eigen::MatrixXd::Identity(n, n), x});
                set_bounds(back, problem, x, reach);
                const QuadraticSolution b = solve(back);
                if (b.converged) {
                    x += b.x;
                    sound =
                        problem.sound(x, ahead(sound, slopes, b.x), false, w.sound.cents_per_rad);
                    if (!sound.speaks) continue;
                    sound.cents_per_rad = w.sound.cents_per_rad;
                    then = cost(x, sound);
                }
            }
            if (!(then <= now)) continue;
            helped = then < now * (1.0 - 1e-7);
            taken = true;
            w.since_slopes += largest(x - w.x);
            w.x = x;
            w.sound = std::move(sound);
            now = then;
            break;
        }
        idle = helped || size > kSlopesKeep ? 0 : idle + 1;
        if (size < kSmallestStep || idle > kMostIdle) {
            w.converged = true;
            return w;
        }
        if (taken && was_in_valley && share * size < enough) return w;
        if (!taken && (size < kRoundingStep || ++failed > kMostFailed)) {
            w.converged = size < kRoundingStep;
            return w;
        }
        // Levenberg: steps that overshoot are shortened where the errors bend most. In a valley of
        // flutes in tune that would hold up the way along it: there the reach alone is shortened.
        if (in_valley(w))
            damping = 0.0;
        else if (share < 1.0)
            damping = std::max(4.0 * damping, kDamping);
        else
            damping = damping > 0.05 * kDamping ? 0.4 * damping : 0.0;
        if (share < 1.0)
            reach = in_valley(w) && taken ? std::max(share * size, kSlopesKeep) : 0.5 * reach;
        else
            reach = std::min(kLongestStep, 2.0 * reach);
    }
    return w;
}

}  // namespace canewright
