// core/layout/quadratic_program.cpp: Goldfarb and Idnani's dual active-set method, dense.
#include "core/layout/quadratic_program.hpp"

#include <cmath>
#include <limits>

namespace canewright {
namespace {

constexpr double kFar = std::numeric_limits<double>::infinity();

// Cholesky's L D L' of a symmetric positive matrix (textbook), a few dozen rows at most: Eigen's
// brings its kernels for large matrices, 4 kB of a first visit. What nothing bends stays put.
class Cholesky {
   public:
    explicit Cholesky(const Eigen::MatrixXd& a) : l_(a) {
        const Eigen::Index n = a.rows();
        for (Eigen::Index j = 0; j < n; ++j) {
            for (Eigen::Index k = 0; k < j; ++k) l_(j, j) -= l_(j, k) * l_(j, k) * l_(k, k);
            for (Eigen::Index i = j + 1; i < n; ++i) {
                for (Eigen::Index k = 0; k < j; ++k) l_(i, j) -= l_(i, k) * l_(j, k) * l_(k, k);
                l_(i, j) = l_(j, j) > kLeast ? l_(i, j) / l_(j, j) : 0.0;
            }
        }
    }
    Eigen::VectorXd solve(const Eigen::VectorXd& b) const {
        Eigen::VectorXd x = b;
        const Eigen::Index n = b.size();
        for (Eigen::Index i = 0; i < n; ++i)
            for (Eigen::Index k = 0; k < i; ++k) x(i) -= l_(i, k) * x(k);
        for (Eigen::Index i = 0; i < n; ++i) x(i) = l_(i, i) > kLeast ? x(i) / l_(i, i) : 0.0;
        for (Eigen::Index i = n; i-- > 0;)
            for (Eigen::Index k = i + 1; k < n; ++k) x(i) -= l_(k, i) * x(k);
        return x;
    }

   private:
    static constexpr double kLeast = std::numeric_limits<double>::min();
    Eigen::MatrixXd l_;  // below the diagonal L, on it D
};

// The wall most out of place, in units of its tolerance; -1 when all hold.
int most_violated(const QuadraticProgram& q, const Eigen::VectorXd& x) {
    int worst = -1;
    double most = 1.0;
    for (Eigen::Index i = 0; i < q.rows.rows(); ++i) {
        const double over =
            (q.rows.row(i).dot(x) - q.bounds(i)) / (kWallTolerance * (1.0 + std::abs(q.bounds(i))));
        if (over > most) most = over, worst = static_cast<int>(i);
    }
    return worst;
}

}  // namespace

QuadraticSolution solve(const QuadraticProgram& q) {
    QuadraticSolution s;
    const Cholesky bowl(q.hessian);
    s.x = bowl.solve(-q.gradient);
    std::vector<double> push;  // multipliers of s.active
    const int most_trips = 20 * static_cast<int>(q.rows.rows() + q.rows.cols());
    int trips = 0;
    for (int wall = most_violated(q, s.x); wall >= 0; wall = most_violated(q, s.x)) {
        const Eigen::VectorXd inward = -q.rows.row(wall).transpose();
        double push_of_wall = 0.0;
        for (bool reached = false; !reached;) {
            if (++trips > most_trips) return s;
            // Direction that keeps the active walls and moves off the violated one.
            const Eigen::Index count = static_cast<Eigen::Index>(s.active.size());
            Eigen::MatrixXd normals(q.rows.cols(), count);
            for (Eigen::Index j = 0; j < count; ++j)
                normals.col(j) = -q.rows.row(s.active[static_cast<std::size_t>(j)]).transpose();
            const Eigen::VectorXd straight = bowl.solve(inward);
            Eigen::VectorXd share = Eigen::VectorXd::Zero(count);
            Eigen::VectorXd direction = straight;
            if (count > 0) {
                Eigen::MatrixXd bent(normals.rows(), count);
                for (Eigen::Index j = 0; j < count; ++j) bent.col(j) = bowl.solve(normals.col(j));
                const Eigen::MatrixXd between = normals.transpose().lazyProduct(bent);
                share = Cholesky(between).solve(normals.transpose().lazyProduct(straight));
                direction -= bent.lazyProduct(share);
            }
            // How far until an active wall lets go, and until the violated one is reached.
            double until_release = kFar;
            Eigen::Index release = -1;
            for (Eigen::Index j = 0; j < count; ++j) {
                const double ratio = push[static_cast<std::size_t>(j)] / share(j);
                if (share(j) > 0.0 && ratio < until_release) until_release = ratio, release = j;
            }
            const double slope = direction.dot(inward);
            const bool stuck = slope <= 1e-12 * straight.dot(inward);
            const double until_reached =
                stuck ? kFar : (q.rows.row(wall).dot(s.x) - q.bounds(wall)) / slope;
            const double go = std::min(until_release, until_reached);
            if (go == kFar) return s;  // nothing lets go and nothing moves: no room
            if (!stuck) s.x += go * direction;
            for (Eigen::Index j = 0; j < count; ++j)
                push[static_cast<std::size_t>(j)] -= go * share(j);
            push_of_wall += go;
            if (until_reached <= until_release) {
                s.active.push_back(wall);
                push.push_back(push_of_wall);
                reached = true;
            } else {
                s.active.erase(s.active.begin() + release);
                push.erase(push.begin() + release);
            }
        }
    }
    s.feasible = s.converged = true;
    return s;
}

}  // namespace canewright
