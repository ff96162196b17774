// core/bench/cuts.cpp: sizes of one-way cuts from belief and risk.
#include "core/bench/cuts.hpp"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/bench/belief/note_model.hpp"
#include "core/bench/belief/readings.hpp"
#include "core/bench/builder.hpp"
#include "core/bench/strokes.hpp"

namespace canewright {
namespace {

constexpr double kSmallStep_m = 1e-5;  // for difference quotients over a cut
constexpr double kLeastDrilled = 0.4;  // of a hole's size to be

}  // namespace

Cuts::Cuts(const History& history, const Estimate& estimate, const Aim& aim, const Goal& goal)
    : history_(history), estimate_(estimate), aim_(aim), goal_(goal) {
    known_.resize(aim.notes.size());
    for (std::size_t n = 0; n < aim.notes.size(); ++n)
        if (aim.notes[n].open.empty()) lowest_ = n;
}

double Cuts::Hz(const Stage& stage, std::size_t note, double room_C) const {
    return note_Hz(history_, stage, aim_.notes[note].open, room_C, estimate_.belief.mean,
                   goal_.above_cents[note], goal_.target_Hz[note]);
}

// The present flute, but with the one thing that tunes a note as it is in the goal.
Stage Cuts::with_own_goal(int own_hole) const {
    Stage stage = history_.now();
    if (own_hole < 0) {
        stage.foot_m = goal_.stage.foot_m;
        stage.foot_cutting = goal_.stage.foot_cutting;
    } else {
        const std::size_t i = static_cast<std::size_t>(own_hole);
        const int cutting = stage.holes[i].cutting;
        stage.holes[i] = goal_.stage.holes[i];
        stage.holes[i].cutting = cutting;
    }
    return stage;
}

const Cuts::Known& Cuts::known(std::size_t note) const {
    std::optional<Known>& known = known_[note];
    if (!known) {
        const NoteModel model =
            note_model(history_, history_.now(), aim_.notes[note].open, aim_.room_C,
                       estimate_.belief.mean, goal_.above_cents[note], goal_.target_Hz[note]);
        const double should_Hz =
            Hz(with_own_goal(own_hole(aim_.notes[note].open)), note, aim_.room_C);
        const double off = model.speaks ? cents_between(model.frequency_Hz, should_Hz)
                                        : std::numeric_limits<double>::quiet_NaN();
        known = Known{off + goal_.left_over_cents[note], sigma_cents(model, estimate_.belief),
                      model.slope};
    }
    return *known;
}

double Cuts::off_cents(std::size_t note) const { return known(note).off_cents; }
double Cuts::off_sigma_cents(std::size_t note) const { return known(note).sigma_cents; }

NotesNow Cuts::notes() const {
    const Eigen::Index count = static_cast<Eigen::Index>(aim_.notes.size());
    Eigen::MatrixXd slope(count, estimate_.belief.mean.size());
    NotesNow notes;
    notes.mean.resize(count);
    for (Eigen::Index n = 0; n < count; ++n) {
        const Known& of = known(static_cast<std::size_t>(n));
        notes.mean(n) = of.off_cents;
        slope.row(n) = of.slope;
    }
    notes.covariance = slope * estimate_.belief.covariance * slope.transpose();
    return notes;
}

double Cuts::safe_sigmas() const {
    const double share = aim_.risk / (2.0 * static_cast<double>(aim_.notes.size()));
    return boost::math::quantile(boost::math::complement(boost::math::normal(), share));
}

double Cuts::overshoot(double above_cents, double sigma) const {
    if (!(sigma > 0.0)) return above_cents > aim_.tolerance_cents ? 1.0 : 0.0;
    return boost::math::cdf(boost::math::complement(boost::math::normal(),
                                                    (aim_.tolerance_cents - above_cents) / sigma));
}

double Cuts::foot_cents_per_m() const {
    Stage shorter = goal_.stage;
    shorter.foot_m -= kSmallStep_m;
    return cents_between(Hz(shorter, lowest_, aim_.play_C), Hz(goal_.stage, lowest_, aim_.play_C)) /
           kSmallStep_m;
}

double Cuts::foot_by_measure_m(double keep_cents) const {
    const double sigma = sigma_cents(note_model(history_, goal_.stage, aim_.notes[lowest_].open,
                                                aim_.play_C, estimate_.belief.mean, 0.0),
                                     estimate_.belief);
    const double back_cents = std::max(keep_cents, safe_sigmas() * sigma);
    return goal_.stage.foot_m + back_cents / foot_cents_per_m();
}

double Cuts::cents_per_diameter_m(const Stage& stage, std::size_t hole, std::size_t note) const {
    Stage wider = stage;
    wider.holes[hole].diameter_m += kSmallStep_m;
    return cents_between(Hz(wider, note, aim_.room_C), Hz(stage, note, aim_.room_C)) / kSmallStep_m;
}

double Cuts::drill_m(std::size_t hole, std::size_t note) const {
    Stage stage = with_own_goal(static_cast<int>(hole));
    const double per_m = cents_per_diameter_m(stage, hole, note);
    const NoteModel model = note_model(history_, stage, aim_.notes[note].open, aim_.room_C,
                                       estimate_.belief.mean, goal_.above_cents[note]);
    const double size_cents = per_m * drill_sigma_m();
    const double sigma = std::hypot(sigma_cents(model, estimate_.belief), size_cents);
    const double back_cents = std::max(kLeftByDrill_cents, safe_sigmas() * sigma);
    // the slope is steeper for a smaller hole, so going back along it is on the safe side
    const double goal_m = goal_.stage.holes[hole].diameter_m;
    return std::max(goal_m - back_cents / per_m, kLeastDrilled * goal_m);
}

double Cuts::drill_sigma_m() const { return std::hypot(kDrillSigma_m, aim_.burn.sigma_m); }

std::optional<double> Cuts::bit_m(double most_m) const {
    std::optional<double> best;
    for (const double bit : aim_.shop.bits_m)
        if (bit <= most_m && (!best || bit > *best)) best = bit;
    return best;
}

double Cuts::stop_sigma_cents() const {
    constexpr double kLaterCuts_cents = 1.5;  // what is not known of later cuts' effect
    return std::hypot(kSureToStop_cents, kLaterCuts_cents);
}

double Cuts::stop_allowance_cents() const {
    if (allowance_) return *allowance_;
    double pull = 0.0, precision = 1.0 / (kStopBias_cents * kStopBias_cents);
    const std::vector<HoleNow>& holes = history_.now().holes;
    for (std::size_t hole = 0; hole < holes.size(); ++hole) {
        const int note = note_of(aim_, static_cast<int>(hole));
        if (note < 0 || holes[hole].times_cut < 2) continue;
        const std::size_t n = static_cast<std::size_t>(note);
        const double off = off_cents(n);
        if (!std::isfinite(off) || off > aim_.tolerance_cents) continue;  // another story
        const double sigma = std::hypot(off_sigma_cents(n), stop_sigma_cents());
        pull += (off + kFirstOpening_cents) / (sigma * sigma);
        precision += 1.0 / (sigma * sigma);
    }
    allowance_ = std::clamp(-pull / precision, 0.0, kMostAllowance_cents);
    return *allowance_;
}

double Cuts::opened_sigma_cents(std::size_t note) const {
    return std::hypot(stop_sigma_cents(),
                      shared_error(off_sigma_cents(note), moment_sigma_cents()));
}

double Cuts::moment_sigma_cents() const {
    return std::hypot(1.0, kNoteShare) * estimate_.habit.moment_cents;
}

double Cuts::stop_margin_cents(std::size_t note, int own) const {
    const bool first =
        own >= 0 && history_.now().holes[static_cast<std::size_t>(own)].times_cut < 2;
    return std::max(
        first ? kFirstOpening_cents : kHalfStroke_cents,
        safe_sigmas() * opened_sigma_cents(note) - aim_.tolerance_cents + kHalfStroke_cents);
}

double Cuts::end_cents(std::size_t note) const {
    const double left_cents = goal_.left_over_cents[note];
    if (!std::isfinite(left_cents)) return left_cents;
    const int own = own_hole(aim_.notes[note].open);
    const double stop_cents = -stop_margin_cents(note, own);
    if (own < 0) {
        const bool stays = aim_.lowest_free || history_.now().foot_plug;
        return stays ? left_cents : std::max(stop_cents, stop_cents + left_cents);
    }
    if (note_of(aim_, own) != static_cast<int>(note)) return left_cents;
    const std::size_t hole = static_cast<std::size_t>(own);
    const HoleNow& planned = goal_.stage.holes[hole];
    const auto at_cents = [&](double diameter_m, double flare) {
        Stage stage = goal_.stage;
        stage.holes[hole].diameter_m = diameter_m;
        stage.holes[hole].flare = std::max(planned.flare, flare);
        return left_cents +
               cents_between(Hz(stage, note, aim_.play_C), Hz(goal_.stage, note, aim_.play_C));
    };
    double least_m = kLeastDrilled * planned.diameter_m;
    if (history_.now().holes[hole].cut)
        least_m = planned.diameter_m;
    else if (!aim_.shop.bits_m.empty())
        least_m = std::min(
            planned.diameter_m,
            aim_.burn.hole_m(*std::min_element(aim_.shop.bits_m.begin(), aim_.shop.bits_m.end())));
    const double most_m = std::max(
        planned.diameter_m, largest_hole_m(aim_, bore_diameter_m(history_.blank, planned.at_m)));
    const double lowest_cents = at_cents(least_m, 1.0);
    const double highest_cents = at_cents(most_m, 1.0 + kUndercutFlare);
    return std::min(std::max(stop_cents, lowest_cents), std::max(lowest_cents, highest_cents));
}

Until Cuts::stop(std::size_t note, int own_hole) const {
    Until until;
    until.open = aim_.notes[note].open;
    until.stop_Hz = shifted_Hz(
        Hz(with_own_goal(own_hole), note, aim_.room_C),
        stop_allowance_cents() - stop_margin_cents(note, own_hole) - goal_.left_over_cents[note]);
    until.allowance_cents = stop_allowance_cents();
    until.now_Hz = Hz(history_.now(), note, aim_.room_C);
    until.now_sigma_cents = off_sigma_cents(note);
    until.moment_cents = moment_sigma_cents();
    return until;
}

}  // namespace canewright
