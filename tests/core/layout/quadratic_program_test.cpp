// tests/core/layout/quadratic_program_test.cpp: against trying every set of walls.
#include "core/layout/quadratic_program.hpp"

#include <Eigen/LU>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "tests/support/flutes.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;

namespace {

constexpr double kFeasible = 1e-9;

double value(const QuadraticProgram& q, const Eigen::VectorXd& x) {
    return 0.5 * x.dot(q.hessian * x) + q.gradient.dot(x);
}

bool inside(const QuadraticProgram& q, const Eigen::VectorXd& x) {
    return (q.rows * x - q.bounds).maxCoeff() <= kFeasible;
}

// The best of the minima on every subset of walls that lies inside all; infinite when none does.
double best_by_force(const QuadraticProgram& q) {
    const Eigen::Index n = q.rows.cols(), m = q.rows.rows();
    double best = std::numeric_limits<double>::infinity();
    for (int subset = 0; subset < (1 << m); ++subset) {
        std::vector<Eigen::Index> walls;
        for (Eigen::Index i = 0; i < m; ++i)
            if (subset >> i & 1) walls.push_back(i);
        const Eigen::Index count = static_cast<Eigen::Index>(walls.size());
        if (count > n) continue;
        Eigen::MatrixXd kkt = Eigen::MatrixXd::Zero(n + count, n + count);
        Eigen::VectorXd right(n + count);
        kkt.topLeftCorner(n, n) = q.hessian;
        right.head(n) = -q.gradient;
        for (Eigen::Index j = 0; j < count; ++j) {
            const Eigen::Index wall = walls[static_cast<std::size_t>(j)];
            kkt.row(n + j).head(n) = q.rows.row(wall);
            kkt.col(n + j).head(n) = q.rows.row(wall).transpose();
            right(n + j) = q.bounds(wall);
        }
        const Eigen::FullPivLU<Eigen::MatrixXd> lu(kkt);
        if (!lu.isInvertible()) continue;
        const Eigen::VectorXd x = lu.solve(right).head(n);
        if (inside(q, x)) best = std::min(best, value(q, x));
    }
    return best;
}

QuadraticProgram random_program(Dice& dice) {
    const Eigen::Index n = dice.whole(1, 5), m = dice.whole(0, 8);
    const auto fill = [&dice](Eigen::Index rows, Eigen::Index columns) {
        Eigen::MatrixXd a(rows, columns);
        for (Eigen::Index i = 0; i < rows; ++i)
            for (Eigen::Index j = 0; j < columns; ++j) a(i, j) = dice.between(-1.0, 1.0);
        return a;
    };
    QuadraticProgram q;
    const Eigen::MatrixXd root = fill(n, n);
    q.hessian = root.transpose() * root + 0.01 * Eigen::MatrixXd::Identity(n, n);
    q.gradient = 3.0 * fill(n, 1);
    q.rows = fill(m, n);
    q.bounds = fill(m, 1) + Eigen::VectorXd::Constant(m, dice.between(-0.6, 0.8));
    return q;
}

}  // namespace

// Reference  brute force over all sets of active walls (Kuhn & Tucker's conditions are sufficient
//            for a bowl). Tolerance  1e-7 of the value; feasible or not must agree.
TEST_CASE("the quadratic program finds what trying everything finds",
          "[program][property][sweep]") {
    Dice dice(17);
    int feasible = 0, infeasible = 0, held = 0;
    for (int i = 0; i < 400; ++i) {
        const QuadraticProgram q = random_program(dice);
        const QuadraticSolution s = solve(q);
        const double best = q.rows.rows() ? best_by_force(q) : value(q, s.x);
        CAPTURE(i, q.rows.cols(), q.rows.rows());
        CHECK(s.feasible == std::isfinite(best));
        CHECK(s.converged == s.feasible);
        if (!s.feasible) {
            ++infeasible;
            continue;
        }
        ++feasible;
        CHECK_THAT(value(q, s.x), WithinAbs(best, 1e-7 * (1.0 + std::abs(best))));
        // Kuhn & Tucker: inside; the gradient is a positive mix of the active walls
        Eigen::VectorXd rest = q.hessian * s.x + q.gradient;
        const Eigen::Index count = static_cast<Eigen::Index>(s.active.size());
        if (q.rows.rows()) CHECK((q.rows * s.x - q.bounds).maxCoeff() <= kFeasible);
        if (count > 0) {
            ++held;
            Eigen::MatrixXd walls(count, q.rows.cols());
            for (Eigen::Index j = 0; j < count; ++j)
                walls.row(j) = q.rows.row(s.active[static_cast<std::size_t>(j)]);
            const Eigen::VectorXd push =
                (walls * walls.transpose()).fullPivLu().solve(-walls * rest);
            CHECK(push.minCoeff() > -1e-6 * (1.0 + push.cwiseAbs().maxCoeff()));
            rest += walls.transpose() * push;
        }
        CHECK(rest.cwiseAbs().maxCoeff() < 1e-6 * (1.0 + q.gradient.cwiseAbs().maxCoeff()));
    }
    CHECK(feasible > 100);
    CHECK(infeasible > 10);
    CHECK(held > 100);
}

// The same wall twice, and a wall that only touches, are no reason to fail or to turn in circles.
TEST_CASE("repeated and touching walls are no trouble", "[program][property]") {
    QuadraticProgram q;
    q.hessian = Eigen::MatrixXd::Identity(2, 2);
    q.gradient = Eigen::Vector2d(-1.0, -1.0);
    q.rows.resize(4, 2);
    q.rows << 1, 0, 1, 0, 2, 0, 1, 1;
    q.bounds = Eigen::Vector4d(0.5, 0.5, 1.0, 1.5);
    const QuadraticSolution s = solve(q);
    CHECK(s.converged);
    CHECK_THAT(s.x(0), WithinAbs(0.5, 1e-12));
    CHECK_THAT(s.x(1), WithinAbs(1.0, 1e-12));
}

TEST_CASE("walls that leave no room are said", "[program][property]") {
    QuadraticProgram q;
    q.hessian = Eigen::MatrixXd::Identity(2, 2);
    q.gradient = Eigen::Vector2d::Zero();
    q.rows.resize(2, 2);
    q.rows << 1, 0, -1, 0;
    q.bounds = Eigen::Vector2d(-1.0, 0.5);  // x <= -1 and x >= -0.5
    CHECK_FALSE(solve(q).feasible);
    CHECK_FALSE(solve(q).converged);
}
