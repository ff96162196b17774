// core/bench/planned_reach.cpp: what was not known when a hole was planned, in millimetres.
#include "core/bench/planned_reach.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/bench/belief/note_model.hpp"
#include "core/bench/belief/readings.hpp"

namespace canewright {
namespace {

constexpr double kNudge_m = 1e-4;

// Notes of the plan against what they are to be: their targets, or what the lowest one that floats
// makes of them.
class Plan {
   public:
    Plan(const History& history, const Estimate& estimate, const Aim& aim,
         const std::vector<double>& above_cents)
        : history_(history), estimate_(estimate), aim_(aim), above_cents_(above_cents) {
        for (std::size_t n = 0; n < aim.notes.size(); ++n)
            if (aim.notes[n].open.empty()) lowest_ = n;
    }

    // NaN where it does not speak.
    double off_cents(const Stage& stage, std::size_t n) const {
        const double target_Hz =
            aim_.lowest_free
                ? shifted_Hz(Hz(stage, lowest_), above_cents_[n] - above_cents_[lowest_])
                : aim_.notes[n].target_Hz;
        return cents_between(Hz(stage, n), target_Hz);
    }
    double sigma_cents(const Stage& stage, std::size_t n) const {
        NoteModel model = modelled(stage, n);
        if (aim_.lowest_free) model.slope -= modelled(stage, lowest_).slope;
        return canewright::sigma_cents(model, estimate_.before);
    }

   private:
    double near_Hz(std::size_t n) const { return aim_.lowest_free ? 0.0 : aim_.notes[n].target_Hz; }
    double Hz(const Stage& stage, std::size_t n) const {
        return note_Hz(history_, stage, aim_.notes[n].open, aim_.play_C, estimate_.before.mean,
                       above_cents_[n], near_Hz(n));
    }
    NoteModel modelled(const Stage& stage, std::size_t n) const {
        return note_model(history_, stage, aim_.notes[n].open, aim_.play_C, estimate_.before.mean,
                          above_cents_[n], near_Hz(n));
    }

    const History& history_;
    const Estimate& estimate_;
    const Aim& aim_;
    const std::vector<double>& above_cents_;
    std::size_t lowest_ = 0;
};

}  // namespace

std::vector<PlannedPlace> planned_places(const History& history, const Estimate& estimate,
                                         const Aim& aim, const std::vector<double>& above_cents) {
    // The flute as it was planned, before anything was heard of it.
    Stage plan = history.stages.front();
    for (HoleNow& hole : plan.holes) {
        hole.cut = true;
        hole.cutting = -1;
    }
    const Plan planned(history, estimate, aim, above_cents);
    std::vector<PlannedPlace> places(plan.holes.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
        const HoleNow& hole = plan.holes[i];
        places[i].at_m = hole.at_m;
        const int note = note_of(aim, static_cast<int>(i));
        if (history.now().holes[i].cut || note < 0 || !(hole.diameter_m > 0.0)) continue;
        const std::size_t n = static_cast<std::size_t>(note);
        const double off = planned.off_cents(plan, n);
        if (!std::isfinite(off)) continue;
        const double sigma = planned.sigma_cents(plan, n);
        if (std::abs(off) > kPlanReach * sigma + aim.tolerance_cents) continue;
        Stage moved = plan;
        moved.holes[i].at_m += kNudge_m;
        const double slope = (planned.off_cents(moved, n) - off) / kNudge_m;
        const double reach_m = kPlanReach * sigma / std::abs(slope);
        if (std::isfinite(reach_m)) places[i].reach_m = std::max(kPlanReach_m, reach_m);
    }
    return places;
}

}  // namespace canewright
