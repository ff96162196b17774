// core/layout/gauss_newton.hpp: the walk from a first guess to the best flute between the walls.
// Layer: layout.
#pragma once

#include "core/layout/problem.hpp"

namespace canewright {

struct Walk {
    Eigen::VectorXd x;
    Sound sound;
    std::vector<int> active;  // walls that hold the answer back
    bool feasible = false;    // the walls leave room
    bool converged = false;
    int steps = 0;

    double errors_cents() const { return sound.errors_cents.norm(); }
};

// Damped Gauss-Newton with walls, from x.
//   size_over_bore   the hole size wished for where notes and walls leave it open
// Errors   converged is false when most_steps ran out, a note stopped speaking, or no step helped.
inline constexpr int kMostSteps = 60;

Walk walk(Problem& problem, const Eigen::VectorXd& x, double size_over_bore,
          int most_steps = kMostSteps);

}  // namespace canewright
