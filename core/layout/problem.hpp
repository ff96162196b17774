// core/layout/problem.hpp: a layout as numbers that may move, errors to be made small, and walls.
// Layer: layout.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <vector>

#include "core/air/air.hpp"
#include "core/layout/plan.hpp"

namespace canewright {

// A row of A x <= b and what it stands for.
struct Wall {
    Limit limit;
    int hole;
};

// The notes at one set of numbers.
struct Sound {
    Eigen::VectorXd errors_cents;  // sounding above target, one a note
    std::vector<double> frequency_Hz;
    bool speaks = false;  // every note has a converged resonance
};

// Numbers that may move (scaled: positions and foot by the bore, diameters by a fifth of it), with
// one limit of one hole left out on request.
class Problem {
   public:
    Problem(const LayoutTask& task, const Air& air, std::optional<Wall> left_out = std::nullopt);

    Eigen::Index size() const { return static_cast<Eigen::Index>(kinds_.size()); }
    Eigen::VectorXd numbers(const Flute& flute) const;
    Flute flute(const Eigen::VectorXd& x) const;

    // `near` are frequencies of a similar flute, or empty.
    Sound sound(const Eigen::VectorXd& x, const std::vector<double>& near);
    // d errors / d x at the given sound, by the implicit function theorem from the turn of the
    // loop's reflection: no root is sought for a derivative.
    Eigen::MatrixXd slopes(const Eigen::VectorXd& x, const Sound& sound);

    const Eigen::MatrixXd& wall_rows() const { return rows_; }
    const Eigen::VectorXd& wall_bounds() const { return bounds_; }
    const std::vector<Wall>& walls() const { return walls_; }

    // Mild wishes C x ~ d, weighted to count for hundredths of a cent: sizes near
    // `size_over_bore`, and holes that no note depends on midway between their neighbours.
    void wish(double size_over_bore, Eigen::MatrixXd& rows, Eigen::VectorXd& targets) const;

    // A first guess from effective lengths (Benade 1960, one open hole and the end below it).
    Flute first_guess(double size_over_bore);

    long evaluations() const { return evaluations_; }
    double scale_m(Eigen::Index n) const;

   private:
    enum class Kind { foot, at, diameter };
    struct Number {
        Kind kind;
        int hole;
    };
    void build_walls(const std::optional<Wall>& left_out);
    double length_for_m(double frequency_Hz, double guess_m);
    Eigen::VectorXd errors_cents(const std::vector<double>& frequency_Hz) const;

    const LayoutTask task_;
    const Air air_;
    double bore_m_ = 0.0;
    std::vector<Number> kinds_;
    std::vector<Wall> walls_;
    Eigen::MatrixXd rows_;
    Eigen::VectorXd bounds_;
    long evaluations_ = 0;
};

// What the model can be asked for, as a share of the bore.
inline constexpr double kSmallestHole = 0.1;
inline constexpr double kLargestHole = 0.8;
// Wall to be left between two holes' edges, between a hole and the sound hole, and the foot [m].
inline constexpr double kBridge_m = 2.0e-3;
inline constexpr double kSoundHoleClearance_bores = 0.5;
inline constexpr double kFootClearance_bores = 0.3;

}  // namespace canewright
