// core/layout/place_holes.cpp: the best layout, and what each binding limit costs.
#include "core/layout/place_holes.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/stable_order.hpp"
#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "core/layout/placement.hpp"

namespace canewright {
namespace {

constexpr double kUnknown = std::numeric_limits<double>::quiet_NaN();

Placement placement(const LayoutTask& task, const Air& air) {
    Placement free = free_placement(task, air);
    if (task.shop.bits_m.empty() || !free.walk.feasible) return free;
    Placement bitten = placement_with_bits(task, air, free);
    bitten.evaluations += free.evaluations;
    bitten.steps += free.steps;
    return bitten;
}

// Solves again without each limit that presses; those whose absence helps are binding. With bits,
// the bits found stay in their holes, but where they are themselves what is left out.
void find_binding(const LayoutTask& task, const Air& air, const Placement& with,
                  LayoutResult& result) {
    const auto judge = [&](const Wall& wall, const Placement& without) {
        result.evaluations += without.evaluations;
        if (!without.walk.sound.speaks) return;
        const double cost = with.walk.errors_cents() - without.walk.errors_cents();
        if (cost > kBindingCost_cents) result.binding.push_back({wall.limit, wall.hole, cost});
    };
    LayoutTask same_bits = task;
    if (!task.shop.bits_m.empty()) {
        judge({Limit::bits, -1}, free_placement(task, air, std::nullopt, &with));
        same_bits.flute.holes = with.flute.holes;
        for (FingerHole& hole : same_bits.flute.holes) hole.diameter_fixed = true;
        same_bits.shop.bits_m.clear();
    }
    for (const Wall& wall : with.active) judge(wall, free_placement(same_bits, air, wall, &with));
    for (std::size_t i = 0; i < task.flute.holes.size(); ++i) {
        const FingerHole& hole = task.flute.holes[i];
        if (!hole.at_fixed && !hole.diameter_fixed) continue;
        const Wall wall{Limit::fixed, static_cast<int>(i)};
        judge(wall, free_placement(same_bits, air, wall, &with));
    }
    stable_order(result.binding,
                 [](const Binding& a, const Binding& b) { return a.costs_cents > b.costs_cents; });
}

void fill_notes(const LayoutTask& task, const Air& air, const Placement& found,
                LayoutResult& result) {
    // Slopes with everything free to move, whatever was fixed.
    LayoutTask loose = task;
    loose.flute = found.flute;
    loose.foot_fixed = loose.lowest_free = false;
    for (FingerHole& hole : loose.flute.holes) hole.at_fixed = hole.diameter_fixed = false;
    Problem problem(loose, air);
    const Eigen::VectorXd x = problem.numbers(found.flute);
    const Sound sound = problem.sound(x, {});  // from scratch, as anyone else would ask for it
    const Eigen::MatrixXd slopes = sound.speaks ? problem.slopes(x, sound) : Eigen::MatrixXd();
    result.evaluations += problem.evaluations();

    double lowest_Hz = 0.0;
    for (std::size_t n = 0; n < task.notes.size(); ++n)
        if (task.notes[n].open.empty())
            lowest_Hz = shifted_Hz(sound.frequency_Hz[n], -task.notes[n].interval_cents);
    for (std::size_t n = 0; n < task.notes.size(); ++n) {
        const NoteTarget& asked = task.notes[n];
        NoteResult note;
        note.open = asked.open;
        note.target_Hz =
            task.lowest_free ? shifted_Hz(lowest_Hz, asked.interval_cents) : asked.target_Hz;
        note.sounding_Hz = sound.frequency_Hz[n];
        note.converged = std::isfinite(note.sounding_Hz);
        note.cents_per_m = note.cents_per_diameter_m = std::numeric_limits<double>::quiet_NaN();
        note.cents_per_foot_m = std::numeric_limits<double>::quiet_NaN();
        if (sound.speaks) {  // order of the numbers: foot, then place and size of each hole
            const auto row = slopes.row(static_cast<Eigen::Index>(n));
            note.cents_per_foot_m = row(0) / problem.scale_m(0);
            if (!asked.open.empty()) {
                const Eigen::Index at =
                    2 * *std::min_element(asked.open.begin(), asked.open.end()) - 1;
                note.cents_per_m = row(at) / problem.scale_m(at);
                note.cents_per_diameter_m = row(at + 1) / problem.scale_m(at + 1);
            }
        }
        result.notes.push_back(note);
        const double error = std::abs(cents_between(note.sounding_Hz, note.target_Hz));
        result.worst_cents = std::max(result.worst_cents, error);
        result.errors_cents = std::hypot(result.errors_cents, error);
    }
}

// No room between the limits: holes in order, all the same, for the maker to see the conflict.
Flute spread_out(const LayoutTask& task) {
    Flute flute = task.flute;
    flute.holes.resize(static_cast<std::size_t>(task.hole_count));
    if (!task.lowest_free) flute.foot_m = task.end_m;
    const double from_m = flute.sound_hole.length_m;
    const double gap_m = (flute.foot_m - from_m) / (task.hole_count + 1);
    double at_m = from_m;
    for (FingerHole& hole : flute.holes) {
        at_m += gap_m;
        hole.at_m = at_m;
        hole.diameter_m = hole.inner_diameter_m =
            std::min(0.5 * gap_m, 0.4 * bore_diameter_m(flute, at_m));
        hole.wall_m = flute.wall_m;
    }
    return flute;
}

// Limits that leave no room at all are given up one kind after the other, and named.
Placement make_room(const LayoutTask& task, const Air& air, LayoutResult& result) {
    LayoutTask looser = task;
    const auto attempt = [&](Limit given_up) {
        result.binding.push_back({given_up, -1, kUnknown});
        return free_placement(looser, air);
    };
    looser.shop.spacing_max_m = kNoLimit;
    Placement found = attempt(Limit::spacing_max);
    if (found.walk.feasible) return found;
    result.binding.clear();
    looser.shop.spacing_min_m = 0.0;
    found = attempt(Limit::spacing_min);
    if (found.walk.feasible) return found;
    looser.shop.diameter_min_m = 0.0;
    looser.shop.bits_m.clear();
    found = attempt(Limit::diameter_min);
    if (!found.walk.feasible) {
        result.binding = {{Limit::tube_end, -1, kUnknown}};
        found.flute = spread_out(task);
    }
    return found;
}

}  // namespace

LayoutResult place_holes(const LayoutTask& task, const Air& air) {
    LayoutResult result;
    Placement found = placement(task, air);
    const bool room = found.walk.feasible;
    if (!room) found = make_room(task, air, result);
    result.flute = found.flute;
    result.steps = found.steps;
    result.evaluations += found.evaluations;
    fill_notes(task, air, found, result);
    // The steps followed each note from one flute to the next; asked for anew it must be the same.
    bool same = found.walk.sound.speaks;
    for (std::size_t n = 0; same && n < result.notes.size(); ++n)
        same = std::abs(cents_between(result.notes[n].sounding_Hz,
                                      found.walk.sound.frequency_Hz[n])) < kLayoutError_cents;
    result.converged = room && found.walk.converged && same;
    if (room && found.walk.sound.speaks && result.errors_cents > kBindingCost_cents)
        find_binding(task, air, found, result);
    return result;
}

}  // namespace canewright
