// core/layout/quadratic_program.hpp: the smallest value of a bowl between walls. Layer: layout.
#pragma once

#include <Eigen/Core>
#include <vector>

namespace canewright {

// Minimise 1/2 x'Hx + g'x subject to A x <= b.
//   hessian   H, n x n, symmetric positive definite
//   gradient  g, n
//   rows      A, m x n;   bounds   b, m
struct QuadraticProgram {
    Eigen::MatrixXd hessian;
    Eigen::VectorXd gradient;
    Eigen::MatrixXd rows;
    Eigen::VectorXd bounds;
};

struct QuadraticSolution {
    Eigen::VectorXd x;
    std::vector<int> active;  // rows of A that hold x back; their multipliers are > 0
    bool feasible = false;    // false: the walls leave no room
    bool converged = false;
};

// Model    dual active-set method: starts at the bowl's bottom, walks to each violated wall in
//          turn, lets go of walls that no longer push. Finite for a positive definite H.
// Error    rows hold within kWallTolerance * (1 + |b|).
// Source   D. Goldfarb, A. Idnani, Math. Programming 27 (1983) 1-33.
QuadraticSolution solve(const QuadraticProgram& program);

inline constexpr double kWallTolerance = 1e-11;

}  // namespace canewright
