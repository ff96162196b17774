// core/layout/gauss_newton.cpp: steps of a quadratic program, halved until they help.
#include "core/layout/gauss_newton.hpp"

#include <cmath>

#include "core/layout/quadratic_program.hpp"

namespace canewright {
namespace {

constexpr double kLongestStep = 1.0;    // of a scaled number: a bore along, a fifth of it in size
constexpr double kSmallestStep = 1e-9;  // then the answer stands still
constexpr int kMostHalvings = 10;
// Below this step the slopes are as good as they get: the last steps, to the last digit, use them
// again (and cost a tenth).
constexpr double kSlopesKeep = 1e-4;
constexpr int kMostIdle = 3;  // such steps that no longer lower the cost

}  // namespace

Walk walk(Problem& problem, const Eigen::VectorXd& start, double size_over_bore, int most_steps) {
    Walk w;
    w.x = start;
    const Eigen::Index n = problem.size();
    Eigen::MatrixXd wish_rows;
    Eigen::VectorXd wish_targets;
    problem.wish(size_over_bore, wish_rows, wish_targets);
    const auto cost = [&](const Eigen::VectorXd& x, const Sound& s) {
        return s.errors_cents.squaredNorm() +
               (wish_rows.lazyProduct(x) - wish_targets).squaredNorm();
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
    int idle = 0;
    Eigen::MatrixXd slopes;
    for (w.steps = 1; w.steps <= most_steps; ++w.steps) {
        if (last_size > kSlopesKeep) slopes = problem.slopes(w.x, w.sound);
        // lazyProduct: a dozen rows need no blocked kernels, which would double the wasm module's
        // Eigen
        step.hessian = slopes.transpose().lazyProduct(slopes);
        step.hessian += wish_rows.transpose().lazyProduct(wish_rows);
        step.hessian.diagonal().array() += 1e-9;  // numbers nothing depends on stay put
        const Eigen::VectorXd wish_off = wish_rows.lazyProduct(w.x) - wish_targets;
        step.gradient = slopes.transpose().lazyProduct(w.sound.errors_cents);
        step.gradient += wish_rows.transpose().lazyProduct(wish_off);
        step.bounds << problem.wall_bounds() - problem.wall_rows().lazyProduct(w.x),
            Eigen::VectorXd::Constant(2 * n, reach);
        const QuadraticSolution s = solve(step);
        if (!s.converged) return w;

        w.active.clear();
        for (int row : s.active)
            if (row < walls) w.active.push_back(row);
        const double size = s.x.cwiseAbs().maxCoeff();
        bool helped = false;
        double share = 1.0;
        for (int halving = 0; halving <= kMostHalvings; ++halving, share *= 0.5) {
            const Eigen::VectorXd x = w.x + share * s.x;
            Sound sound = problem.sound(x, w.sound.frequency_Hz);
            if (!sound.speaks) continue;
            const double then = cost(x, sound);
            if (!(then <= now)) continue;
            helped = then < now * (1.0 - 1e-7);
            w.x = x;
            w.sound = std::move(sound);
            now = then;
            break;
        }
        last_size = share * size;
        idle = helped || size > kSlopesKeep ? 0 : idle + 1;
        if (size < kSmallestStep || idle > kMostIdle || (!helped && share < 1.0)) {
            w.converged = true;
            return w;
        }
        reach = share < 1.0 ? 0.5 * reach : std::min(kLongestStep, 2.0 * reach);
    }
    return w;
}

}  // namespace canewright
