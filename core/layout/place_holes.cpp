// core/layout/place_holes.cpp: the layout, what its notes sound, and how far one may trust it.
#include "core/layout/place_holes.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "core/base/units.hpp"
#include "core/layout/placement.hpp"
#include "core/layout/reasons.hpp"

namespace canewright {
namespace {

void fill_notes(const LayoutTask& task, const Air& air, const Sound& walked, LayoutResult& result) {
    // Slopes with everything free to move, whatever was fixed.
    LayoutTask loose = task;
    loose.flute = result.flute;
    loose.foot_fixed = loose.lowest_free = false;
    for (FingerHole& hole : loose.flute.holes) hole.at_fixed = hole.diameter_fixed = false;
    Problem problem(loose, air);
    const Eigen::VectorXd x = problem.numbers(result.flute);
    // from below, as anyone else would ask for it
    Sound sound = problem.sound(x, walked.passive_Hz, true);
    const Eigen::MatrixXd slopes = sound.speaks ? problem.slopes(x, sound) : Eigen::MatrixXd();
    result.evaluations += problem.evaluations();

    double lowest_Hz = 0.0;
    for (std::size_t n = 0; n < task.notes.size(); ++n)
        if (task.notes[n].open.empty())
            lowest_Hz = shifted_Hz(sound.frequency_Hz[n], -task.notes[n].interval_cents);
    // One that floats and does not speak: where half a wave would be.
    if (task.lowest_free && !std::isfinite(lowest_Hz)) lowest_Hz = problem.floating_Hz();
    for (std::size_t n = 0; n < task.notes.size(); ++n) {
        const NoteTarget& asked = task.notes[n];
        NoteResult note;
        note.open = asked.open;
        note.target_Hz =
            task.lowest_free ? shifted_Hz(lowest_Hz, asked.interval_cents) : asked.target_Hz;
        note.sounding_Hz = sound.frequency_Hz[n];
        note.passive_Hz = sound.passive_Hz[n];
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
        // written so that what is not a number stays to be seen
        if (!(error <= result.worst_cents)) result.worst_cents = error;
        result.errors_cents = std::hypot(result.errors_cents, error);
    }
}

// No room between the limits: holes in order, all the same, for the maker to see the conflict.
Flute spread_out(const LayoutTask& task) {
    Flute flute = task.flute;
    flute.holes.resize(static_cast<std::size_t>(task.hole_count));
    if (!task.lowest_free) flute.foot_m = task.end_m;
    const double disc_m = flute.foot_plug ? flute.foot_plug->thickness_m : 0.0;
    const double from_m = flute.sound_hole.length_m;
    const double gap_m = (flute.foot_m - disc_m - from_m) / (task.hole_count + 1);
    double at_m = from_m;
    for (FingerHole& hole : flute.holes) {
        at_m += gap_m;
        hole.at_m = at_m;
        hole.diameter_m = hole.inner_diameter_m = std::max(
            kLeastHole_m, std::min(0.5 * gap_m, kUsualHole * bore_diameter_m(flute, at_m)));
        hole.wall_m = flute.wall_m;
    }
    return flute;
}

// The walls were set where the holes lay a step before: where the bore narrows, and nothing has
// converged, a hole may have come to where it is too wide.
void keep_in_bore(const LayoutTask& task, Flute& flute) {
    for (FingerHole& hole : flute.holes) {
        const double widest_m =
            std::min(kLargestUndercut, task.widest_share) * bore_diameter_m(flute, hole.at_m);
        const double over = std::max(hole.diameter_m, hole.inner_diameter_m) / widest_m;
        if (hole.diameter_fixed || !(over > 1.0)) continue;
        hole.diameter_m /= over;
        hole.inner_diameter_m /= over;
    }
}

bool sounds_so(const LayoutResult& result, const Placement& found) {
    if (!result.room || !found.walk.sound.speaks) return false;
    std::vector<double> sounding_Hz;
    for (const NoteResult& note : result.notes) sounding_Hz.push_back(note.sounding_Hz);
    return same_notes(sounding_Hz, found.walk.sound.frequency_Hz);
}

}  // namespace

Laid laid(const LayoutTask& task, const Air& air, Placement unlimited) {
    Laid all{std::move(unlimited), {}, {}, false};
    LayoutResult& result = all.result;
    Placement& found = all.found;
    found = placement_from_anywhere(task, air, all.unlimited);
    const long unlimited_evaluations = all.unlimited.evaluations;
    const int unlimited_steps = all.unlimited.steps;
    for (bool again : {true, false}) {
        result = {};
        result.room = found.walk.feasible;
        result.flute = result.room ? found.flute : spread_out(task);
        keep_in_bore(task, result.flute);
        fill_notes(task, air, found.walk.sound, result);
        const bool same = sounds_so(result, found);
        result.converged = found.walk.converged && found.give_m == 0.0 && same;
        const bool lost = result.room && found.walk.sound.speaks && !same;
        if (!again || task.met_only) break;
        if (!lost && !(result.room && task.stands_on_edge != nullptr && found.walk.sound.speaks &&
                       task.stands_on_edge(task, air, found)))
            break;
        all.anew = true;
        (task.count_anew != nullptr ? task.count_anew : take_as_counted)(task, air, found);
    }
    result.evaluations += unlimited_evaluations + found.evaluations;
    result.steps = unlimited_steps + found.steps;
    result.loose_m = found.loose_m;
    return all;
}

LayoutResult place_holes(const LayoutTask& task, const Air& air, Explain explain) {
    LayoutTask notes_alone = task;
    notes_alone.octaves = nullptr;
    Placement unlimited = unlimited_placement(notes_alone, air);
    const bool heeds = task.octaves != nullptr && !task.met_only;
    Laid all = laid(notes_alone, air, heeds ? unlimited : std::move(unlimited));
    LayoutResult& result = all.result;
    // Where notes were lost, octaves are sought by the way on which they were found again; lost for
    // good, no octave counts.
    LayoutTask with_octaves = task;
    with_octaves.counting = all.found.counting;
    if (heeds && !(all.anew && all.found.counting < 0))
        task.octaves->heed(with_octaves, air, std::move(unlimited), result);
    // Where nothing limits, the flute moves smoothly with whatever the tube and the song are.
    const bool smooth = !all.unlimited.other_sizes && all.found.active.empty() &&
                        all.found.bit_m.empty() && !all.anew && task.octaves == nullptr &&
                        result.errors_cents < kExact_cents;
    if (task.look_beside != nullptr && !task.met_only && !smooth)
        task.look_beside(task, air, result);
    if (explain == Explain::no) return result;
    if (!result.room)
        result.binding = {{Limit::tube_end, -1, std::numeric_limits<double>::quiet_NaN()}};
    else
        result.binding = reasons(notes_alone, air, all.unlimited, all.found, result.evaluations);
    return result;
}

}  // namespace canewright
