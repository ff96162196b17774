// core/layout/step_program.cpp: errors, pulls and walls, gathered for a step.
#include "core/layout/step_program.hpp"

#include <cmath>

namespace canewright {

double counted(const Eigen::VectorXd& errors_cents) {
    double sum = 0.0;
    for (const double error : errors_cents) {
        const double off = std::abs(error);
        sum += off <= kFarOff_cents ? off * off : kFarOff_cents * (2.0 * off - kFarOff_cents);
    }
    return sum;
}

namespace {

// Weights that make a sum of squares of it, for a step (iteratively reweighted least squares).
Eigen::VectorXd weights(const Eigen::VectorXd& errors_cents) {
    Eigen::VectorXd weight = Eigen::VectorXd::Ones(errors_cents.size());
    for (Eigen::Index k = 0; k < weight.size(); ++k)
        if (const double off = std::abs(errors_cents(k)); off > kFarOff_cents)
            weight(k) = kFarOff_cents / off;
    return weight;
}

}  // namespace

// Plain loops from here on: of a dozen rows each, they are a third of what Eigen's expressions are
// in the wasm module, and the time goes into the notes anyway.

Eigen::VectorXd pulled(const Pull& pull, const Eigen::VectorXd& x) {
    const Eigen::Index n = x.size(), pulls = pull.rows.rows();
    Eigen::VectorXd off = Eigen::VectorXd::Zero(pulls);
    const double* const rows = pull.rows.data();
    for (Eigen::Index i = 0; i < pulls; ++i) {
        double sum = -pull.targets(i);
        for (Eigen::Index k = 0; k < n; ++k) sum += rows[k * pulls + i] * x.data()[k];
        off(i) = sum;
    }
    return off;
}

// Column by column, through pointers: compiled for size, a matrix's own access is a call.
void fill(QuadraticProgram& step, const Eigen::VectorXd& x, const Sound& sound,
          const Eigen::MatrixXd& slopes, const Pull& pull) {
    const Eigen::VectorXd weight = weights(sound.errors_cents);
    const Eigen::VectorXd pull_off = pulled(pull, x);
    const Eigen::Index n = x.size(), notes = slopes.rows(), pulls = pull.rows.rows();
    step.hessian = Eigen::MatrixXd::Zero(n, n);
    step.gradient = Eigen::VectorXd::Zero(n);
    const double* const w = weight.data();
    for (Eigen::Index i = 0; i < n; ++i) {
        const double* const slope = slopes.data() + i * notes;
        const double* const row = pull.rows.data() + i * pulls;
        double uphill = 0.0;
        for (Eigen::Index k = 0; k < notes; ++k)
            uphill += w[k] * slope[k] * sound.errors_cents.data()[k];
        for (Eigen::Index k = 0; k < pulls; ++k) uphill += row[k] * pull_off.data()[k];
        step.gradient.data()[i] = uphill;
        for (Eigen::Index j = 0; j <= i; ++j) {
            const double* const other = slopes.data() + j * notes;
            const double* const other_row = pull.rows.data() + j * pulls;
            double bend = 0.0;
            for (Eigen::Index k = 0; k < notes; ++k) bend += w[k] * slope[k] * other[k];
            for (Eigen::Index k = 0; k < pulls; ++k) bend += row[k] * other_row[k];
            step.hessian(i, j) = step.hessian(j, i) = bend;
        }
        step.hessian(i, i) += 1e-9;  // numbers nothing depends on stay put
    }
}

void set_bounds(QuadraticProgram& step, const Problem& problem, const Eigen::VectorXd& x,
                double reach) {
    const Eigen::Index walls = problem.wall_rows().rows(), n = x.size();
    const Eigen::Index rows = walls + (reach > 0.0 ? 2 * n : 0);
    if (step.rows.rows() != rows) {
        step.rows = Eigen::MatrixXd::Zero(rows, n);
        for (Eigen::Index i = 0; i < walls; ++i)
            for (Eigen::Index k = 0; k < n; ++k) step.rows(i, k) = problem.wall_rows()(i, k);
        for (Eigen::Index k = 0; walls < rows && k < n; ++k) {
            step.rows(walls + k, k) = 1.0;
            step.rows(walls + n + k, k) = -1.0;
        }
        step.bounds = Eigen::VectorXd::Zero(rows);
    }
    for (Eigen::Index i = 0; i < rows; ++i) {
        double room = reach;
        if (i < walls) {
            room = problem.wall_bounds()(i);
            const double* const row = step.rows.data() + i;
            for (Eigen::Index k = 0; k < n; ++k) room -= row[k * rows] * x.data()[k];
        }
        step.bounds(i) = room;
    }
}

}  // namespace canewright
