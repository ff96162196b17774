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

}  // namespace

std::vector<PlannedPlace> planned_places(const History& history, const Estimate& estimate,
                                         const Aim& aim, const std::vector<double>& above_cents) {
    // The flute as it was planned, before anything was heard of it.
    Stage plan = history.stages.front();
    const Eigen::VectorXd& mean = estimate.before.mean;
    for (HoleNow& hole : plan.holes) {
        hole.cut = true;
        hole.cutting = -1;
    }
    std::vector<PlannedPlace> places(plan.holes.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
        const HoleNow& hole = plan.holes[i];
        places[i].at_m = hole.at_m;
        const int note = note_of(aim, static_cast<int>(i));
        if (history.now().holes[i].cut || note < 0 || aim.lowest_free || !(hole.diameter_m > 0.0))
            continue;
        const std::size_t n = static_cast<std::size_t>(note);
        const Fingering& open = aim.notes[n].open;
        const NoteModel model = note_model(history, plan, open, aim.play_C, mean, above_cents[n],
                                           aim.notes[n].target_Hz);
        if (!model.speaks) continue;
        const double sigma = sigma_cents(model, estimate.before);
        const double off = cents_between(model.frequency_Hz, aim.notes[n].target_Hz);
        if (std::abs(off) > kPlanReach * sigma + aim.tolerance_cents) continue;
        Stage moved = plan;
        moved.holes[i].at_m += kNudge_m;
        const double slope = cents_between(note_Hz(history, moved, open, aim.play_C, mean,
                                                   above_cents[n], model.frequency_Hz),
                                           model.frequency_Hz) /
                             kNudge_m;
        const double reach_m = kPlanReach * sigma / std::abs(slope);
        if (std::isfinite(reach_m)) places[i].reach_m = std::max(kPlanReach_m, reach_m);
    }
    return places;
}

}  // namespace canewright
