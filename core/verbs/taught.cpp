// core/verbs/taught.cpp -- to the flute as believed, and back to the maker's sizes.
#include "core/verbs/taught.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/bench/builder.hpp"
#include "core/layout/place_holes.hpp"
#include "core/task/replay.hpp"

namespace canewright {

namespace {

// The layout of a goal in the maker's sizes.
LayoutResult as_measured(const Goal& goal, const BuildState& build) {
    LayoutResult plan = goal.layout;
    const Eigen::VectorXd& u = build.estimate.belief.mean;
    plan.flute.foot_m = foot_to_say_m(goal, build.history.now());
    for (std::size_t i = 0; i < plan.flute.holes.size(); ++i) {
        FingerHole& hole = plan.flute.holes[i];
        const double flare = hole.inner_diameter_m / hole.diameter_m;
        hole.diameter_m = goal.stage.holes[i].diameter_m;
        hole.inner_diameter_m = flare * hole.diameter_m;
        hole.wall_m /= 1.0 + u(kWall);
    }
    for (std::size_t n = 0; n < plan.notes.size(); ++n) {
        NoteResult& note = plan.notes[n];
        note.cents_per_diameter_m *= 1.0 + u(kHoles);
        const double error = std::abs(cents_between(note.sounding_Hz, note.target_Hz));
        if (n == 0 || !(error <= plan.worst_cents)) plan.worst_cents = error;
    }
    return plan;
}

// What the log leaves to the plan is said in it, with the error that it has: the plan is about to
// change, what was drilled is not.
Document with_sizes(const Document& given, const BuildState& build) {
    Document document = given;
    for (std::size_t n = 0; document.log && n < document.log->size(); ++n) {
        LogEntry& entry = (*document.log)[n];
        if (build.size_m[n] <= 0.0 || entry.diameter_m) continue;
        entry.diameter_m = build.size_m[n];
        if (!entry.own_error_m && !entry.error_m) entry.error_m = kGuessedSize * build.size_m[n];
    }
    return document;
}

// The stage that a `sound` is about: every hole of the plan, or those that are cut.
Stage stage_of(const Document& document, const BuildState& build, bool standing) {
    Stage stage = build.history.now();
    if (standing) return stage;
    const std::vector<HoleEntry> planned = document.finger_holes.value_or(std::vector<HoleEntry>());
    for (std::size_t i = 0; i < stage.holes.size() && i < planned.size(); ++i) {
        HoleNow& hole = stage.holes[i];
        hole.at_m = planned[i].at_m;
        hole.diameter_m = planned[i].diameter_m;
        hole.flare = planned[i].inner_diameter_m.value_or(hole.diameter_m) / hole.diameter_m;
        if (!hole.cut) hole.cutting = -1;
        hole.cut = true;
    }
    // A planned foot is a true length: no error of a past saw cut is in it; one that stands is not.
    const double foot_m = document.foot_m.value_or(stage.foot_m);
    if (std::abs(foot_m - stage.foot_m) > kSameFoot_m) stage.foot_cutting = -1;
    stage.foot_m = foot_m;
    return stage;
}

}  // namespace

bool is_taught(const Document& document) { return has_log(document) || !document.pattern.empty(); }

Json taught_layout(const Document& given) {
    const Document document = planned_like_before(given);
    const BuildState build = build_of(document);
    const Goal goal = find_goal(build.history, build.estimate, build.aim, Explain::yes);
    LayoutTask task = goal.task;
    task.end_m = build.history.now().foot_m;
    Json json = layout_json(with_sizes(given, build), task, as_measured(goal, build),
                            {goal.layout.flute, goal.air});
    json["converged"] = goal.converged && build.estimate.converged;
    return json;
}

TaughtFlute taught_flute(const Document& given) {
    const Document document = planned_like_before(given);
    const BuildState build = build_of(document);
    const bool standing =
        has_log(document) && document.sounds_as.value_or(SoundsAs::standing) == SoundsAs::standing;
    TaughtFlute taught;
    taught.heard = build.taught;
    taught.task = sound_task(document);
    taught.task.flute = with_unknowns(build.history, stage_of(document, build, standing),
                                      build.estimate.belief.mean);
    taught.octave_cents = build.estimate.belief.mean(kDrift);
    taught.voice_sigma = build.estimate.belief.sigma(kSoundHole);
    taught.air = air_with_unknowns(build.history, build.aim.play_C, build.estimate.belief.mean);
    return taught;
}

SpreadTask taught_spread_task(const Document& document) {
    Document plan = document;
    plan.sounds_as = SoundsAs::planned;
    const TaughtFlute taught = taught_flute(plan);
    SpreadTask task = spread_task(document);
    task.plan.flute = taught.task.flute;
    task.plan.sound_speed = taught.air.sound_speed_m_s / task.plan.air.sound_speed_m_s;
    task.plan.air = taught.air;
    task.model.voice = taught.voice_sigma;
    for (std::size_t k = 0; k < task.lift_cents.size(); ++k)
        task.lift_cents[k] = lift_cents(taught.octave_cents, taught.task.above_cents[k]);
    return task;
}

Json taught_spread(const Document& document) {
    return spread_of(document, taught_spread_task(document));
}

Json taught_sound(const Document& document) {
    const TaughtFlute taught = taught_flute(document);
    return sound_json(document, taught.task, taught.air, taught.octave_cents);
}

}  // namespace canewright
