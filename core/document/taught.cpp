// core/document/taught.cpp -- to the flute as believed, and back to the maker's sizes.
#include "core/document/taught.hpp"

#include <algorithm>

#include "core/base/units.hpp"
#include "core/bench/builder.hpp"
#include "core/document/replay.hpp"
#include "core/layout/place_holes.hpp"

namespace canewright {

namespace {

// Sizes as the maker measures them and as they are believed to act, hole by hole.
class Sizes {
   public:
    explicit Sizes(const BuildState& build) : build_(build) {}

    double factor() const { return 1.0 + build_.estimate.belief.mean(kHoles); }
    double offset_m(std::size_t i) const {
        const std::vector<HoleNow>& holes = build_.history.now().holes;
        if (i >= holes.size() || !holes[i].cut) return 0.0;
        return cut_offset_m(build_.estimate.belief.mean, holes[i].cutting);
    }
    double acting_m(double measured_m, std::size_t i) const {
        return measured_m * factor() + offset_m(i);
    }
    double measured_m(double acting_m, std::size_t i) const {
        return (acting_m - offset_m(i)) / factor();
    }

   private:
    const BuildState& build_;
};

double lift_cents(const BuildState& build, const Fingering& open) {
    return drift_cents(build.estimate.belief.mean, above_lowest_cents(build.aim.notes, open));
}

// Bore, wall, voice and foot of the flute in the hand, as believed; the holes are the caller's.
Flute tube_as_believed(const BuildState& build) {
    return with_unknowns(build.history, build.history.now(), build.estimate.belief.mean);
}

void as_believed(LayoutTask& task, const BuildState& build) {
    const Sizes sizes(build);
    const Flute now = tube_as_believed(build);
    const double wall = 1.0 + build.estimate.belief.mean(kWall);
    std::vector<FingerHole> holes = task.flute.holes;
    for (std::size_t i = 0; i < holes.size(); ++i) {
        const HoleNow& made = build.history.now().holes[i];
        const double measured_m = made.cut ? made.diameter_m : holes[i].diameter_m;
        const double flare =
            made.cut ? made.flare : holes[i].inner_diameter_m / holes[i].diameter_m;
        holes[i].diameter_m = sizes.acting_m(measured_m, i);
        holes[i].inner_diameter_m = flare * holes[i].diameter_m;
        holes[i].wall_m *= wall;
        if (made.cut) task.cut_diameter_m[i] = holes[i].diameter_m;
    }
    task.flute = now;
    task.flute.holes = holes;
    task.end_m = now.foot_m;
    for (double& bit_m : task.shop.bits_m) bit_m *= sizes.factor();
    task.shop.diameter_min_m *= sizes.factor();
    task.shop.diameter_max_m *= sizes.factor();
    for (NoteTarget& note : task.notes) {
        const double lift = lift_cents(build, note.open);
        if (task.lowest_free)
            note.interval_cents -= lift;
        else
            note.target_Hz = shifted_Hz(note.target_Hz, -lift);
    }
}

void as_measured(LayoutResult& plan, const BuildState& build) {
    const Sizes sizes(build);
    const double wall = 1.0 + build.estimate.belief.mean(kWall);
    for (std::size_t i = 0; i < plan.flute.holes.size(); ++i) {
        FingerHole& hole = plan.flute.holes[i];
        const double flare = hole.inner_diameter_m / hole.diameter_m;
        hole.diameter_m = sizes.measured_m(hole.diameter_m, i);
        hole.inner_diameter_m = flare * hole.diameter_m;
        hole.wall_m /= wall;
    }
    for (NoteResult& note : plan.notes) {
        const double lift = lift_cents(build, note.open);
        note.target_Hz = shifted_Hz(note.target_Hz, lift);
        note.sounding_Hz = shifted_Hz(note.sounding_Hz, lift);
        note.cents_per_diameter_m *= sizes.factor();
    }
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
    // A planned foot is a true length: no error of a past saw cut is in it.
    stage.foot_m = document.foot_m.value_or(stage.foot_m);
    stage.foot_cutting = -1;
    return stage;
}

}  // namespace

bool is_taught(const Document& document) {
    if (!document.pattern.empty()) return true;
    const std::vector<LogEntry> log = document.log.value_or(std::vector<LogEntry>());
    return std::any_of(log.begin(), log.end(),
                       [](const LogEntry& entry) { return entry.what == Happened::read; });
}

Json taught_layout(const Document& given) {
    const Document document = planned_like_before(given);
    const BuildState build = build_of(document);
    const LayoutTask measured = layout_task(document);
    LayoutTask task = measured;
    as_believed(task, build);
    const Air air = air_with_unknowns(build.history, build.aim.play_C, build.estimate.belief.mean);
    LayoutResult plan = place_holes(task, air);
    const Sounding sounding{plan.flute, air};
    as_measured(plan, build);
    task.notes = measured.notes;  // as the song has them, the breath's lift included
    Json json = layout_json(given, task, plan, sounding);
    json["converged"] = plan.converged && build.estimate.converged;
    return json;
}

Json taught_sound(const Document& given) {
    const Document document = planned_like_before(given);
    const BuildState build = build_of(document);
    const bool standing =
        has_log(document) && document.sounds_as.value_or(SoundsAs::standing) == SoundsAs::standing;
    SoundTask task = sound_task(document);
    task.flute = with_unknowns(build.history, stage_of(document, build, standing),
                               build.estimate.belief.mean);
    std::vector<double> lift;
    for (const NoteEntry& note : task.notes) {
        Fingering open = note.open;
        std::sort(open.begin(), open.end());
        lift.push_back(lift_cents(build, open));
    }
    const Air air = air_with_unknowns(build.history, build.aim.play_C, build.estimate.belief.mean);
    return sound_json(given, task, air, lift);
}

}  // namespace canewright
