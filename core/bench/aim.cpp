// core/bench/aim.cpp: a layout with the calibrated flute, translated back to the maker's sizes.
#include "core/bench/aim.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/bench/belief/note_model.hpp"
#include "core/bench/planned_bits.hpp"
#include "core/bench/planned_reach.hpp"
#include "core/bench/sayable.hpp"
#include "core/flute/resonance.hpp"
#include "core/jet/sounding.hpp"
#include "core/layout/problem.hpp"
#include "core/layout/thorough.hpp"

namespace canewright {
namespace {

// From the maker's size of a hole to what it is believed to act as; what a cut's own error adds is
// in the flute as it stands (with_unknowns()).
double acting_m(const Eigen::VectorXd& u, double measured_m) {
    return measured_m * (1.0 + u(kHoles));
}

// All holes of the plan, the cut ones held in place.
void add_holes(LayoutTask& task, const Stage& now, const Eigen::VectorXd& u, const Flute& blank) {
    const std::vector<FingerHole> cut = task.flute.holes;
    task.flute.holes.clear();
    task.cut_diameter_m.assign(now.holes.size(), 0.0);
    task.most_diameter_m.assign(now.holes.size(), kNoLimit);
    std::size_t made = 0;
    for (std::size_t i = 0; i < now.holes.size(); ++i) {
        FingerHole hole = made_of(now.holes[i], blank.wall_m);
        if (now.holes[i].cut) {
            hole = cut[made++];
            hole.at_fixed = true;
            task.cut_diameter_m[i] = hole.diameter_m;
            const double room = std::max(
                0.0, widest_flare(blank, now.holes[i]) / std::max(1.0, now.holes[i].flare) - 1.0);
            task.most_diameter_m[i] = hole.diameter_m + acting_m(u, room * now.holes[i].diameter_m);
        } else {
            if (!(hole.diameter_m > 0.0))
                hole.diameter_m = kUsualHole * task.flute.bore.front().diameter_m;
            hole.diameter_m = acting_m(u, hole.diameter_m);
            hole.inner_diameter_m = hole.diameter_m * now.holes[i].flare;
            hole.wall_m *= 1.0 + u(kWall);
        }
        task.flute.holes.push_back(hole);
    }
}

// Sizes as they act; what a bit makes is the hole, not the bit.
Shop acting_shop(const Aim& aim, const Eigen::VectorXd& u) {
    Shop shop = aim.shop;
    for (double& bit_m : shop.bits_m) bit_m = acting_m(u, aim.burn.hole_m(bit_m));
    shop.diameter_min_m = acting_m(u, shop.diameter_min_m);
    shop.diameter_max_m = acting_m(u, shop.diameter_max_m);
    return shop;
}

// The notes of another flute than the one that was laid out.
void take_instead(Goal& goal, Flute flute) {
    const std::vector<double> lift_cents = lifts_cents(goal.task);
    for (std::size_t n = 0; n < goal.layout.notes.size(); ++n) {
        NoteResult& note = goal.layout.notes[n];
        const Network network(flute, goal.air, note.open);
        const double passive_Hz = resonance(network, 1).frequency_Hz;
        note.sounding_Hz = shifted_Hz(
            passive_Hz, breath_cents(network, passive_Hz, goal.task.breath) + lift_cents[n]);
    }
    goal.layout.flute = std::move(flute);
}

constexpr double kSameSize_m = 1e-9;

bool same_size(const FingerHole& a, const FingerHole& b) {
    return std::abs(a.diameter_m - b.diameter_m) < kSameSize_m &&
           std::abs(a.inner_diameter_m - b.inner_diameter_m) < kSameSize_m;
}

bool same_sizes(const Flute& one, const Flute& other) {
    return std::equal(one.holes.begin(), one.holes.end(), other.holes.begin(), other.holes.end(),
                      same_size);
}

// A hole that cannot be said as it would have to act is held back by the tube; what giving
// way would save is not reckoned.
void name_unsayable(Goal& goal, const Flute& said) {
    for (std::size_t i = 0; i < said.holes.size(); ++i)
        if (!same_size(said.holes[i], goal.layout.flute.holes[i]))
            goal.layout.binding.push_back(
                {Limit::bore_share, static_cast<int>(i), std::numeric_limits<double>::quiet_NaN()});
}

bool all_planned(const Stage& stage) {
    return std::all_of(stage.holes.begin(), stage.holes.end(),
                       [](const HoleNow& hole) { return hole.at_m > 0.0; });
}

// Before anything is cut or heard a plan binds nobody: the holes are placed as `layout` does.
bool under_way(const History& history) {
    return history.stages.size() > 1 || !history.heard.empty();
}

void find_stage(Goal& goal, const Stage& now, const Eigen::VectorXd& u) {
    const Flute& laid = goal.layout.flute;
    goal.stage = now;
    goal.stage.foot_m = laid.foot_m;  // a true length: no offset of a past saw cut
    goal.stage.foot_cutting = -1;
    goal.held.assign(now.holes.size(), false);
    const double sizes = 1.0 + u(kHoles);
    for (std::size_t i = 0; i < now.holes.size(); ++i) {
        HoleNow& hole = goal.stage.holes[i];
        hole.at_m = laid.holes[i].at_m;
        // what is cut grows by so much, from what it measures
        const double grown_m = laid.holes[i].diameter_m - goal.task.cut_diameter_m[i];
        hole.diameter_m = (hole.cut ? hole.diameter_m : 0.0) + grown_m / sizes;
        if (!hole.cut && i < goal.task.planned.size()) {
            const PlannedPlace& plan = goal.task.planned[i];
            constexpr double kAtTheLimit_m = 1e-6;
            goal.held[i] = std::abs(hole.at_m - plan.at_m) > plan.reach_m - kAtTheLimit_m;
        }
        if (!hole.cut) hole.cutting = -1;
        hole.cut = true;
    }
}

}  // namespace

double largest_hole_m(const Aim& aim, double bore_m) {
    const Shop& shop = aim.shop;
    double most_m = std::min(shop.diameter_max_m, kLargestHole * bore_m);
    if (!shop.bits_m.empty())
        most_m = std::min(most_m, kBeyondLargestBit * aim.burn.hole_m(*std::max_element(
                                                          shop.bits_m.begin(), shop.bits_m.end())));
    return most_m;
}

double foot_to_say_m(const Goal& goal, const Stage& now) {
    const bool stays = goal.layout.flute.foot_m >= goal.task.end_m - kSameFoot_m;
    return stays ? now.foot_m : std::min(goal.layout.flute.foot_m, now.foot_m);
}

Goal find_goal(const History& history, const Estimate& estimate, const Aim& aim, Explain explain) {
    const Eigen::VectorXd& u = estimate.belief.mean;
    const Stage& now = history.now();
    Goal goal;
    goal.air = air_with_unknowns(history, aim.play_C, u);
    LayoutTask& task = goal.task;
    task.flute = with_unknowns(history, now, u);
    add_holes(task, now, u, history.blank);
    task.hole_count = static_cast<int>(now.holes.size());
    task.lowest_free = aim.lowest_free;
    task.foot_fixed = aim.lowest_free;
    task.end_m = task.flute.foot_m;
    task.said_end_m = now.foot_m;
    task.breath = history.breath;
    task.octaves_weight = aim.octaves_weight;
    task = thorough(std::move(task));
    if (explain == Explain::no) task.look_beside = nullptr;  // a step names one place
    task.shop = acting_shop(aim, u);
    task.widest_share = kLargestUndercut / (1.0 + u(kBore)) * std::min(1.0, 1.0 + u(kHoles));
    task.notes = aim.notes;
    task.lift_cents = u(kDrift);
    for (const NoteTarget& note : aim.notes)
        goal.above_cents.push_back(above_lowest_cents(aim.notes, note.open));
    if (under_way(history) && all_planned(now)) {
        task.planned = planned_places(history, estimate, aim, goal.above_cents);
        task.keep_bits = keep_planned_bits;
    }

    goal.layout = place_holes(task, goal.air, explain);
    // Where no more than the doubt about the last cut would come off, the foot stays as it is.
    if (!task.foot_fixed && goal.layout.flute.foot_m > now.foot_m - kSameFoot_m &&
        goal.layout.flute.foot_m < task.end_m) {
        task.foot_fixed = true;
        goal.layout = place_holes(task, goal.air, explain);
    }
    // Without room the plan stays to be seen, as far as it can be; nothing is proposed from it.
    if (!goal.layout.room && all_planned(now)) take_instead(goal, put_in_order(task.flute, now));
    goal.converged = goal.layout.converged;
    find_stage(goal, now, u);
    const bool made_sayable = make_sayable(goal.stage, now, history.blank);
    // What is said is what sounds: a belief may hold a hole smaller than any (with_unknowns()).
    Flute said = with_unknowns(history, goal.stage, u);
    if (made_sayable || !same_sizes(said, goal.layout.flute)) {
        said.foot_m = goal.layout.flute.foot_m;
        if (explain == Explain::yes) name_unsayable(goal, said);
        take_instead(goal, std::move(said));
        goal.converged = false;
    }
    for (std::size_t n = 0; n < aim.notes.size(); ++n) {
        const NoteResult& note = goal.layout.notes[n];
        goal.target_Hz.push_back(note.target_Hz);
        goal.left_over_cents.push_back(cents_between(note.sounding_Hz, note.target_Hz));
    }
    return goal;
}

}  // namespace canewright
