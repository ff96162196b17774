// core/bench/make_step.cpp: amounts for each kind of step.
#include "core/bench/make_step.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/bench/belief/note_model.hpp"
#include "core/bench/belief/readings.hpp"

namespace canewright {
namespace {

constexpr double kAsWideAsMay = 0.98;  // of the largest: what is left is no stroke any more

}  // namespace

Step StepMaker::read(std::size_t note, Why why) const {
    Step step;
    step.what = Do::read;
    step.why = why;
    step.open = aim_.notes[note].open;
    step.sigma_cents = cuts_.off_sigma_cents(note);
    return step;
}

double StepMaker::foot_sigma_cents() const {
    return sigma_cents(note_model(history_, goal_.stage, {}, aim_.play_C, estimate_.belief.mean,
                                  0.0, goal_.target_Hz[cuts_.lowest_note()]),
                       estimate_.belief);
}

Step StepMaker::saw(double at_m, Why why) const {
    Step step;
    step.what = Do::foot;
    step.why = why;
    step.at_m = at_m;
    step.open = aim_.notes[cuts_.lowest_note()].open;
    const double per_m = cuts_.foot_cents_per_m();
    step.expect_cents = (history_.now().foot_m - at_m) * per_m;
    step.sigma_cents = foot_sigma_cents();
    step.overshoot = cuts_.overshoot(-(at_m - goal_.stage.foot_m) * per_m, step.sigma_cents);
    Stage sawn = history_.now();
    sawn.foot_m = at_m;
    sawn.foot_cutting = -1;
    step.expect_Hz = cuts_.Hz(sawn, cuts_.lowest_note(), aim_.room_C);
    return step;
}

Step StepMaker::drill(std::size_t hole, int note) const {
    const HoleNow& wanted = goal_.stage.holes[hole];
    Step step;
    step.what = Do::hole;
    step.why = Why::drill_small;
    step.number = static_cast<int>(hole) + 1;
    step.at_m = wanted.at_m;
    double most_m =
        note < 0 ? wanted.diameter_m : cuts_.drill_m(hole, static_cast<std::size_t>(note));
    // where the note's pitch is not known, what is small is judgement
    if (!std::isfinite(most_m)) most_m = 0.5 * wanted.diameter_m;
    // what is small enough for the hole that it will make
    const double bit_m = std::max(most_m - aim_.burn.wider_m, 0.5 * most_m);
    step.diameter_m = bit_m;
    if (!aim_.shop.bits_m.empty()) {
        step.diameter_m = cuts_.bit_m(bit_m);
        // no bit is small enough: the smallest there is, turned with care
        if (!step.diameter_m)
            step.diameter_m = *std::min_element(aim_.shop.bits_m.begin(), aim_.shop.bits_m.end());
    }
    step.wide_m = aim_.burn.hole_m(*step.diameter_m);
    if (note < 0) return step;
    const std::size_t n = static_cast<std::size_t>(note);
    step.open = aim_.notes[n].open;
    Stage drilled = history_.now();
    drilled.holes[hole] = wanted;
    const double goal_Hz = cuts_.Hz(drilled, n, aim_.room_C);
    drilled.holes[hole].diameter_m = step.wide_m;
    const NoteModel model = note_model(history_, drilled, step.open, aim_.room_C,
                                       estimate_.belief.mean, goal_.above_cents[n], goal_Hz);
    step.expect_cents = cents_between(model.frequency_Hz, goal_Hz);
    step.expect_Hz = model.frequency_Hz;
    drilled.holes[hole].diameter_m += cuts_.drill_sigma_m();
    const double by_size = cents_between(cuts_.Hz(drilled, n, aim_.room_C), model.frequency_Hz);
    step.sigma_cents = std::hypot(sigma_cents(model, estimate_.belief), by_size);
    step.overshoot = cuts_.overshoot(step.expect_cents, step.sigma_cents);
    return step;
}

Step StepMaker::by_ear(std::size_t note, int own) const {
    Step step;
    step.what = own < 0 ? Do::foot : Do::hole;
    step.why = own < 0 ? Why::finish_foot : Why::open_by_ear;
    step.number = own + 1;
    if (own >= 0 && history_.now().holes[static_cast<std::size_t>(own)].diameter_m >
                        kAsWideAsMay * largest_hole_m(aim_, bore_diameter_m(history_.blank, 0.0))) {
        step.what = Do::undercut;
        step.why = Why::undercut_hole;
    }
    step.at_m =
        own < 0 ? goal_.stage.foot_m : history_.now().holes[static_cast<std::size_t>(own)].at_m;
    step.open = aim_.notes[note].open;
    step.until = cuts_.stop(note, own);
    step.expect_Hz = step.until->stop_Hz;
    step.expect_cents = -cuts_.off_cents(note) - cuts_.stop_margin_cents(note, own);
    step.sigma_cents = cuts_.opened_sigma_cents(note);
    step.overshoot =
        cuts_.overshoot(-cuts_.stop_margin_cents(note, own) + kHalfStroke_cents, step.sigma_cents);
    return step;
}

Step StepMaker::rescue(std::size_t note, int own) const {
    Step step;
    step.what = Do::rescue;
    const bool beyond = cuts_.off_cents(note) - cuts_.off_sigma_cents(note) > aim_.tolerance_cents;
    step.why = own < 0  ? Why::too_sharp_foot
               : beyond ? Why::too_sharp_hole
                        : Why::likely_sharp_hole;
    step.open = aim_.notes[note].open;
    step.number = own + 1;
    step.rescue = own < 0 ? rescue_foot(history_, estimate_, aim_, goal_, cuts_)
                          : rescue_hole(history_, estimate_, aim_, goal_, cuts_, note, own);
    if (!step.rescue.options.empty()) step.expect_cents = step.rescue.options.front().shift_cents;
    step.sigma_cents = cuts_.off_sigma_cents(note);
    return step;
}

void StepMaker::forecast(Step& step) const {
    step.goal = goal_;
    step.converged = goal_.converged && estimate_.converged;
    for (std::size_t n = 0; n < aim_.notes.size(); ++n) {
        Forecast f;
        f.open = aim_.notes[n].open;
        f.target_Hz = goal_.target_Hz[n];
        f.expected_Hz = shifted_Hz(f.target_Hz, goal_.left_over_cents[n]);
        const bool now = playable(history_.now(), f.open);
        f.now_cents = now ? cuts_.off_cents(n) : std::numeric_limits<double>::quiet_NaN();
        f.sigma_cents =
            now ? cuts_.off_sigma_cents(n)
                : sigma_cents(note_model(history_, goal_.stage, f.open, aim_.play_C,
                                         estimate_.belief.mean, goal_.above_cents[n], f.target_Hz),
                              estimate_.belief);
        step.notes.push_back(f);
    }
}

}  // namespace canewright
