// core/layout/gauss_newton.hpp: the walk from a first guess to the best flute between the walls.
// Layer: layout.
#pragma once

#include <algorithm>
#include <cmath>

#include "core/layout/problem.hpp"
#include "core/layout/step_program.hpp"

namespace canewright {

// How far a step goes in any number; 0 where all is fixed and there is none.
inline double largest(const Eigen::VectorXd& step) {
    double most = 0.0;
    for (Eigen::Index k = 0; k < step.size(); ++k) most = std::max(most, std::abs(step(k)));
    return most;
}

struct Walk {
    Eigen::VectorXd x;
    Sound sound;
    std::vector<int> active;  // walls that hold the answer back
    bool feasible = false;    // the walls leave room
    bool converged = false;
    int steps = 0;
    Eigen::MatrixXd slopes;        // at x, or where it was so far away
    double since_slopes = 1.0;     // in scaled numbers
    double octaves_counted = 0.0;  // the weight by which octaves came to count (octaves.hpp)

    double errors_cents() const { return sound.errors_cents.norm(); }
};

// Damped Gauss-Newton with walls, from x: the least of the notes' errors and what pulls, squared;
// errors beyond kFarOff_cents count by their size.
//
// Source   P.J. Huber, Ann. Math. Statist. 35 (1964) 73-101: the loss; steps by reweighting. Steps
//          along a bent valley: R. Fletcher, Lect. Notes Math. 912 (1982) 85-114 (second-order
//          correction), from memory.
// Error    converged: kWalkError of a scaled number, the share (up to a tenth, where errors stay)
// that
//          slopes taken here leave of a last step. Evaluated to the end, walks from either side
//          come ten times nearer to one another, for a tenth more networks.
// Errors   converged is false when most_steps ran out, a note stopped speaking, or no step helped.
inline constexpr int kMostDescents = 150;
inline constexpr double kWalkError = 1e-5;

// The notes' errors together, as a walk counts them.
double counted_cents(const Eigen::VectorXd& errors_cents);

// Errors that one linear step from x, held near it, would leave; kNoLimit where there is no room.
double linear_errors_cents(const Problem& problem, const Eigen::VectorXd& x, const Sound& sound,
                           const Eigen::MatrixXd& slopes, double length_m);

// `near`: a walk to a similar flute; where it ended at x, this one goes on with its notes and
// slopes. `enough`: a step no longer than this ends it as if the steps had run out, and slopes
// taken so near are good enough.
Walk walk(Problem& problem, const Eigen::VectorXd& x, const Pull& pull,
          int most_steps = kMostDescents, const Walk& near = {}, double enough = 0.0);

}  // namespace canewright
