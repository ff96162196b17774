// core/layout/gauss_newton.cpp: steps of a quadratic program, halved until they help.
#include "core/layout/gauss_newton.hpp"

#include <algorithm>
#include <cmath>

#include "core/layout/quadratic_program.hpp"

namespace canewright {
namespace {

constexpr double kLongestStep = 1.0;  // of a scaled number: a bore along, a fifth of it in size
// Of a scaled number (a bore, or a fifth of it): then the answer stands still, to a nanometre.
constexpr double kSmallestStep = 1e-7;
// A step that cannot be shortened until it helps is rounding below this; above it the walk has
// come to where notes stop speaking, and has not arrived.
constexpr double kRoundingStep = 1e-5;
constexpr int kMostHalvings = 10;
// Below this step the slopes are as good as they get: the last steps, to the last digit, use them
// again (and cost a tenth).
constexpr double kSlopesKeep = 1e-4;
constexpr double kDamping = 2e-3;
constexpr int kMostFailed = 3;  // steps of which not even a thousandth helps
constexpr int kMostIdle = 3;    // such steps that no longer lower the cost

// A note further off than kFarOff_cents counts by its error, no longer by its square: one that no
// move can bring in does not drag the holes of the others along.
double counted(const Eigen::VectorXd& errors_cents) {
    double sum = 0.0;
    for (const double error : errors_cents) {
        const double off = std::abs(error);
        sum += off <= kFarOff_cents ? off * off : kFarOff_cents * (2.0 * off - kFarOff_cents);
    }
    return sum;
}

// Weights that make a sum of squares of it, for a step (iteratively reweighted least squares).
Eigen::VectorXd weights(const Eigen::VectorXd& errors_cents) {
    return errors_cents.unaryExpr([](double error) {
        return std::abs(error) <= kFarOff_cents ? 1.0 : kFarOff_cents / std::abs(error);
    });
}

}  // namespace

Walk walk(Problem& problem, const Eigen::VectorXd& start, const Pull& pull, int most_steps) {
    Walk w;
    w.x = start;
    const Eigen::Index n = problem.size();
    const Eigen::MatrixXd pulled = pull.rows.transpose().lazyProduct(pull.rows);
    const auto cost = [&](const Eigen::VectorXd& x, const Sound& s) {
        return counted(s.errors_cents) + (pull.rows.lazyProduct(x) - pull.targets).squaredNorm();
    };

    const Eigen::Index walls = problem.wall_rows().rows();
    QuadraticProgram step;
    step.rows.resize(walls + 2 * n, n);
    step.bounds.resize(walls + 2 * n);
    step.rows << problem.wall_rows(), Eigen::MatrixXd::Identity(n, n),
        -Eigen::MatrixXd::Identity(n, n);
    double reach = kLongestStep;

    // Into the walls first: the nearest numbers that respect them all.
    step.hessian = Eigen::MatrixXd::Identity(n, n);
    step.gradient = Eigen::VectorXd::Zero(n);
    step.bounds << problem.wall_bounds() - problem.wall_rows().lazyProduct(w.x),
        Eigen::VectorXd::Constant(2 * n, 1e3);
    const QuadraticSolution inside = solve(step);
    if (!inside.feasible) return w;
    w.feasible = true;
    w.x += inside.x;
    w.sound = problem.sound(w.x, {});
    if (!w.sound.speaks) return w;

    double now = cost(w.x, w.sound);
    double last_size = kLongestStep;
    double damping = 0.0;  // of the mean stiffness
    int idle = 0, failed = 0;
    Eigen::MatrixXd slopes;
    for (w.steps = 1; w.steps <= most_steps; ++w.steps) {
        if (problem.evaluations() > kMostEvaluations) return w;
        if (last_size > kSlopesKeep) slopes = problem.slopes(w.x, w.sound);
        // lazyProduct: a dozen rows need no blocked kernels, which would double the wasm module's
        // Eigen
        const Eigen::VectorXd weight = weights(w.sound.errors_cents);
        const Eigen::MatrixXd weighted = weight.asDiagonal() * slopes;
        step.hessian = slopes.transpose().lazyProduct(weighted);
        step.hessian += pulled;
        step.hessian.diagonal().array() += 1e-9;  // numbers nothing depends on stay put
        const double stiffness = step.hessian.diagonal().mean();
        step.hessian.diagonal().array() += damping * stiffness;
        const Eigen::VectorXd pull_off = pull.rows.lazyProduct(w.x) - pull.targets;
        step.gradient = weighted.transpose().lazyProduct(w.sound.errors_cents);
        step.gradient += pull.rows.transpose().lazyProduct(pull_off);
        step.bounds << problem.wall_bounds() - problem.wall_rows().lazyProduct(w.x),
            Eigen::VectorXd::Constant(2 * n, reach);
        const QuadraticSolution s = solve(step);
        if (!s.converged) return w;

        w.active.clear();
        for (int row : s.active)
            if (row < walls) w.active.push_back(row);
        const double size = s.x.cwiseAbs().maxCoeff();
        bool helped = false, taken = false;
        double share = 1.0;
        for (int halving = 0; halving <= kMostHalvings; ++halving, share *= 0.5) {
            if (problem.evaluations() > kMostEvaluations) break;
            const Eigen::VectorXd x = w.x + share * s.x;
            Sound sound = problem.sound(x, w.sound.passive_Hz);
            if (!sound.speaks) continue;
            const double then = cost(x, sound);
            if (!(then <= now)) continue;
            helped = then < now * (1.0 - 1e-7);
            taken = true;
            w.x = x;
            w.sound = std::move(sound);
            now = then;
            break;
        }
        last_size = taken ? share * size : size;
        idle = helped || size > kSlopesKeep ? 0 : idle + 1;
        if (size < kSmallestStep || idle > kMostIdle) {
            w.converged = true;
            return w;
        }
        if (!taken && (size < kRoundingStep || ++failed > kMostFailed)) {
            w.converged = size < kRoundingStep;
            return w;
        }
        // Levenberg: steps that overshoot are shortened where the errors bend most
        if (share < 1.0)
            damping = std::max(4.0 * damping, kDamping);
        else
            damping = damping > 0.05 * kDamping ? 0.4 * damping : 0.0;
        reach = share < 1.0 ? 0.5 * reach : std::min(kLongestStep, 2.0 * reach);
    }
    return w;
}

}  // namespace canewright
