// core/layout/step_program.hpp: one step of a walk as a quadratic program. Layer: layout.
#pragma once

#include "core/layout/problem.hpp"
#include "core/layout/quadratic_program.hpp"

namespace canewright {

// A note further off than kFarOff_cents counts by its error, no longer by its square: one that no
// move can bring in does not drag the holes of the others along.
double counted(const Eigen::VectorXd& errors_cents);

// What pulls, at x.
Eigen::VectorXd pulled(const Pull& pull, const Eigen::VectorXd& x);

// The step's bowl: weighted errors and what pulls, by the slopes at x.
void fill(QuadraticProgram& step, const Eigen::VectorXd& x, const Sound& sound,
          const Eigen::MatrixXd& slopes, const Pull& pull);

// How far x may go: to the walls, and `reach` (where not 0) in each number either way.
void set_bounds(QuadraticProgram& step, const Problem& problem, const Eigen::VectorXd& x,
                double reach);

inline constexpr double kFarOff_cents = 10.0;  // about what anyone hears

}  // namespace canewright
