// core/bench/aim.cpp: a layout with the calibrated flute, translated back to the maker's sizes.
#include "core/bench/aim.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/layout/place_holes.hpp"

namespace canewright {
namespace {

// Where a bit ends, a knife goes on: the last touch opens a hole a little past its bit.
constexpr double kBeyondLargestBit = 1.2;

Shop without_bits(Shop shop) {
    if (shop.bits_m.empty()) return shop;
    const auto [least, most] = std::minmax_element(shop.bits_m.begin(), shop.bits_m.end());
    shop.diameter_min_m = std::max(shop.diameter_min_m, *least);
    shop.diameter_max_m = std::min(shop.diameter_max_m, kBeyondLargestBit * *most);
    shop.bits_m.clear();
    return shop;
}

}  // namespace

Goal find_goal(const History& history, const Estimate& estimate, const Aim& aim) {
    const Eigen::VectorXd& u = estimate.belief.mean;
    const Stage& now = history.now();
    const Air air = air_with_unknowns(history, aim.play_C, u);

    LayoutTask task;
    task.flute = with_unknowns(history, now, u);
    task.hole_count = static_cast<int>(now.holes.size());
    task.lowest_free = aim.lowest_free;
    task.end_m = now.foot_m;
    task.shop = without_bits(aim.shop);
    Goal goal;
    for (const NoteTarget& note : aim.notes) {
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

    const bool any_cut = std::any_of(now.holes.begin(), now.holes.end(),
                                     [](const HoleNow& hole) { return hole.cut; });
    const std::vector<FingerHole> cut = task.flute.holes;
    task.flute.holes.clear();
    LayoutResult laid = place_holes(task, air);
    if (any_cut && laid.flute.holes.size() == now.holes.size()) {
        std::size_t made = 0;
        task.flute.holes = laid.flute.holes;
        task.cut_diameter_m.assign(now.holes.size(), 0.0);
        for (std::size_t i = 0; i < now.holes.size(); ++i) {
            if (!now.holes[i].cut) continue;
            FingerHole& hole = task.flute.holes[i];
            hole = cut[made++];
            hole.at_fixed = true;
            task.cut_diameter_m[i] = hole.diameter_m;
        }
        laid = place_holes(task, air);
    }

    goal.converged = laid.converged;
    goal.stage = now;
    goal.stage.foot_m = laid.flute.foot_m;
    for (std::size_t i = 0; i < now.holes.size() && i < laid.flute.holes.size(); ++i) {
        HoleNow& hole = goal.stage.holes[i];
        hole.at_m = laid.flute.holes[i].at_m;
        // back from effective size to the maker's: the inverse of with_unknowns()
        const Eigen::Index own = kCommonUnknowns + hole.cutting;
        const double offset_m = hole.cut && hole.cutting >= 0 && own < u.size() ? u(own) : 0.0;
        hole.diameter_m = (laid.flute.holes[i].diameter_m - offset_m) / (1.0 + u(kHoles));
        if (!hole.cut) hole.cutting = -1;
        hole.cut = true;
    }
    for (std::size_t n = 0; n < laid.notes.size(); ++n) {
        const NoteResult& note = laid.notes[n];
        goal.target_Hz.push_back(shifted_Hz(note.target_Hz, drift_cents(u, goal.above_cents[n])));
        goal.left_over_cents.push_back(cents_between(note.sounding_Hz, note.target_Hz));
    }
    return goal;
}

}  // namespace canewright
