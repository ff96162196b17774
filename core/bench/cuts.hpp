// core/bench/cuts.hpp: how far the next cut may go. Layer: bench.
#pragma once

#include "core/bench/next_step.hpp"
#include "core/bench/worth.hpp"

namespace canewright {

// A build, what is believed of it and what it is to become, with the questions a planner asks.
class Cuts {
   public:
    Cuts(const History& history, const Estimate& estimate, const Aim& aim, const Goal& goal);

    // Present pitch of a note above what it should sound at this stage, so that the finished flute
    // is in tune: all later cuts' effects on it are in the difference. NaN when it does not speak.
    double off_cents(std::size_t note) const;
    // How sure that is.
    double off_sigma_cents(std::size_t note) const;
    // All notes together, as believed. Requires all holes cut, and that every note speaks.
    NotesNow notes() const;

    // Saw to here: the lowest note stays flat enough.
    //   keep_cents   what shall be left for later at least
    double foot_by_measure_m(double keep_cents) const;
    double foot_cents_per_m() const;

    // Drill this hole so wide or less.
    double drill_m(std::size_t hole, std::size_t note) const;
    // How true it comes out, one standard deviation.
    double drill_sigma_m() const;
    // The largest of the maker's bits not above a size; nothing when all are larger.
    std::optional<double> bit_m(double most_m) const;

    // Stop opening (or sanding) at this pitch: a little flat, more so at a hole's first opening,
    // which is followed by another look when all else is done.
    Until stop(std::size_t note, int own_hole) const;
    double stop_margin_cents(std::size_t note, int own_hole) const;
    double stop_sigma_cents() const;
    // How far below their marks this maker's openings have ended, by what is believed of the notes
    // now: who stops when the meter first shows the pitch has waited for the highest of several
    // blows. The next mark is higher by it. Never below 0.
    double stop_allowance_cents() const;
    // How far from its mark a note ends that is opened by ear from where it is now.
    double opened_sigma_cents(std::size_t note) const;
    // Where a note ends whose hole is drilled and opened until its stop: there, unless the hole is
    // too large with the smallest bit or too small as wide as it may be and undercut as usual; as
    // the plan leaves it where nothing of its own tunes it [cents above its target]. NaN where it
    // does not speak.
    double end_cents(std::size_t note) const;
    // What the breath of the moment and a fingering's own add to what is heard at once.
    double moment_sigma_cents() const;

    // Chance that a note which is expected so far above its target, with so much doubt, ends
    // sharper than the tolerance.
    double overshoot(double above_cents, double sigma_cents) const;
    // Standard deviations that keep one cut's share of the risk.
    double safe_sigmas() const;

    // A note as sounded at a stage, as believed.
    double Hz(const Stage& stage, std::size_t note, double room_C) const;

    std::size_t lowest_note() const { return lowest_; }

   private:
    Stage with_own_goal(int own_hole) const;
    double cents_per_diameter_m(const Stage& stage, std::size_t hole, std::size_t note) const;

    // What is asked more than once of the flute as it is.
    struct Known {
        double off_cents, sigma_cents;
        Eigen::VectorXd slope;
    };
    const Known& known(std::size_t note) const;

    mutable std::vector<std::optional<Known>> known_;
    mutable std::optional<double> allowance_;
    const History& history_;
    const Estimate& estimate_;
    const Aim& aim_;
    const Goal& goal_;
    std::size_t lowest_ = 0;
};

// Of makers, how far on average they stop below a mark [cents], one standard deviation, and the
// most that is allowed for: half a stroke and the better half of a few blows (judgement).
inline constexpr double kStopBias_cents = 2.0;
inline constexpr double kMostAllowance_cents = 5.0;
// Half a light stroke [cents]: the last one goes past the mark by about that much.
inline constexpr double kHalfStroke_cents = 0.5;
// What a first opening leaves [cents]: what is flat can be opened further.
inline constexpr double kFirstOpening_cents = 1.0;
// How true a hole is drilled to its bit [m], one standard deviation (common practice, no source).
inline constexpr double kDrillSigma_m = 0.07e-3;
// What is left for the ear when a hole is drilled by measure [cents].
inline constexpr double kLeftByDrill_cents = 12.0;

}  // namespace canewright
