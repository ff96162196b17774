// core/bench/aim.cpp: a layout with the calibrated flute, translated back to the maker's sizes.
#include "core/bench/aim.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/layout/gauss_newton.hpp"

namespace canewright {
namespace {

// Where a bit ends, a knife goes on: the last touch opens a hole a little past its bit.
constexpr double kBeyondLargestBit = 1.2;
constexpr std::array<double, 3> kSizesTried = {0.40, 0.30, 0.52};  // of the bore, as in core/layout
constexpr double kMet_cents = 0.5;

Shop without_bits(Shop shop, double bore_m) {
    if (shop.bits_m.empty()) return shop;
    shop.diameter_min_m =
        std::max(shop.diameter_min_m, *std::min_element(shop.bits_m.begin(), shop.bits_m.end()));
    shop.diameter_max_m = largest_hole_m(shop, bore_m);
    shop.bits_m.clear();
    return shop;
}

bool tunes(const LayoutTask& task, std::size_t hole) {
    return std::any_of(task.notes.begin(), task.notes.end(), [hole](const NoteTarget& note) {
        return !note.open.empty() &&
               *std::min_element(note.open.begin(), note.open.end()) == static_cast<int>(hole) + 1;
    });
}

// Errors of the notes that can still be decided: their own hole is not cut.
double open_errors_cents(const LayoutTask& task, const Stage& now, const Walk& w) {
    double squares = 0.0;
    for (std::size_t n = 0; n < task.notes.size(); ++n) {
        const Fingering& open = task.notes[n].open;
        if (open.empty()) continue;
        const int own = *std::min_element(open.begin(), open.end());
        if (now.holes[static_cast<std::size_t>(own - 1)].cut) continue;
        const double error = w.sound.errors_cents(static_cast<Eigen::Index>(n));
        squares += error * error;
    }
    return std::sqrt(squares);
}

struct LayoutWalk {
    Flute flute;
    std::vector<double> frequency_Hz;
    bool converged = false;
};

// One walk of the layout from where the holes are or were planned: no bits, no list of what binds,
// so that a step is answered at once.
//
// The last notes could be had from a hole in two places, the other one near the sound hole, and a
// walk with sizes free may end there. So holes to come keep their planned size at first, which
// leaves one place; where the walls do not allow that they keep the place they have come to and
// change size; only then is everything free.
LayoutWalk lay_out(LayoutTask& task, const Air& air, const Stage& now) {
    const double bore_m = bore_diameter_m(task.flute, 0.0);
    const double usual_m = std::clamp(kSizesTried[0] * bore_m, task.shop.diameter_min_m,
                                      std::max(task.shop.diameter_max_m, task.shop.diameter_min_m));
    const std::vector<FingerHole> cut = task.flute.holes;
    task.flute.holes.clear();
    task.cut_diameter_m.assign(now.holes.size(), 0.0);
    std::vector<FingerHole> start(now.holes.size());
    bool planned = true, any_open = false;
    std::size_t made = 0;
    for (std::size_t i = 0; i < now.holes.size(); ++i) {
        FingerHole& hole = start[i];
        if (now.holes[i].cut) {
            hole = cut[made++];
            hole.at_fixed = true;
            task.cut_diameter_m[i] = hole.diameter_m;
            continue;
        }
        any_open = true;
        planned = planned && now.holes[i].at_m > 0.0;
        hole.at_m = now.holes[i].at_m;
        hole.wall_m = task.flute.wall_m;
        hole.diameter_m = hole.inner_diameter_m =
            now.holes[i].diameter_m > 0.0 ? now.holes[i].diameter_m : usual_m;
    }
    std::optional<Walk> best;
    LayoutWalk laid;
    enum class Keep { sizes, places, nothing };
    const auto attempt = [&](double size_over_bore, Keep keep) {
        task.flute.holes.clear();
        std::vector<FingerHole> from = start;
        const Flute guess = Problem(task, air).first_guess(size_over_bore);
        for (std::size_t i = 0; i < from.size(); ++i) {
            if (now.holes[i].cut) continue;
            if (!planned || keep == Keep::nothing) from[i] = guess.holes[i];
            if (keep == Keep::places && best) from[i] = laid.flute.holes[i];
            // a hole that tunes no note stays put: nothing but a wish would hold it
            const bool idle = !tunes(task, i);
            from[i].at_fixed = idle || keep == Keep::places;
            from[i].diameter_fixed = idle || keep == Keep::sizes;
        }
        task.flute.holes = from;
        Problem problem(task, air);
        Flute first = task.flute;
        first.foot_m = std::min(task.end_m, guess.foot_m);
        const Walk w = walk(problem, problem.numbers(first), size_over_bore);
        // another start must be clearly better: the same notes from odder holes are no gain
        if (w.feasible && w.sound.speaks &&
            (!best || w.errors_cents() + kMet_cents < best->errors_cents())) {
            best = w;
            laid.flute = problem.flute(w.x);
            laid.frequency_Hz = w.sound.frequency_Hz;
            laid.converged = w.converged;
        }
        return best && (!any_open || open_errors_cents(task, now, *best) < kMet_cents);
    };
    bool met = attempt(kSizesTried[0], Keep::sizes) || attempt(kSizesTried[0], Keep::places);
    for (const double size_over_bore : kSizesTried)
        met = met || attempt(size_over_bore, Keep::nothing);
    if (!best) {  // the walls leave no room: the flute as it is, which is said by `converged`
        laid.flute = task.flute;
        laid.flute.holes = start;
        for (const NoteTarget& note : task.notes)
            laid.frequency_Hz.push_back(resonance(laid.flute, air, note.open, 1).frequency_Hz);
    }
    return laid;
}

}  // namespace

double largest_hole_m(const Shop& shop, double bore_m) {
    double most_m = std::min(shop.diameter_max_m, kLargestHole * bore_m);
    if (!shop.bits_m.empty())
        most_m = std::min(
            most_m, kBeyondLargestBit * *std::max_element(shop.bits_m.begin(), shop.bits_m.end()));
    return most_m;
}

Goal find_goal(const History& history, const Estimate& estimate, const Aim& aim) {
    const Eigen::VectorXd& u = estimate.belief.mean;
    const Stage& now = history.now();
    const Air air = air_with_unknowns(history, aim.play_C, u);

    LayoutTask task;
    task.flute = with_unknowns(history, now, u);
    task.hole_count = static_cast<int>(now.holes.size());
    task.lowest_free = aim.lowest_free;
    task.end_m = task.flute.foot_m;
    task.shop = without_bits(aim.shop, bore_diameter_m(task.flute, 0.0));
    Goal goal;
    std::size_t lowest = 0;
    for (const NoteTarget& note : aim.notes) {
        if (note.open.empty()) lowest = goal.above_cents.size();
        const double above_cents = note.interval_cents - aim.notes.front().interval_cents;
        goal.above_cents.push_back(above_cents);
        NoteTarget passive = note;  // what the breath adds, the tube need not
        const double drift = drift_cents(u, above_cents);
        if (aim.lowest_free)
            passive.interval_cents -= drift;
        else
            passive.target_Hz = shifted_Hz(note.target_Hz, -drift);
        task.notes.push_back(passive);
    }

    const LayoutWalk laid = lay_out(task, air, now);

    goal.converged = laid.converged;
    goal.stage = now;
    goal.stage.foot_m = laid.flute.foot_m;  // a true length: no offset of a past saw cut
    goal.stage.foot_cutting = -1;
    for (std::size_t i = 0; i < now.holes.size() && i < laid.flute.holes.size(); ++i) {
        HoleNow& hole = goal.stage.holes[i];
        hole.at_m = laid.flute.holes[i].at_m;
        // back from effective size to the maker's: the inverse of with_unknowns()
        const double offset_m = hole.cut ? cut_offset_m(u, hole.cutting) : 0.0;
        hole.diameter_m = (laid.flute.holes[i].diameter_m - offset_m) / (1.0 + u(kHoles));
        if (!hole.cut) hole.cutting = -1;
        hole.cut = true;
    }
    const double lowest_Hz = laid.frequency_Hz[lowest];
    for (std::size_t n = 0; n < aim.notes.size(); ++n) {
        const double passive_Hz = aim.lowest_free
                                      ? shifted_Hz(lowest_Hz, task.notes[n].interval_cents -
                                                                  task.notes[lowest].interval_cents)
                                      : task.notes[n].target_Hz;
        goal.target_Hz.push_back(shifted_Hz(passive_Hz, drift_cents(u, goal.above_cents[n])));
        goal.left_over_cents.push_back(cents_between(laid.frequency_Hz[n], passive_Hz));
    }
    return goal;
}

}  // namespace canewright
