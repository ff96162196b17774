// core/hand/pool.hpp: what several flutes of one maker say together of the next. Layer: hand.
#pragma once

#include <Eigen/Core>
#include <vector>

namespace canewright {

// What one flute's readings said of some unknowns: what was believed of it before and after them.
// All of p unknowns, each in its own unit; covariances are positive definite.
struct Lesson {
    Eigen::VectorXd before_mean, mean;
    Eigen::MatrixXd before_covariance, covariance;
};

// What is believed of a maker of whom nothing was heard: the next flute's unknowns.
struct Stranger {
    Eigen::VectorXd mean;   // p
    Eigen::VectorXd sigma;  // p, one standard deviation of a flute, above 0
    double own = 0.5;       // of it, the share that changes from flute to flute of one maker
};

// A flute whose unknown lies far from what the maker's others say.
struct OddFlute {
    std::size_t lesson = 0;
    Eigen::Index unknown = 0;
    double by = 0.0;      // above the others, in the unknown's unit
    double chance = 0.0;  // that it is one
};

// From some flute on a maker does otherwise.
struct HabitChange {
    std::size_t after = 0;  // so many lessons were as before
    Eigen::Index unknown = 0;
    double by = 0.0, sigma = 0.0;  // later less earlier, one standard deviation of that
};

struct Hand {
    Eigen::VectorXd mean;             // of this maker's flutes
    Eigen::MatrixXd covariance;       // of `mean`
    Eigen::MatrixXd between;          // from flute to flute
    std::vector<OddFlute> odd;        // in the order of the lessons
    std::vector<HabitChange> change;  // none or one
    bool converged = false;
};

// The lessons pooled: the next flute is believed to be N(mean, covariance + between).
//
//   lessons  oldest first, at least one
//
// Model    normal-normal: a flute's unknowns are N(mu, T); its readings say of them what made the
//          belief before into the one after, so that what a flute did not tell weighs nothing, and
//          one that was begun with a hand teaches only its own. mu has the stranger's prior, T is
//          shrunk to own^2 of the stranger's variances as by kShrunk flutes more. One flute in
//          kOddOneIn may have one unknown scattered kOddScatter times as far; which do is asked
//          against a fit of the others, and where it is likelier than not the flute pulls as such
//          a one. It is told of from kOddTold on, so that it can be measured again; from kOddNamed
//          on it is one. All by
//          expectation and maximisation, what is not known of mu taken into T. A change: the same
//          with another mean of one unknown from some flute on. It is said where the flutes are
//          kChanged times likelier with one than without, every place and unknown being as likely
//          before; where and which is the likeliest.
// Valid    lessons of one maker; their order matters to `change` alone.
// Error    tests/core/hand/pool_test.cpp simulates it: bands, and one odd flute of eight.
// Source   A. Gelman et al., Bayesian Data Analysis (2013), ch. 5: the hierarchical normal; A.P.
//          Dempster, N.M. Laird & D.B. Rubin, J. R. Stat. Soc. B 39 (1977) 1-38: expectation and
//          maximisation; J.W. Tukey, in Contributions to Probability and Statistics (1960)
//          448-485: the contaminated normal (all from memory).
Hand pooled(const std::vector<Lesson>& lessons, const Stranger& stranger);

inline constexpr double kShrunk = 2.0;
inline constexpr double kOddOneIn = 5.0;
inline constexpr double kOddScatter = 4.0;
inline constexpr double kOddTold = 0.5;   // chance from which it may be one: it pulls as such
inline constexpr double kOddNamed = 0.9;  // and is one
// By what it comes to among makers who keep their ways: 1 in 40 of tools/virtual-makers has a
// change among sixteen flutes.
inline constexpr double kChanged = 3.0;
inline constexpr std::size_t kLeastSide = 3;  // flutes before a change, and after it

}  // namespace canewright
