// core/bench/rescue.cpp: amounts by solving the rescued flute.
#include "core/bench/rescue.hpp"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/bench/belief/note_model.hpp"
#include "core/bench/belief/readings.hpp"
#include "core/bench/builder.hpp"
#include "core/bench/cuts.hpp"

namespace canewright {
namespace {

// What a file can do and a ruler can show.
constexpr double kLeastMove_m = 0.2e-3;

constexpr double kSemitone_cents = 100.0;
constexpr double kFarApart_cents = 12.0;  // readings further apart than this are not alike

// Errors of a note on another stage, where it will be played.
double error_cents(const History& history, const Estimate& estimate, const Aim& aim,
                   const Goal& goal, const Stage& stage, std::size_t n) {
    return cents_between(note_Hz(history, stage, aim.notes[n].open, aim.play_C,
                                 estimate.belief.mean, goal.above_cents[n], goal.target_Hz[n]),
                         goal.target_Hz[n]);
}

// The worst of the notes that are finished: what is flat can still be opened.
double worst_sharp_cents(const History& history, const Estimate& estimate, const Aim& aim,
                         const Goal& goal, const Stage& stage) {
    double worst = 0.0;
    for (std::size_t n = 0; n < aim.notes.size(); ++n)
        if (playable(stage, aim.notes[n].open))
            worst = std::max(worst, error_cents(history, estimate, aim, goal, stage, n));
    return worst;
}

// The flute with a hole filled and cut anew, as core/bench/builder takes it.
Stage as_filled(const History& history, Stage stage, std::size_t hole) {
    HoleNow& filled = stage.holes[hole];
    filled.cutting = -1;
    filled.flare =
        std::min(history.stages.front().holes[hole].flare, widest_flare(history.blank, filled));
    return stage;
}

// What a hole's size, measured after work by hand, leaves open.
double by_hand_cents(const std::function<double(const Stage&)>& error_of, Stage stage,
                     std::size_t hole) {
    const double here = error_of(stage);
    stage.holes[hole].diameter_m += Measures{}.size_m;
    return std::abs(error_of(stage) - here);
}

void sort_options(RescuePlan& plan) {
    std::stable_sort(plan.options.begin(), plan.options.end(),
                     [](const RescueOption& a, const RescueOption& b) {
                         if ((a.what == Remedy::accept) != (b.what == Remedy::accept))
                             return b.what == Remedy::accept;
                         return a.reversible && !b.reversible;
                     });
}

}  // namespace

double zero_of(const std::function<double(double)>& f, double low, double high) {
    const double at_low = f(low), at_high = f(high);
    if (!(at_low < 0.0)) return low;
    if (!(at_high > 0.0)) return high;
    std::uintmax_t trips = 60;
    const auto found = boost::math::tools::toms748_solve(
        f, low, high, at_low, at_high, boost::math::tools::eps_tolerance<double>(30), trips);
    return 0.5 * (found.first + found.second);
}

RescuePlan rescue_foot(const History& history, const Estimate& estimate, const Aim& aim,
                       const Goal& goal, const Cuts& cuts) {
    const std::size_t low = cuts.lowest_note();
    const Stage& now = history.now();
    const auto error_of = [&](const Stage& stage) {
        return error_cents(history, estimate, aim, goal, stage, low);
    };
    const double off = error_of(now);
    RescuePlan plan;
    plan.trouble = Trouble::foot_short;

    const double bore_m = bore_diameter_m(history.blank, now.foot_m);
    Stage disc = now;
    disc.foot_plug = FootPlug{0.0, kRescueDisc_m};
    RescueOption option;
    option.what = Remedy::foot_disc;
    option.reversible = true;
    option.size_m = zero_of(
        [&](double opening_m) {
            disc.foot_plug->opening_m = opening_m;
            return error_of(disc);
        },
        0.3 * bore_m, 0.97 * bore_m);
    disc.foot_plug->opening_m = option.size_m;
    option.shift_cents = error_of(disc) - off;
    option.costs_cents = worst_sharp_cents(history, estimate, aim, goal, disc);
    // It is pressed in until it is flush: where the last hole would be behind it, it is no way out.
    const auto covers = [&now](const HoleNow& hole) {
        return hole.cut && hole.at_m + 0.5 * hole.diameter_m > now.foot_m - kRescueDisc_m;
    };
    if (std::none_of(now.holes.begin(), now.holes.end(), covers)) plan.options.push_back(option);

    Stage sleeve = now;
    option = {};
    option.what = Remedy::foot_sleeve;
    option.reversible = true;
    option.length_m = -zero_of(
        [&](double shorter_m) {
            sleeve.foot_m = now.foot_m - shorter_m;
            return error_of(sleeve);
        },
        -0.25 * now.foot_m, 0.0);
    sleeve.foot_m = now.foot_m + option.length_m;
    option.shift_cents = error_of(sleeve) - off;
    option.costs_cents = worst_sharp_cents(history, estimate, aim, goal, sleeve);
    plan.options.push_back(option);

    option = {};
    option.what = Remedy::lowest_floats;
    option.reversible = true;
    option.target_Hz = shifted_Hz(goal.target_Hz[low], off);
    plan.options.push_back(option);

    const bool any_cut =
        std::any_of(now.holes.begin(), now.holes.end(), [](const HoleNow& h) { return h.cut; });
    if (!any_cut) {  // with holes in it the tube would have to be another one
        option = {};
        option.what = Remedy::next_key;
        option.target_Hz = shifted_Hz(
            goal.target_Hz[low], kSemitone_cents * std::max(1.0, std::ceil(off / kSemitone_cents)));
        option.shift_cents = cents_between(option.target_Hz, goal.target_Hz[low]) - off;
        plan.options.push_back(option);
    }
    option = {};
    option.what = Remedy::accept;
    option.reversible = true;
    option.costs_cents = off;
    plan.options.push_back(option);
    sort_options(plan);
    return plan;
}

RescuePlan rescue_hole(const History& history, const Estimate& estimate, const Aim& aim,
                       const Goal& goal, const Cuts& cuts, std::size_t note, int own) {
    const std::size_t hole = static_cast<std::size_t>(own);
    const Stage& now = history.now();
    const double off = cuts.off_cents(note);
    const double should_Hz =
        shifted_Hz(note_Hz(history, now, aim.notes[note].open, aim.room_C, estimate.belief.mean,
                           goal.above_cents[note], goal.target_Hz[note]),
                   -off);
    const auto error_of = [&](const Stage& stage) {  // at this stage, in this room
        return cents_between(note_Hz(history, stage, aim.notes[note].open, aim.room_C,
                                     estimate.belief.mean, goal.above_cents[note], should_Hz),
                             should_Hz);
    };
    RescuePlan plan;
    plan.trouble = Trouble::hole_sharp;
    RescueOption option;
    option.what = Remedy::narrow;
    option.reversible = true;
    option.number = own + 1;
    // what a hole was believed to act like beyond its measure goes with the cut that is filled
    Stage smaller = as_filled(history, now, hole);
    // narrowed by hand and so not true to a tenth: below what is wanted, then opened by ear
    option.size_m = zero_of(
        [&](double diameter_m) {
            smaller.holes[hole].diameter_m = diameter_m;
            return error_of(smaller) + kLeftByDrill_cents;
        },
        0.4 * now.holes[hole].diameter_m, now.holes[hole].diameter_m);
    smaller.holes[hole].diameter_m = option.size_m;
    option.shift_cents = error_of(smaller) - off;
    option.sigma_cents = by_hand_cents(error_of, smaller, hole);
    plan.options.push_back(option);

    option = {};
    option.what = Remedy::one_side;
    option.number = own + 1;
    option.size_m = now.holes[hole].diameter_m;
    const double below_m = hole + 1 < now.holes.size() && now.holes[hole + 1].cut
                               ? now.holes[hole + 1].at_m
                               : now.foot_m;
    const double room_m = std::min(0.5 * now.holes[hole].diameter_m,
                                   below_m - now.holes[hole].at_m - now.holes[hole].diameter_m);
    if (room_m > 0.0) {
        Stage moved = as_filled(history, now, hole);
        option.length_m = -zero_of(
            [&](double up_m) {
                moved.holes[hole].at_m = now.holes[hole].at_m - up_m;
                return error_of(moved);
            },
            -room_m, 0.0);
        moved.holes[hole].at_m = now.holes[hole].at_m + option.length_m;
        option.shift_cents = error_of(moved) - off;
        option.sigma_cents = by_hand_cents(error_of, moved, hole);
        option.costs_cents = std::max(0.0, off + option.shift_cents);
        // filled and drilled anew where it was, its size is only better known: that moves no hole
        if (option.length_m > kLeastMove_m) plan.options.push_back(option);
    }
    option = {};
    option.what = Remedy::accept;
    option.reversible = true;
    option.number = own + 1;
    option.costs_cents = off;
    plan.options.push_back(option);
    sort_options(plan);
    return plan;
}

RescuePlan look_for_trouble(const History& history, const Estimate& estimate, const Aim& aim,
                            const Goal& goal) {
    RescuePlan plan;
    RescueOption option;
    option.reversible = true;
    // readings from the last back, as long as they do not fit and lie alike
    int alike = 0;
    double sum = 0.0, first = 0.0;
    for (std::size_t i = history.heard.size(); i-- > 0;) {
        const Verdict& v = estimate.verdicts[i];
        if (history.heard[i].voice_moved_since || v.trusted) break;
        if (alike == 0) first = v.off_cents;
        if (std::abs(v.off_cents - first) > kFarApart_cents) break;
        ++alike;
        sum += v.off_cents;
    }
    if (alike >= kAlike) {
        plan.trouble = sum < 0.0 ? Trouble::all_flat : Trouble::all_sharp;
        option.what = Remedy::read_again;
        option.shift_cents = -sum / alike;
        plan.options = {option};
        return plan;
    }
    const Eigen::VectorXd& u = estimate.belief.mean;
    if (u(kSoundHole) < -kLargeVoice) {
        plan.trouble = Trouble::sound_hole_large;
        const Stage& now = history.now();
        const bool any_cut =
            std::any_of(now.holes.begin(), now.holes.end(), [](const HoleNow& h) { return h.cut; });
        if (!any_cut) {
            option.what = Remedy::lay_out_anew;
            plan.options.push_back(option);
        }
        // closed from the far end until the lowest note sounds as the model's own voice would
        std::size_t low = 0;
        for (std::size_t n = 0; n < aim.notes.size(); ++n)
            if (aim.notes[n].open.empty()) low = n;
        Eigen::VectorXd usual = u;
        usual(kSoundHole) = 0.0;
        const double wanted_Hz = note_Hz(history, now, {}, aim.room_C, usual, 0.0);
        Stage shaded = now;
        option.what = Remedy::shade_sound_hole;
        option.size_m = zero_of(
            [&](double length_m) {
                shaded.sound_hole.length_m = length_m;
                return cents_between(note_Hz(history, shaded, aim.notes[low].open, aim.room_C, u,
                                             goal.above_cents[low], wanted_Hz),
                                     wanted_Hz);
            },
            0.5 * now.sound_hole.length_m, now.sound_hole.length_m);
        option.length_m = now.sound_hole.length_m - option.size_m;
        plan.options.push_back(option);
        return plan;
    }
    const double expected_cents = std::max(estimate.before.mean(kDrift), kDriftMean_cents);
    if (u(kDrift) > kLiftingBreath_cents + expected_cents - kDriftMean_cents) {
        plan.trouble = Trouble::breath_lifts;
        option.what = Remedy::breathe_evenly;
        option.shift_cents = -u(kDrift);
        plan.options = {option};
    }
    return plan;
}

}  // namespace canewright
